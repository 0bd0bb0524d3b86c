import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { StationRing } from "../../parts/station-ring.tsx";
import { Waiting } from "../../parts/waiting.tsx";
import { preferredUnit } from "../../preferences.ts";
import { machineAddress } from "../../router.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { isDone, type Round, roundsOf, setUpOf } from "./rounds.ts";
import { Cautions, keptOf } from "./set-up-view.tsx";
import { queryFromChoice } from "./setup-query.ts";

interface RoundProps {
  readonly machine: string;
  readonly id: Round["id"];
  /** The card that is asked for, or "summary"; the first that is still open where none is. */
  readonly card: string | null;
}

/** A round, one card at a time: what, why, how, and straight on to its stations. What is done, the logbook knows. */
export function RoundView({ machine, id, card }: RoundProps) {
  const answer = useAnswer("checks", { machine }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const round = roundsOf(answer.value).find((candidate) => candidate.id === id) as Round;
  const { cards } = round;
  const asked = cards.findIndex(({ key }) => key === card);
  const open = firstOpen(round);
  const at = card === "summary" ? -1 : asked >= 0 ? asked : open;
  const done = cards.filter(isDone).length;
  return (
    <main class="round-view narrow">
      <Heading words={round.title} of={answer.value.machine} />
      <p class="small second">
        {done} of {cards.length} {id === "fit-to-measure" ? "passed" : "taken"}. {done === 0 && round.words}
      </p>
      {id === "short-round" && !answer.value.fitToMeasurePassed && (
        <p class="held-back">
          The <Link to={machineAddress(machine, "measure", "fit-to-measure")}>fit-to-measure round</Link> comes before
          this one: what is loose gives readings that mean nothing.
        </p>
      )}
      <Cards machine={machine} round={round} at={at} />
      {at < 0 ? (
        <Summary machine={machine} round={round} open={open} />
      ) : (
        <Card key={cards[at].key} machine={machine} round={round} at={at} />
      )}
      <p class="links">
        <Link to={machineAddress(machine, "measure", id, "type")}>Type the whole round in from its sheets</Link>
        <Link to={`${machineAddress(machine, "measure", "blank")}?of=${cards.map(({ key }) => key).join(",")}`}>
          Print its sheets
        </Link>
        {at >= 0 && <Link to={cardAddress(machine, round, "summary")}>How the round stands</Link>}
        <Link to={machineAddress(machine, "measure")}>All checks</Link>
      </p>
    </main>
  );
}

/** What was begun last and broken off comes before what has not been begun. */
function firstOpen({ cards }: Round): number {
  const begun = cards.findIndex(({ unfinished }) => unfinished !== null);
  return begun >= 0 ? begun : cards.findIndex((card) => !isDone(card));
}

function cardAddress(machine: string, round: Round, key: string): string {
  return `${machineAddress(machine, "measure", round.id)}?card=${encodeURIComponent(key)}`;
}

/** Every card of the round as a numbered ring: filled where it is done. */
function Cards({ machine, round, at }: { machine: string; round: Round; at: number }) {
  return (
    <nav class="round-cards not-printed" aria-label={`Cards of the round: ${round.title}`}>
      <ol>
        {round.cards.map((card, i) => (
          <li key={card.key}>
            <Link
              to={cardAddress(machine, round, card.key)}
              current={i === at}
              label={`${i + 1}, ${card.title}: ${card.state}`}
            >
              <StationRing number={i + 1} state={i === at ? "now" : isDone(card) ? "read" : "open"} />
            </Link>
          </li>
        ))}
      </ol>
    </nav>
  );
}

function Card({ machine, round, at }: { machine: string; round: Round; at: number }) {
  const card = round.cards[at];
  const { options, unfinished } = card;
  const answer = useAnswer("check", { machine, choice: { check: card.id, options }, unit: preferredUnit() }).value;
  if (!answer?.ok) return <Waiting />;
  const page = answer.value;
  const base = machineAddress(machine, "measure", card.id);
  const lacksTool = page.families.length > 0 && page.chosen.instrument === null;
  const start = lacksTool
    ? { to: base + setUpOf(card), words: "Choose what it is read with" }
    : unfinished !== null
      ? {
          to: machineAddress(machine, "measure", card.id, "run", unfinished.run),
          words: `Go on with station ${unfinished.next}`,
        }
      : {
          to: `${base}/take${queryFromChoice(page.chosen)}`,
          words:
            card.state === "failed" ? "Do it again" : page.entry.kind === "verdict" ? "Begin" : "Start with station 1",
        };
  const before = round.cards[at - 1];
  return (
    <section class="round-card" aria-labelledby="round-card">
      <p class="small second">
        Card {at + 1} of {round.cards.length}. {page.minutes} minutes. With: {page.toolsAtHand.join(", ")}.
      </p>
      <h2 id="round-card">{card.title}</h2>
      <p>{page.settles}</p>
      <p>{card.why}</p>
      {card.state === "failed" && (
        <p class="out-line">
          <b class="out">Not passed:</b> {card.where.join("; ")}. {card.putRight} Then do it again.
        </p>
      )}
      {unfinished !== null ? (
        <p class="small second">{keptOf(unfinished)}</p>
      ) : (
        isDone(card) && <p class="small second">It is done. To do it again is no harm.</p>
      )}
      <Cautions machine={machine} page={page} />
      <Drawing svg={page.narrow} />
      <ol class="steps">
        {page.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <div class="button-row">
        <Link class="button act" to={start.to}>
          {start.words}
        </Link>
        <Link class="button" to={base + setUpOf(card)}>
          More on it, and other ways
        </Link>
      </div>
      <div class="button-row">
        {before && (
          <Link class="button" to={cardAddress(machine, round, before.key)}>
            Back
          </Link>
        )}
        <Link class="button" to={cardAddress(machine, round, round.cards[at + 1]?.key ?? "summary")}>
          Skip for now
        </Link>
      </div>
    </section>
  );
}

/** How the round stands: what did not pass with what to put right, what is still open, and one button onward. */
function Summary({ machine, round, open }: { machine: string; round: Round; open: number }) {
  const isGate = round.id === "fit-to-measure";
  const failed = round.cards.filter(({ state }) => state === "failed");
  const left = round.cards.filter((card) => !isDone(card) && card.state !== "failed");
  const onward =
    open >= 0
      ? { to: cardAddress(machine, round, round.cards[open].key), words: `Go on with card ${open + 1}` }
      : isGate
        ? { to: machineAddress(machine, "measure", "short-round"), words: "On to the short round" }
        : { to: machineAddress(machine, "next"), words: "Show what comes next" };
  return (
    <section class="next-card" aria-labelledby="round-done">
      <h2 id="round-done">{summaryTitle(isGate, failed.length, left.length)}</h2>
      {failed.length + left.length === 0 && (
        <p>
          {isGate
            ? "Nothing is loose, nothing slips, and it comes back to where it was. What is read from here on means something."
            : "Most of what matters to the work is known now."}
        </p>
      )}
      {failed.length > 0 && (
        <ul class="dash-list">
          {failed.map((card) => (
            <li key={card.key}>
              <Link to={cardAddress(machine, round, card.key)}>{card.title}</Link> <b class="out">not passed</b>:{" "}
              {card.where.join("; ")}. {card.putRight}
            </li>
          ))}
        </ul>
      )}
      {left.length > 0 && <p>Still open: {left.map(({ title }) => title).join("; ")}.</p>}
      <Link class="button act" to={onward.to}>
        {onward.words}
      </Link>
    </section>
  );
}

function summaryTitle(isGate: boolean, failed: number, left: number): string {
  if (failed > 0) return failed === 1 ? "One card did not pass" : `${failed} cards did not pass`;
  if (left > 0) return left === 1 ? "One card is still open" : `${left} cards are still open`;
  return isGate ? "The machine is fit to be measured" : "The short round is done";
}
