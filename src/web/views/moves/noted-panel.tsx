import { useSignal } from "@preact/signals";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { ToldList } from "../../parts/told.tsx";
import { VerdictSymbol } from "../../parts/verdict.tsx";
import { machineAddress } from "../../router.ts";
import type { Told } from "../../worker/protocol.ts";
import type { MoveNoted, ReadAgainEntry, WhatIf } from "../../worker/protocol-moves.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { takeMoveBack } from "./done-moves.tsx";
import { timeAndTools } from "./thing-list.tsx";
import { usePlan } from "./use-plan.ts";
import { queryFromWhatIf } from "./what-if.ts";
import { write } from "./write.ts";

interface NotedPanelProps {
  readonly machine: string;
  readonly noted: MoveNoted;
  readonly readAgain: readonly ReadAgainEntry[];
  readonly what: WhatIf;
  readonly onTakenBack: () => void;
}

/** What was noted, how the last reading sits, and what comes next; all of it can be taken back. */
export function NotedPanel({ machine, noted, readAgain, what, onTakenBack }: NotedPanelProps) {
  const told = useSignal<readonly Told[]>([]);
  const [first, ...rest] = noted.sentences;
  return (
    <main class="noted-panel">
      <Heading words={first.replace(/\.$/, "")} />
      <div role="status">
        {rest.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {noted.reading && (
          <p class="feedback-words">
            {noted.reading.fits !== "new" && (
              <VerdictSymbol verdict={noted.reading.fits === "far" ? "out" : "within"} />
            )}
            <span>{noted.reading.words}</span>
          </p>
        )}
        {readAgain.length > 0 && (
          <p class="small">
            To be read again when the round of moves is through: {readAgain.map(({ title }) => title).join(", ")}.
          </p>
        )}
      </div>
      <ToldList told={told.value} />
      <NextMove machine={machine} what={what} from={noted.version} />
      <div class="button-row">
        <button
          type="button"
          onClick={async () => {
            told.value = await takeBack(machine, noted);
            if (told.value.length === 0) onTakenBack();
          }}
        >
          Undo
        </button>
        <Link class="button" to={machineAddress(machine, "moves") + queryFromWhatIf(what)}>
          All moves
        </Link>
        <Link class="button" to={machineAddress(machine, "findings")}>
          Findings
        </Link>
      </div>
    </main>
  );
}

async function takeBack(machine: string, { adjuster, move }: MoveNoted): Promise<readonly Told[]> {
  if (adjuster !== "bed.skim") return takeMoveBack(machine, move);
  return write(machine, { kind: "happening-withdrawn", happening: move, because: "Noted by mistake." });
}

/** The plan has changed by what was done, so what comes next is worked out anew. */
function NextMove({ machine, what, from }: { machine: string; what: WhatIf; from: number }) {
  const { plan, isOld } = usePlan(machine, what);
  useAnswer("next", { machine, wait: true });
  const answer = useAnswer("next", { machine, wait: false }).value;
  const page = answer?.ok && answer.value.version >= from ? answer.value : null;
  if (page === null || (page.asksPlan && !page.planned)) {
    return (
      <section class="next-card">
        <p role="status">Working out what comes next.</p>
      </section>
    );
  }
  if (page.now === null) return <p>{page.nothing}</p>;
  const move = plan?.ok && !isOld && plan.value.version >= from ? plan.value.moves[0] : undefined;
  const isThat =
    move !== undefined &&
    `${machineAddress(machine)}/${page.now.path}` === machineAddress(machine, "moves", move.adjuster);
  return (
    <>
      <section class="next-card" aria-labelledby="after-this">
        <h2 id="after-this">{page.now.title}</h2>
        <p class="small second">{timeAndTools(page.now)}</p>
        <p>{page.now.why}</p>
        <Link class="button act" to={`${machineAddress(machine)}/${page.now.path}`}>
          {page.now.button}
        </Link>
      </section>
      {move !== undefined && !isThat && (
        <p>
          <Link class="button" to={machineAddress(machine, "moves", move.adjuster) + queryFromWhatIf(what)}>
            On with the moves: {move.letter}, the first of {plan?.ok ? plan.value.moves.length : 1}
          </Link>
        </p>
      )}
    </>
  );
}
