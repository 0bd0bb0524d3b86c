import type { Signal } from "@preact/signals";
import { record } from "../../outbox/outbox.ts";
import { preferences } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { CheckPage, Draft, ReadingVerdict } from "../../worker/protocol.ts";

/** A run that was typed in and kept just now. */
export interface KeptRun {
  readonly run: string;
  readonly page: CheckPage;
  readonly verdicts: readonly ReadingVerdict[];
  /** Puts what was typed back into its form. */
  readonly restore: () => void;
}

/** What was kept at one go, with how each reading sits; all of it can be taken back here. */
export function KeptRuns({ machine, kept }: { machine: string; kept: Signal<readonly KeptRun[]> }) {
  const runs = kept.value;
  const count = runs.reduce((sum, { verdicts }) => sum + verdicts.length, 0);

  async function undo() {
    const drafts = runs.map(({ run }) => ({
      kind: "run-withdrawn",
      run,
      because: "Taken back as soon as it was typed in.",
    }));
    const answer = await ask("propose", { machine, drafts: drafts as Draft[], by: preferences.value.by });
    if (!answer.ok) return;
    await record(machine, answer.value);
    for (const { restore } of runs) restore();
    kept.value = [];
  }

  return (
    <section class="kept-runs" aria-label="What was kept">
      <p class="headline" role="status">
        {count === 1 ? "One reading is kept." : `${count} readings are kept.`}
      </p>
      {runs.map((one) => (
        <KeptTable key={one.run} {...one} hasTitle={runs.length > 1} />
      ))}
      <p>
        <button type="button" onClick={() => void undo()}>
          Undo
        </button>{" "}
        <span class="small second">It is then withdrawn, and what was typed stands in the form again.</span>
      </p>
    </section>
  );
}

function KeptTable({ page, verdicts, hasTitle }: KeptRun & { hasTitle: boolean }) {
  return (
    <table>
      <caption class={hasTitle ? "" : "hide"}>{page.title}</caption>
      <thead>
        <tr>
          <th scope="col">no</th>
          <th scope="col">station</th>
          <th scope="col">how it sits</th>
        </tr>
      </thead>
      <tbody>
        {verdicts.map(({ reading, station, what, fits, strong, rest }) => (
          <tr key={reading}>
            <td class="strong">{page.stations.find(({ key }) => key === station)?.number}</td>
            <th scope="row">{what}</th>
            <td class={fits === "failed" ? "out" : fits === "far" ? "strong" : ""}>
              {strong + (fits === "far" ? "" : rest)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
