import { useSignal } from "@preact/signals";
import { isOwner } from "../../live/feed.ts";
import { Select } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Jump } from "../../parts/jump.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { goTo, machineAddress } from "../../router.ts";
import type { Answer, Told } from "../../worker/protocol.ts";
import type { WorkAsked, WorkBoard, WorkPage } from "../../worker/protocol-work.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { write } from "../moves/write.ts";
import type { StageProps } from "../stage-props.ts";
import { AskMore } from "./ask-more.tsx";
import { DemandList } from "./demand-list.tsx";
import { picturesPlace, WorkPictures } from "./work-pictures.tsx";
import { askedFromQuery, queryFromAsked } from "./work-query.ts";

/** What the work comes out like, as the machine stands and as the plan would leave it. */
export function WorkView({ machine, rest, query }: StageProps) {
  const asked = askedFromQuery(query);
  const board = useAnswer("workBoard", { machine }).value;
  const now = notEmpty(useAnswer("work", { machine, asked: { ...asked, after: false } }).value);
  const then = notEmpty(useAnswer("work", { machine, asked: { ...asked, after: true } }).value);
  if (!board?.ok) return <NotThere answer={board} />;
  if (now !== null && !now.ok) return <NotThere answer={now} />;
  const isNew = (answer: Answer<WorkPage> | null) => answer?.ok && answer.value.version === board.value.version;
  const page = isNew(then) ? then : isNew(now) ? now : (then ?? now);
  const look = (next: Partial<WorkAsked>) =>
    goTo(machineAddress(machine, "work", ...rest) + queryFromAsked({ ...asked, ...next }), "replace");
  return (
    <main class="work">
      <Heading words="Work" of={board.value.machine} />
      <section class="work-head">
        <KindOfWork machine={machine} board={board.value} asked={asked} look={look} />
        <Gate machine={machine} lines={board.value.gate} />
        <p role="status" class="headline">
          {page?.ok ? page.value.chance : "Working out what it comes out like."}
        </p>
        {page?.ok && !isNew(then) && (
          <p class="small second">The plan is being worked out; then it stands beside it.</p>
        )}
        {page?.ok && page.value.nothingMoved !== "" && <p class="small second">{page.value.nothingMoved}</p>}
        {page?.ok && (
          <p class="links">
            {page.value.moved && (
              <Link class="button act" to={machineAddress(machine, "moves")}>
                Show the moves
              </Link>
            )}
            <Jump to={picturesPlace}>What it comes out like, in pictures</Jump>
          </p>
        )}
      </section>
      <DemandList
        machine={machine}
        board={board.value}
        kind={asked.kind}
        page={page?.ok ? page.value : null}
        opened={rest[0] ?? null}
        query={queryFromAsked(asked)}
      />
      {isOwner.value && asked.kind === null && <AskMore machine={machine} board={board.value} />}
      {page?.ok && <WorkPictures page={page.value} sizes={asked.sizes} look={look} />}
    </main>
  );
}

/** What was asked before the machine's events had come has no answer. */
function notEmpty<T>(answer: Answer<T> | null): Answer<T> | null {
  return answer?.ok === false && answer.told.length === 0 ? null : answer;
}

interface KindProps {
  readonly machine: string;
  readonly board: WorkBoard;
  readonly asked: Omit<WorkAsked, "after">;
  readonly look: (next: Partial<WorkAsked>) => void;
}

/** Looking at another kind of work changes nothing; to say that it is one's own is written into the logbook. */
function KindOfWork({ machine, board, asked, look }: KindProps) {
  const told = useSignal<readonly Told[]>([]);
  const shown = asked.kind ?? board.chosen;
  const kind = board.kinds.find(({ id }) => id === shown);
  const isOwn = shown === board.chosen && board.isAsked;
  return (
    <div class="kind-of-work">
      <div class="work-row">
        <Select
          label="Kind of work"
          value={shown}
          answers={board.kinds.map(({ id, name }) => [id, name] as const)}
          onChoose={(id) => look({ kind: id === board.chosen ? null : id })}
        />
        {isOwner.value && !isOwn && (
          <button
            type="button"
            onClick={async () => {
              told.value = await write(machine, { kind: "work-chosen", kindOfWork: shown });
              look({ kind: null });
            }}
          >
            This is my work
          </button>
        )}
      </div>
      <p class="small second">
        {kind?.about} {isOwn ? "The plan is made for it." : "What you look at here changes nothing in the logbook."}
      </p>
      <ToldList told={told.value} />
    </div>
  );
}

function Gate({ machine, lines }: { machine: string; lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <section class="held-back">
      <h2>The fit-to-measure round comes first</h2>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      <p>
        <Link to={machineAddress(machine, "measure")}>To the round</Link>
      </p>
    </section>
  );
}
