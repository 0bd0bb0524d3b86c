import { parse } from "csv-parse/browser/esm/sync";
import { refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import type { UnitId } from "../core/base/units.ts";
import type { TypedReading } from "./take-run.ts";

/**
 * A table of readings: a line of names, then one reading a line. Columns: reading (for two entries "first" and
 * "second"), station or x, y, z in mm, unit. Parted by comma, semicolon or tab; a semicolon leaves the comma as decimal mark.
 */
export function readingsFromTable(text: string, file: string, unit?: UnitId): Outcome<readonly TypedReading[]> {
  const head = text.split(/\r?\n/, 1)[0] ?? "";
  const delimiter = head.includes(";") ? ";" : head.includes("\t") ? "\t" : ",";
  let rows: Record<string, string>[];
  try {
    rows = parse(text, {
      delimiter,
      bom: true,
      trim: true,
      skip_empty_lines: true,
      columns: (names: string[]) => names.map((name) => name.toLowerCase()),
    }) as Record<string, string>[];
  } catch (error) {
    const line = (error as { lines?: number }).lines;
    const where = { file, ...(line !== undefined && { line }) };
    return refuse(refusal("table-not-readable", where, { reason: String((error as Error).message).split("\n")[0] }));
  }
  const names = Object.keys(rows[0] ?? {});
  if (!names.includes("reading") && !(names.includes("first") && names.includes("second"))) {
    return refuse(refusal("table-column-missing", { file, line: 1 }, { column: "reading" }));
  }
  return succeed(
    rows.map((row, index) => {
      const station = row.station || placeFrom(row);
      const ownUnit = (row.unit || unit) as UnitId | undefined;
      return {
        text: row.reading ?? `${row.first}:${row.second}`,
        file,
        line: index + 2,
        ...(station && { station }),
        ...(ownUnit && { unit: ownUnit }),
      };
    }),
  );
}

function placeFrom(row: Readonly<Record<string, string>>): string {
  return ["x", "y", "z"]
    .filter((axis) => row[axis])
    .map((axis) => `${axis}=${row[axis].replace(",", ".")}`)
    .join(" ");
}
