import { FeedbackLine } from "../../parts/feedback-line.tsx";
import { Link } from "../../parts/link.tsx";
import { AddPhotograph } from "../../photographs/add-photograph.tsx";
import { machineAddress } from "../../router.ts";
import type { RunPage } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { ReadTable } from "./read-table.tsx";
import { nextCardOf } from "./rounds.ts";
import { queryFromChoice } from "./setup-query.ts";
import { goToStation, type RunPlace, type StationEntry, undo } from "./station-entry.ts";

interface RunDoneProps {
  readonly page: RunPage;
  readonly entry: StationEntry;
  readonly place: RunPlace;
}

/** Nothing is left to read: what was read, the first station once more, and where to go on. */
export function RunDone({ page, entry, place }: RunDoneProps) {
  const list = useAnswer("checks", { machine: place.machine }).value;
  const all = list?.ok ? [...list.value.fitToMeasure, ...list.value.shortRound, ...list.value.rest] : [];
  const next = list?.ok ? nextCardOf(list.value) : null;
  const mine = all.find(({ key }) => key === page.card);
  const first = page.stations[0];
  const standing = page.readings.filter(({ withdrawn }) => withdrawn === null);
  const open = page.stations.filter(
    ({ key }) => !page.readings.some(({ station, withdrawn }) => station === key && withdrawn === null),
  );
  // Every run ends where it began.
  const asksAgain = page.returns && open.length === 0 && standing.at(-1)?.station !== first?.key;
  const hasFailed = mine?.state === "failed" && open.length === 0;
  return (
    <main class="run-done">
      <h2>
        {open.length === 0
          ? "Every station is read"
          : `${open.length} of ${page.stations.length} stations are still open`}
      </h2>
      <FeedbackLine feedback={entry.feedback.value}>
        {entry.saved.value !== null && (
          <button type="button" class="plain small-button" onClick={() => void undo(entry, place.machine)}>
            Undo
          </button>
        )}
      </FeedbackLine>
      {mine?.state === "failed" && (
        <p class="out-line">
          <b class="out">Not passed:</b> {mine.where.join("; ")}. {mine.putRight} Then do it again.
        </p>
      )}
      {hasFailed && (
        <p>
          <Link
            class="button act"
            to={machineAddress(place.machine, "measure", place.check, "take") + queryFromChoice(page.setup)}
          >
            Do it again
          </Link>
        </p>
      )}
      {mine?.state === "passed" && (
        <p>
          <b class="within">Passed.</b>
        </p>
      )}
      {asksAgain && (
        <section class="next-card">
          <p>Read station 1 once more. If it has changed, something has moved, and the run is taken anew.</p>
          <button type="button" class="act" onClick={() => goToStation(entry, first.key)}>
            Station 1 again
          </button>
        </section>
      )}
      <ReadTable page={page} entry={entry} howItSits />
      <AddPhotograph key={place.machine} machine={place.machine} about={`${page.title}: `} />
      <div class="button-row">
        {next && next.card !== mine && (
          <Link
            class={`button${asksAgain || hasFailed ? "" : " act"}`}
            to={machineAddress(place.machine, "measure", next.round.id)}
          >
            Next: {next.card.title}
          </Link>
        )}
        <Link class="button" to={machineAddress(place.machine, "findings")}>
          Findings
        </Link>
        <Link class="button" to={machineAddress(place.machine, "measure")}>
          All checks
        </Link>
      </div>
    </main>
  );
}
