import { parse } from "csv-parse/browser/esm/sync";
import { refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import type { TypedReading } from "./take-run.ts";

/**
 * A table of readings: a line of names, then one reading a line. Columns: reading (for two entries "first" and
 * "second"), station or x, y, z in mm, unit. Parted by comma, semicolon or tab; a semicolon leaves the comma as decimal mark.
 */
export function readingsFromTable(text: string, file: string, unit?: string): Outcome<readonly TypedReading[]> {
  const head = text.replace(/^\uFEFF/, "").split(/\r?\n/, 1)[0] ?? "";
  const delimiter = head.includes(";") ? ";" : head.includes("\t") ? "\t" : ",";
  let names: readonly string[] = [];
  let rows: readonly Row[];
  try {
    rows = parse(text, {
      delimiter,
      bom: true,
      trim: true,
      skip_empty_lines: true,
      info: true,
      columns: (heads: string[]) => {
        names = heads.map((name) => name.toLowerCase());
        return [...names];
      },
    }) as unknown as Row[];
  } catch (error) {
    const { lines, code } = error as { lines?: number; code?: string };
    const where = { file, ...(lines !== undefined && { line: lines }) };
    return refuse(refusal("table-not-readable", where, { reason: reasons[code ?? ""] ?? "it is not a table" }));
  }
  if (!names.includes("reading") && !(names.includes("first") && names.includes("second"))) {
    return refuse(refusal("table-column-missing", { file, line: 1 }, { column: "reading" }));
  }
  return succeed(
    rows.map(({ record, info }) => {
      const station = record.station || placeFrom(record);
      const ownUnit = record.unit || unit;
      return {
        text: record.reading ?? `${record.first}:${record.second}`,
        file,
        line: info.lines,
        ...(station && { station }),
        ...(ownUnit && { unit: ownUnit }),
      };
    }),
  );
}

interface Row {
  readonly record: Readonly<Record<string, string>>;
  readonly info: { readonly lines: number };
}

const reasons: Readonly<Record<string, string>> = {
  CSV_RECORD_INCONSISTENT_COLUMNS: "this line has not as many columns as the first",
  CSV_QUOTE_NOT_CLOSED: "a quotation mark is opened and never closed",
  CSV_INVALID_CLOSING_QUOTE: "text stands behind a closing quotation mark",
  INVALID_OPENING_QUOTE: "a quotation mark stands in the middle of a cell",
};

function placeFrom(row: Readonly<Record<string, string>>): string {
  return ["x", "y", "z"]
    .filter((axis) => row[axis])
    .map((axis) => `${axis}=${row[axis].replace(",", ".")}`)
    .join(" ");
}
