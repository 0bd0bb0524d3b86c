import { VerdictMark } from "../../parts/verdict.tsx";
import type { DemandRow } from "../../worker/protocol-moves.ts";

/** Every demand of the work: its limit, what it is now and after the moves, and the verdict to be expected. */
export function DemandTable({ demands, moved }: { demands: readonly DemandRow[]; moved: boolean }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what moves sideways has to be reached by keys
    <section class="wide-table" aria-label="Demands as a table" tabIndex={0}>
      <table class="demand-table">
        <thead>
          <tr>
            <th scope="col">demand</th>
            <th scope="col" class="num">
              at most
            </th>
            <th scope="col" class="num">
              now
            </th>
            {moved && (
              <th scope="col" class="num">
                then
              </th>
            )}
            <th scope="col">{moved ? "expected" : "it is"}</th>
            <th scope="col" class="num">
              chance
            </th>
          </tr>
        </thead>
        <tbody>
          {demands.map(({ id, title, limit, before, after, chance, verdict }) => (
            <tr key={id}>
              <th scope="row">{title}</th>
              <td class="num">{limit}</td>
              <td class="num">{before}</td>
              {moved && <td class="num strong">{after}</td>}
              <td>
                <VerdictMark verdict={verdict} />
              </td>
              <td class="num">{chance}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
