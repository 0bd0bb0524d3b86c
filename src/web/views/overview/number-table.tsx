import type { NumberRow } from "../../worker/protocol.ts";

/** The numbers that the drawing shows, for whoever does not see it. */
export function NumberTable({ rows }: { rows: readonly NumberRow[] }) {
  if (rows.length === 0) return null;
  return (
    <details class="numbers">
      <summary>The numbers of this drawing</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">What it shows</th>
            <th scope="col" class="num">
              value ± U
            </th>
            <th scope="col">unit</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ words, value, uncertainty, unit }) => (
            <tr key={words}>
              <th scope="row">{words}</th>
              <td class="num">
                {value} ± {uncertainty}
              </td>
              <td>{unit}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
