import { Drawing } from "../../parts/drawing.tsx";
import { Link } from "../../parts/link.tsx";
import { VerdictMark } from "../../parts/verdict.tsx";
import { machineAddress } from "../../router.ts";
import type { PlannedMovePage, ReadAgainEntry, StopPage } from "../../worker/protocol-moves.ts";

/** The reading at which to stop, as large as a result, with the band that is good enough and where it is read. */
export function StopBlock({ stop }: { stop: StopPage }) {
  return (
    <section class="stop-block" aria-label="Where to stop">
      <div>
        {stop.setUpFirst !== "" && <p>{stop.setUpFirst}</p>}
        <p class="stop-lead">
          <span>{stop.lead}</span>
          {stop.now !== "" && <span class="small second nowrap">{stop.now}</span>}
        </p>
        <p class="stop-reading">{stop.clause}</p>
        {stop.band !== "" && <p class="small">{stop.band}</p>}
        {stop.setUpElse !== "" && <p class="small">{stop.setUpElse}</p>}
        <p class="note">
          {stop.title}, {stop.goesOn}
          {stop.instrument.name === "" ? "" : `; ${stop.instrument.name}`}.
        </p>
      </div>
      <div class="stop-plan">
        <Drawing svg={stop.plan} />
      </div>
    </section>
  );
}

/** Every demand that it changes: before, after, and what is to be expected when the whole plan is through. */
export function Brought({ move }: { move: PlannedMovePage }) {
  if (move.brings.length === 0) return null;
  return (
    <section class="brought">
      <h2>What it brings</h2>
      <Drawing svg={move.picture} />
      <details>
        <summary>The same as a table</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">demand</th>
              <th scope="col" class="num">
                now
              </th>
              <th scope="col" class="num">
                then
              </th>
              <th scope="col" class="num">
                at most
              </th>
              <th scope="col">after the plan</th>
            </tr>
          </thead>
          <tbody>
            {move.brings.map(({ title, before, after, limit, unit, verdict }) => (
              <tr key={title}>
                <th scope="row">{title}</th>
                <td class="num">{before}</td>
                <td class="num strong">{after}</td>
                <td class="num">
                  {limit} {unit}
                </td>
                <td>
                  <VerdictMark verdict={verdict} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
}

/** What it disturbs: these are read again when the round of moves is through. */
export function ReadAgain({ machine, entries }: { machine: string; entries: readonly ReadAgainEntry[] }) {
  if (entries.length === 0) return null;
  return (
    <section>
      <h2>To be read again afterwards</h2>
      <ul class="plain-list">
        {entries.map(({ check, title, minutes }) => (
          <li key={check}>
            <Link to={machineAddress(machine, "measure", check)}>{title}</Link>
            <span class="second small">{minutes} minutes, once for the whole round</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
