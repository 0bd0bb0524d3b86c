import { isOwner } from "../../live/feed.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { machineAddress } from "../../router.ts";
import type { MeasureNext, MovesBoard, PlanPage, WhatIf } from "../../worker/protocol-moves.ts";
import { DemandTable } from "./demand-table.tsx";
import { DoneMoves } from "./done-moves.tsx";
import { HoldOuts } from "./hold-outs.tsx";
import { MoveList } from "./move-list.tsx";
import { PlannedFor, PlanQuestions } from "./plan-questions.tsx";
import { ThingList } from "./thing-list.tsx";
import { usePlan } from "./use-plan.ts";
import { queryFromWhatIf } from "./what-if.ts";
import { TriedNow, WhatIfPanel } from "./what-if-panel.tsx";

/** The plan: what it comes to, its moves in their order, and what every demand is before and after. */
export function PlanBoard({ machine, what }: { machine: string; what: WhatIf }) {
  const { board, plan, isOld } = usePlan(machine, what);
  if (!board?.ok) return <NotThere answer={board} />;
  if (plan !== null && !plan.ok) return <NotThere answer={plan} />;
  const page = plan?.value ?? null;
  return (
    <main class="plan-board">
      <Heading words="Moves" of={board.value.machine} />
      <div class="plan-main">
        <PlanQuestions machine={machine} board={board.value} />
        <TriedNow machine={machine} what={what} board={board.value} />
        <div role="status" class="plan-head">
          {page === null || isOld ? (
            <p class="headline">Working out the plan{page === null ? "" : " anew"}.</p>
          ) : (
            <PlanHead page={page} board={board.value} what={what} />
          )}
        </div>
        {isOwner.value && <WhatIfPanel machine={machine} what={what} board={board.value} />}
        {page !== null && <PlanBody machine={machine} page={page} board={board.value} what={what} isOld={isOld} />}
      </div>
      {page !== null && page.demands.length > 0 && <Brings page={page} isOld={isOld} />}
      <div class="plan-rest">
        <DoneMoves machine={machine} done={board.value.done} readAgain={board.value.readAgain} />
        <section class="plan-more">
          <h2>What the plan starts from</h2>
          <PlannedFor machine={machine} board={board.value} />
          <p class="links">
            <Link to={machineAddress(machine, "moves", "places")}>All places where the machine can be changed</Link>
            <Link to={machineAddress(machine, "moves", "stock")}>Shims to pack with</Link>
          </p>
          <StandStill board={board.value} />
        </section>
      </div>
    </main>
  );
}

/** Every demand before and after: a picture where something moves, and the numbers as a table. */
function Brings({ page, isOld }: { page: PlanPage; isOld: boolean }) {
  const moved = page.moves.length > 0;
  const table = <DemandTable demands={page.demands} moved={moved} />;
  return (
    <section class={`plan-brings${isOld ? " is-old" : ""}`} aria-labelledby="brings">
      <h2 id="brings">{moved ? "What it brings" : "What the work asks"}</h2>
      {page.picture === "" ? (
        table
      ) : (
        <>
          <Drawing svg={page.picture} />
          <details>
            <summary>The same as a table, with the chances</summary>
            {table}
          </details>
        </>
      )}
    </section>
  );
}

function PlanHead({ page, board, what }: { page: PlanPage; board: MovesBoard; what: WhatIf }) {
  const isFree = board.places.some(({ available, locked, id }) => {
    const mayMove = what.only === undefined || what.only.includes(id);
    return available && locked === null && mayMove && !what.locks?.includes(id);
  });
  return (
    <>
      <p class="headline strong">{page.headline}</p>
      {page.demands.length > 0 && <p class="small">{page.chance}</p>}
      {page.proof !== "" && <p class="small second">{page.proof}</p>}
      {!isFree && <p class="small">Everything is kept as it is, so there is nothing to move.</p>}
      {page.demands.length === 0 && <p class="small">The work asks for nothing: there is nothing to plan for.</p>}
      {!page.gatePassed && (
        <p class="small">The fit-to-measure round has not been passed, so nothing geometric is called within yet.</p>
      )}
    </>
  );
}

interface BodyProps {
  readonly machine: string;
  readonly page: PlanPage;
  readonly board: MovesBoard;
  readonly what: WhatIf;
  readonly isOld: boolean;
}

/** While a newer plan is on its way, the old one stands in the second ink and leads nowhere. */
function PlanBody({ machine, page, board, what, isOld }: BodyProps) {
  const [first] = page.moves;
  const { disputed } = board;
  const isDisputed = first !== undefined && disputed.length > 0;
  const measureFirst = page.measure?.first ?? false;
  // A plan that is only tried can be looked at, but is not what is done next.
  const isTried = queryFromWhatIf(what) !== "";
  const measure = page.measure && (
    <section>
      <h2>{headOfMeasure(page.measure)}</h2>
      {page.measure.words.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <ThingList
        machine={machine}
        things={page.measure.checks}
        act={measureFirst && !isDisputed && !isTried && !isOld}
      />
    </section>
  );
  return (
    <div class={`plan-body${isOld ? " is-old" : ""}`}>
      {isDisputed && <Disputed machine={machine} things={disputed} />}
      {measureFirst && measure}
      {first && !isOld && (
        <p>
          <Link
            class={isDisputed || measureFirst || isTried ? "button" : "button act"}
            to={machineAddress(machine, "moves", first.adjuster) + queryFromWhatIf(what)}
          >
            {isTried ? "Look at move 1" : "Begin with move 1"}
          </Link>
        </p>
      )}
      <MoveList machine={machine} moves={page.moves} what={what} />
      <HoldOuts machine={machine} holdOuts={page.holdOuts} places={board.places} />
      {!measureFirst && measure}
    </div>
  );
}

/** What a move may rest on without reason stands above it. */
function Disputed({ machine, things }: { machine: string; things: MovesBoard["disputed"] }) {
  return (
    <section class="held-back">
      <h2>Before anything is moved</h2>
      <ThingList machine={machine} things={things} act />
    </section>
  );
}

function headOfMeasure({ checks, first }: MeasureNext): string {
  if (checks.length === 0) return "Nothing to measure for it";
  return first ? "Measure this first" : "Measure next";
}

/** What must stay as it is, each with its reason. */
function StandStill({ board }: { board: MovesBoard }) {
  const locked = board.places.filter(({ locked: because }) => because !== null);
  const missing = board.places.filter(({ available }) => !available);
  if (locked.length + missing.length === 0) return null;
  return (
    <ul class="plain-list small">
      {locked.map(({ id, letter, words, locked: because }) => (
        <li key={id}>
          <b>{letter}</b> {words}: kept as it is. {because}
        </li>
      ))}
      {missing.map(({ id, letter, words }) => (
        <li key={id}>
          <b>{letter}</b> {words}: not there, or nobody gets at it
        </li>
      ))}
    </ul>
  );
}
