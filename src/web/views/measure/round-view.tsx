import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { StationRing } from "../../parts/station-ring.tsx";
import { Waiting } from "../../parts/waiting.tsx";
import { preferredUnit } from "../../preferences.ts";
import { machineAddress } from "../../router.ts";
import type { CheckEntry } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { SkimFirst } from "../moves/plan-questions.tsx";
import { isDone, type Round, roundsOf } from "./rounds.ts";
import { Cautions } from "./set-up-view.tsx";
import { queryFromChoice } from "./setup-query.ts";

interface RoundProps {
  readonly machine: string;
  readonly id: Round["id"];
  /** The card that is asked for; the first that is still open where none is. */
  readonly card: string | null;
}

/** A round, one card at a time: what, why, how, and straight on to its stations. */
export function RoundView({ machine, id, card }: RoundProps) {
  const answer = useAnswer("checks", { machine }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const round = roundsOf(answer.value).find((candidate) => candidate.id === id) as Round;
  const asked = round.checks.findIndex((check) => check.id === card);
  const at = asked >= 0 ? asked : round.checks.findIndex((check) => !isDone(check));
  const done = round.checks.filter(isDone).length;
  return (
    <main class="round-view narrow">
      <Heading words={round.title} of={answer.value.machine} />
      <p class="small second">
        {done} of {round.checks.length} {id === "fit-to-measure" ? "passed" : "taken"}. {done === 0 && round.words}
      </p>
      {id === "fit-to-measure" && <SkimFirst machine={machine} />}
      <Cards machine={machine} round={round} at={at} />
      {at < 0 ? (
        <RoundDone machine={machine} round={round} />
      ) : (
        <Card key={round.checks[at].id} machine={machine} round={round} at={at} />
      )}
      <p class="links">
        <Link to={machineAddress(machine, "measure", id, "type")}>Type the whole round in from its sheets</Link>
        <Link
          to={`${machineAddress(machine, "measure", "blank")}?of=${round.checks.map((check) => check.id).join(",")}`}
        >
          Print its sheets
        </Link>
        <Link to={machineAddress(machine, "measure")}>All checks</Link>
      </p>
    </main>
  );
}

function cardAddress(machine: string, round: Round, check: CheckEntry): string {
  return `${machineAddress(machine, "measure", round.id)}?card=${encodeURIComponent(check.id)}`;
}

/** Every card of the round as a numbered ring: filled where it is done. */
function Cards({ machine, round, at }: { machine: string; round: Round; at: number }) {
  return (
    <nav class="round-cards" aria-label={`Cards of the round: ${round.title}`}>
      <ol>
        {round.checks.map((check, i) => (
          <li key={check.id}>
            <Link
              to={cardAddress(machine, round, check)}
              current={i === at}
              label={`${i + 1}, ${check.title}: ${check.state}`}
            >
              <StationRing number={i + 1} state={i === at ? "now" : isDone(check) ? "read" : "open"} />
            </Link>
          </li>
        ))}
      </ol>
    </nav>
  );
}

function Card({ machine, round, at }: { machine: string; round: Round; at: number }) {
  const check = round.checks[at];
  const answer = useAnswer("check", { machine, choice: { check: check.id }, unit: preferredUnit() }).value;
  if (!answer?.ok) return <Waiting />;
  const page = answer.value;
  const base = machineAddress(machine, "measure", check.id);
  const lacksTool = page.families.length > 0 && page.chosen.instrument === null;
  const [before, after] = [round.checks[at - 1], round.checks[at + 1]];
  return (
    <section class="round-card" aria-labelledby="round-card">
      <p class="small second">
        Card {at + 1} of {round.checks.length}. {page.minutes} minutes. With: {page.toolsAtHand.join(", ")}.
      </p>
      <h2 id="round-card">{page.title}</h2>
      <p>{page.settles}</p>
      {check.state === "failed" && (
        <p>
          <b class="out">Not passed:</b> {check.where.join("; ")}. Put that right, then do it again.
        </p>
      )}
      {isDone(check) && <p class="small second">It is done. To do it again is no harm.</p>}
      <Cautions page={page} />
      <Drawing svg={page.narrow} />
      <ol class="steps">
        {page.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <div class="button-row">
        <Link class="button act" to={lacksTool ? base : `${base}/take${queryFromChoice(page.chosen)}`}>
          {lacksTool ? "Choose what it is read with" : page.entry.kind === "verdict" ? "Begin" : "Start with station 1"}
        </Link>
        <Link class="button" to={base}>
          More on it, and other ways
        </Link>
      </div>
      <div class="button-row">
        {before && (
          <Link class="button" to={cardAddress(machine, round, before)}>
            Back
          </Link>
        )}
        {after && (
          <Link class="button" to={cardAddress(machine, round, after)}>
            Skip for now
          </Link>
        )}
      </div>
    </section>
  );
}

function RoundDone({ machine, round }: { machine: string; round: Round }) {
  const isGate = round.id === "fit-to-measure";
  return (
    <section class="next-card" aria-labelledby="round-done">
      <h2 id="round-done">{isGate ? "The machine is fit to be measured" : "The short round is done"}</h2>
      <p>
        {isGate
          ? "Nothing is loose, nothing slips, and it comes back to where it was. What is read from here on means something."
          : "Most of what matters to the work is known now."}
      </p>
      <Link
        class="button act"
        to={isGate ? machineAddress(machine, "measure", "short-round") : machineAddress(machine, "next")}
      >
        {isGate ? "On to the short round" : "Show what comes next"}
      </Link>
    </section>
  );
}
