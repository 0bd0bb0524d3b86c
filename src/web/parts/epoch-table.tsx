import type { HistoryRow } from "../worker/protocol.ts";

/** A finding after each change of the machine, in numbers. The unit is left out where the page has said it. */
export function EpochTable({ rows, unit }: { rows: readonly HistoryRow[]; unit?: string }) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">date</th>
          <th scope="col" class="num">
            value ± U{unit === undefined ? "" : `, ${unit}`}
          </th>
          <th scope="col">after</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ date, value, uncertainty, after }, i) => (
          <tr key={`${date} ${i}`}>
            <th scope="row">{date}</th>
            <td class="num">
              {value} ± {uncertainty}
            </td>
            <td>{after}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
