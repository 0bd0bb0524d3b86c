import type { ShareRow } from "../worker/protocol-parts.ts";

/** What carries something: the share as a number, and as a bar for the eye. */
export function ShareTable({ rows, of }: { rows: readonly ShareRow[]; of?: string }) {
  return (
    <table class="shares">
      {of !== undefined && <caption class="hide">{of}</caption>}
      <thead class="hide">
        <tr>
          <th scope="col">run</th>
          <th scope="col">share</th>
          <th scope="col">as a bar</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ what, share, part }) => (
          <tr key={what}>
            <th scope="row">{what}</th>
            <td class="num">{share}</td>
            <td class="share-bar">
              <svg class="dwg" viewBox="0 0 72 10" aria-hidden="true">
                <rect class="ink" x="0" y="1" width={Math.max(1, 72 * part)} height="7" />
              </svg>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
