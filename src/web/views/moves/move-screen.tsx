import { useSignal } from "@preact/signals";
import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { machineAddress } from "../../router.ts";
import type { AdjusterPage, MoveNoted, WhatIf } from "../../worker/protocol-moves.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { DoneBar } from "./done-bar.tsx";
import { Brought, ReadAgain, StopBlock } from "./move-parts.tsx";
import { NotedPanel } from "./noted-panel.tsx";
import { usePlan } from "./use-plan.ts";
import { queryFromWhatIf } from "./what-if.ts";
import { TriedHere } from "./what-if-panel.tsx";

interface MoveScreenProps {
  readonly machine: string;
  readonly adjuster: string;
  readonly what: WhatIf;
}

/** One move at the machine: what to mind, what to loosen, which way and how far, where to stop, and that it is done. */
export function MoveScreen({ machine, adjuster, what }: MoveScreenProps) {
  const { board, plan, isOld } = usePlan(machine, what);
  const answer = useAnswer("adjuster", { machine, adjuster }).value;
  const noted = useSignal<MoveNoted | null>(null);
  const takenBack = useSignal(false);
  if (!answer?.ok) return <NotThere answer={answer} />;
  if (plan !== null && !plan.ok) return <NotThere answer={plan} />;
  const moves = plan?.value.moves ?? [];
  const place = moves.findIndex((move) => move.adjuster === adjuster);
  const move = moves[place] ?? null;
  const isKnown = plan !== null && board?.ok === true && !isOld;
  if (noted.value !== null) {
    return (
      <div class="at-move">
        <MoveTop machine={machine} what={what} words="Noted" />
        <NotedPanel
          machine={machine}
          noted={noted.value}
          what={what}
          readAgain={answer.value.readAgain}
          onTakenBack={() => {
            noted.value = null;
            takenBack.value = true;
          }}
        />
      </div>
    );
  }
  const order = move === null ? answer.value.place.minutes : `Move ${place + 1} of ${moves.length}, ${move.minutes}`;
  return (
    <div class="at-move">
      <MoveTop machine={machine} what={what} words={order} />
      <main class="move-screen">
        <div class="move-head">
          <Heading words={move?.sentence ?? headingOf(answer.value)} />
          {board?.ok && <TriedHere what={what} board={board.value} />}
          <p role="status" class={isKnown && !takenBack.value ? "hide" : "small"}>
            {takenBack.value ? "Taken back: it counts as never having been. " : ""}
            {isKnown ? "" : "Working out the plan."}
          </p>
          {isKnown && move === null && <NotInPlan page={answer.value} />}
          <Cautions page={answer.value} inOrder={move === null ? "" : (plan?.value.inOrder ?? "")} />
        </div>
        <div class="move-picture">
          <Drawing svg={move?.drawing ?? answer.value.drawing} />
        </div>
        <div class="move-words">
          <div class="fastening">
            {move !== null && move.turned !== "" && <p>{move.turned}</p>}
            {answer.value.fastening.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
            {answer.value.alsoLoose !== "" && <p>{answer.value.alsoLoose}</p>}
          </div>
          {move?.stop && <StopBlock stop={move.stop} />}
          {move && <Brought move={move} />}
          <ReadAgain machine={machine} entries={answer.value.readAgain} />
        </div>
        <DoneBar
          key={move === null ? "free" : `planned ${move.amount}`}
          machine={machine}
          page={answer.value}
          what={what}
          move={isOld ? null : move}
          isReady={isKnown}
          onNoted={(value) => {
            takenBack.value = false;
            noted.value = value;
            scrollTo(0, 0);
          }}
        />
      </main>
    </div>
  );
}

function MoveTop({ machine, what, words }: { machine: string; what: WhatIf; words: string }) {
  return (
    <header class="top">
      <Link class="button plain" to={machineAddress(machine, "moves") + queryFromWhatIf(what)}>
        Moves
      </Link>
      <p class="top-words">{words}</p>
    </header>
  );
}

function headingOf({ place: { letter, words } }: AdjusterPage): string {
  return `${letter}: ${words}`;
}

/** Above everything else, never folded away: plug and cutter first, then the joint's own, then what holds at most joints. */
function Cautions({ page: { cautions, meanwhile }, inOrder }: { page: AdjusterPage; inOrder: string }) {
  const rest = [...(inOrder === "" ? [] : [inOrder]), ...meanwhile];
  return (
    <section class="cautions" aria-label="Cautions">
      <svg class="dwg caution-sign" viewBox="0 0 30 27" aria-hidden="true">
        <path class="wide" d="M15 2L28 25H2z" />
        <path class="wide" d="M15 10V17M15 20V22" />
      </svg>
      {cautions.map((sentence, i) => (
        <p key={sentence} class={i === 0 ? "first" : ""}>
          {sentence}
        </p>
      ))}
      {rest.length > 0 && <p class="note">{rest.join(" ")}</p>}
    </section>
  );
}

function NotInPlan({ page: { place } }: { page: AdjusterPage }) {
  if (place.locked !== null) return <p>It is kept as it is: {place.locked}</p>;
  if (!place.available) return <p>It is noted as not there, or as a place that nobody gets at.</p>;
  return <p>The plan leaves it as it is. What has been moved here all the same can be noted below.</p>;
}
