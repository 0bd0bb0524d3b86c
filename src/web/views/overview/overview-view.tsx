import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { Loaded, type Loads } from "../../parts/loaded.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { preferences } from "../../preferences.ts";
import { machineAddress } from "../../router.ts";
import type { Overview } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { NextCard } from "../next/next-view.tsx";
import type { StageProps } from "../stage-props.ts";
import { NumberTable } from "./number-table.tsx";

/** The stages as they are listed beside the drawing: those of `stages.ts` but the drawing itself, told in one sentence each. */
const listed = [
  ["next", "Next"],
  ["measure", "Measure"],
  ["findings", "Findings"],
  ["moves", "Moves"],
  ["work", "Work"],
  ["readings", "Readings"],
  ["history", "History"],
  ["tools", "Tools"],
  ["description", "Machine"],
] as const;

/** One machine: its drawing, what to do next, and the stages of the loop. */
export function OverviewView({ machine, rest }: StageProps) {
  return rest[0] === "turned" ? <Loaded of={turned} props={{ machine }} /> : <DrawingView machine={machine} />;
}

/** What turns the machine in space is large, and few ask for it. */
const turned: Loads<{ machine: string }> = async () => (await import("./turned-view.tsx")).TurnedView;

function DrawingView({ machine }: { machine: string }) {
  const { projection } = preferences.value;
  const answer = useAnswer("overview", { machine, projection }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  return (
    <main class="overview">
      <Heading words={page.name} />
      <p class="headline">{page.headline}</p>
      {page.meaning !== "" && <p>{page.meaning}</p>}
      {page.demonstration && <p class="note">An invented machine with invented readings, to look around in.</p>}
      {page.setAside !== null && <p class="note">Set aside: {page.setAside}</p>}
      <section class="sheet-frame" aria-label="Drawing of the machine">
        <div class="on-wide">
          <Drawing svg={page.sheet} frame name="Drawing of the machine in three views" />
        </div>
        <div class="on-narrow">
          <Drawing svg={page.plan} />
        </div>
        <NumberTable rows={page.shown} />
        <p class="links">
          <Link to={machineAddress(machine, "overview", "turned")}>Turn it in space</Link>
        </p>
      </section>
      <aside class="beside">
        {page.next && <NextCard thing={page.next} machine={machine} />}
        <StageList machine={machine} page={page} />
      </aside>
    </main>
  );
}

function StageList({ machine, page }: { machine: string; page: Overview }) {
  return (
    <ul class="stage-list">
      {listed.map(([id, title]) => (
        <li key={id}>
          <Link to={machineAddress(machine, id)}>
            <b>{title}</b> <span>{page.stages[id] ?? ""}</span>
          </Link>
        </li>
      ))}
    </ul>
  );
}
