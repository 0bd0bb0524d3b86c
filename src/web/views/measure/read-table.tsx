import { StationRing } from "../../parts/station-ring.tsx";
import type { RunPage } from "../../worker/protocol.ts";
import { goToStation, type StationEntry } from "./station-entry.ts";

/** What stands at every station of the run, `now` marked, and how it sits where that is asked. */
export function ReadTable({
  page,
  entry,
  now,
  howItSits = false,
}: {
  page: RunPage;
  entry: StationEntry;
  now?: string;
  howItSits?: boolean;
}) {
  const symbol = page.entry.units.find(({ id }) => id === page.entry.unit)?.symbol;
  const isVerdict = page.entry.kind === "verdict";
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">no</th>
          <th scope="col">station</th>
          <th scope="col" class="num">
            {howItSits ? `reading ${isVerdict ? "" : symbol}` : isVerdict ? "answer" : symbol}
          </th>
          {howItSits && <th scope="col">how it sits</th>}
        </tr>
      </thead>
      <tbody>
        {page.stations.map(({ number, key, words }) => {
          const texts = page.readings
            .filter(({ station, withdrawn }) => station === key && withdrawn === null)
            .map(({ text }) => text);
          return (
            <tr key={key} class={key === now ? "opened" : undefined}>
              <td>
                <StationRing number={number} state={key === now ? "now" : texts.length > 0 ? "read" : "open"} />
              </td>
              <th scope="row">
                <button type="button" class="plain" onClick={() => goToStation(entry, key)}>
                  {words}
                </button>
              </th>
              <td class="num">{texts.join("; ")}</td>
              {howItSits && <td>{entry.verdicts.value.get(key)?.strong ?? ""}</td>}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
