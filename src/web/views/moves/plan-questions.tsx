import { useSignal } from "@preact/signals";
import { isOwner } from "../../live/feed.ts";
import { Choice, Select } from "../../parts/fields.tsx";
import { Link } from "../../parts/link.tsx";
import { ToldList } from "../../parts/told.tsx";
import { machineAddress } from "../../router.ts";
import type { Told } from "../../worker/protocol.ts";
import type { MovesBoard } from "../../worker/protocol-moves.ts";
import { write } from "./write.ts";

interface Props {
  readonly machine: string;
  readonly board: MovesBoard;
}

const skimAnswers = [
  ["yes", "Yes, it skims its bed"],
  ["no", "No, it stays as it is"],
  ["ask", "Let the plan propose it"],
] as const;
type SkimAnswer = (typeof skimAnswers)[number][0];
const willOf: Readonly<Record<SkimAnswer, boolean | null>> = { yes: true, no: false, ask: null };

/** What a plan cannot know: asked once, before anything is taken in hand. */
export function PlanQuestions({ machine, board }: Props) {
  const { work, skim } = board;
  if (!isOwner.value || (work.isAsked && skim.isAsked)) return null;
  return (
    <section class="held-back plan-questions" aria-label="Asked before the plan">
      {!skim.isAsked && <SkimQuestion machine={machine} />}
      {!work.isAsked && <WorkQuestion machine={machine} board={board} />}
    </section>
  );
}

function SkimQuestion({ machine }: { machine: string }) {
  const told = useSignal<readonly Told[]>([]);
  return (
    <div class="question">
      <h2>Will the router plane its own bed flat?</h2>
      <p class="small">
        That is called skimming the bed. If it is done, the bed’s present shape counts for nothing: it is levelled only
        roughly, and the spindle is set square to the motion instead of to the bed.
      </p>
      <div class="button-row">
        {skimAnswers.map(([answer, words]) => (
          <button
            type="button"
            key={answer}
            onClick={async () => {
              told.value = await write(machine, { kind: "skim-decided", will: willOf[answer] });
            }}
          >
            {words}
          </button>
        ))}
      </div>
      <ToldList told={told.value} />
    </div>
  );
}

function WorkQuestion({ machine, board: { work } }: Props) {
  const chosen = useSignal(work.chosen);
  const told = useSignal<readonly Told[]>([]);
  return (
    <div class="question">
      <h2>What is the machine for?</h2>
      <p class="small">The kind of work says how true it has to be; the plan moves no more than that asks.</p>
      <div class="work-row">
        <Select
          label="Kind of work"
          value={chosen.value}
          answers={work.kinds.map(({ id, name }) => [id, name] as const)}
          onChoose={(id) => {
            chosen.value = id;
          }}
        />
        <button
          type="button"
          onClick={async () => {
            told.value = await write(machine, { kind: "work-chosen", kindOfWork: chosen.value });
          }}
        >
          Plan for this
        </button>
      </div>
      <ToldList told={told.value} />
    </div>
  );
}

/** What was answered, to be changed at any time. */
export function PlannedFor({ machine, board }: Props) {
  const told = useSignal<readonly Told[]>([]);
  const { work, skim, stock } = board;
  const name = work.kinds.find(({ id }) => id === work.chosen)?.name ?? work.chosen;
  const answer: SkimAnswer = skim.will === null ? "ask" : skim.will ? "yes" : "no";
  const said = {
    yes: "the bed will be skimmed",
    no: "the bed stays as it is",
    ask: "the plan may propose to skim the bed",
  }[answer];
  return (
    <>
      <p>
        It is for <b>{name.charAt(0).toLowerCase() + name.slice(1)}</b>
        {work.isAsked ? "" : ", as long as nothing else is said"}; {said}.{" "}
        {stock.isUsual
          ? "You have not said which shims you have, so the plan takes a usual assortment"
          : "Shims to pack with"}
        : {stock.words}.
      </p>
      {isOwner.value && (
        <details>
          <summary>Change what it is for, or the bed</summary>
          <div class="planned-for">
            <Select
              label="Kind of work"
              hint={<Link to={machineAddress(machine, "findings")}>What is out, whatever the work</Link>}
              value={work.chosen}
              answers={work.kinds.map((kind) => [kind.id, kind.name] as const)}
              onChoose={async (kindOfWork) => {
                told.value = await write(machine, { kind: "work-chosen", kindOfWork });
              }}
            />
            <Choice
              label="Will the router plane its own bed flat?"
              value={answer}
              answers={skimAnswers}
              onChoose={async (next) => {
                told.value = await write(machine, { kind: "skim-decided", will: willOf[next] });
              }}
            />
            <ToldList told={told.value} />
          </div>
        </details>
      )}
    </>
  );
}
