import { useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import { record } from "../../outbox/outbox.ts";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { Waiting } from "../../parts/waiting.tsx";
import { machineAddress } from "../../router.ts";
import type { CheckEntry, CheckPage } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { type KeptRun, KeptRuns } from "./kept-runs.tsx";
import { type Round, roundsOf, setUpOf } from "./rounds.ts";
import { SheetFields, SheetHeadFields, SheetTold } from "./sheet-fields.tsx";
import {
  clearSheet,
  emptyHead,
  forgetTrial,
  isDay,
  isEmpty,
  keptFrom,
  type SheetHead,
  type TypedSheet,
  trySheet,
  typedSheetOf,
  useCheckPage,
  useKept,
} from "./typed-sheet.ts";

/** A card of the round with what is typed of it; its page once that is known. */
interface Part {
  readonly sheet: TypedSheet;
  page: CheckPage | null;
}

/** All sheets of a round in one form: what was filled in at the machine is typed at one go, and tried before it is kept. */
export function RoundTypeInView({ machine, id }: { machine: string; id: Round["id"] }) {
  const answer = useAnswer("checks", { machine }).value;
  const parts = useRef(new Map<string, Part>());
  const slip = useSignal("");
  const head = useSignal<SheetHead>(emptyHead());
  const kept = useSignal<readonly KeptRun[]>([]);
  if (!answer?.ok) return <NotThere answer={answer} />;
  const round = roundsOf(answer.value).find((candidate) => candidate.id === id) as Round;
  const partOf = ({ key }: CheckEntry): Part => {
    const part = parts.current.get(key) ?? { sheet: typedSheetOf(machine, key), page: null };
    parts.current.set(key, part);
    return part;
  };
  const typed = round.cards.map(partOf).filter(({ sheet }) => !isEmpty(sheet));
  const count = typed.reduce((sum, { sheet }) => sum + (sheet.tried.value?.verdicts.length ?? 0), 0);
  const isTried = typed.length > 0 && typed.every(({ sheet }) => sheet.tried.value !== null);

  async function tryAll() {
    if (!isDay(head.value.date)) return;
    for (const [i, { sheet, page }] of typed.entries()) if (page) await trySheet(machine, page, sheet, head.value, i);
    const wrong = typed.filter(({ sheet }) => sheet.tried.value === null).length;
    slip.value =
      typed.length === 0
        ? "Nothing is typed yet."
        : wrong === 0
          ? ""
          : "Some of it cannot be read yet: what is meant stands with each check. Nothing is kept.";
  }

  async function keepAll() {
    const runs: KeptRun[] = [];
    for (const { sheet, page } of typed) {
      if (sheet.tried.value === null || page === null) continue;
      runs.push(keptFrom(page, sheet, sheet.tried.value));
      await record(machine, sheet.tried.value.events);
      clearSheet(sheet);
    }
    kept.value = runs;
  }

  if (kept.value.length > 0) {
    return (
      <main class="type-in round-type-in">
        <Heading words={`${round.title}: the whole round`} of={answer.value.machine} />
        <KeptRuns machine={machine} kept={kept} />
        <p>
          <Link class="button act" to={machineAddress(machine, "measure", id)}>
            Go on with the round
          </Link>
        </p>
      </main>
    );
  }

  return (
    <main class="type-in round-type-in">
      <Heading words={`${round.title}: the whole round`} of={answer.value.machine} />
      <p class="small second">
        In the order of the printed sheets. What stays empty is not read. Enter leads to the next field.
      </p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void tryAll();
        }}
      >
        <SheetHeadFields
          head={head}
          onChanged={() => {
            for (const { sheet } of parts.current.values()) forgetTrial(sheet);
          }}
        />
        {round.cards.map((card) => (
          <Sheet key={card.key} machine={machine} card={card} part={partOf(card)} />
        ))}
        <div class="button-row" role="status">
          {isTried ? (
            <>
              <button type="button" class="act" onClick={() => void keepAll()}>
                Keep {count === 1 ? "this reading" : `these ${count} readings`}
              </button>
              <span class="small second">Nothing is kept yet.</span>
            </>
          ) : (
            <button type="submit" class="act">
              See how they sit
            </button>
          )}
          {slip.value !== "" && <span>{slip.value}</span>}
        </div>
      </form>
    </main>
  );
}

function Sheet({ machine, card, part }: { machine: string; card: CheckEntry; part: Part }) {
  useKept(part.sheet, machine, card.key);
  const answer = useCheckPage(machine, card.id, new URLSearchParams(setUpOf(card)), part.sheet);
  if (!answer?.ok) return <Waiting />;
  part.page = answer.value;
  return (
    <fieldset class="round-sheet">
      <legend>{card.title}</legend>
      {answer.value.entry.instrument !== "" && <p class="small second">Read with {answer.value.entry.instrument}.</p>}
      <SheetFields page={answer.value} sheet={part.sheet} />
      <SheetTold page={answer.value} sheet={part.sheet} />
    </fieldset>
  );
}
