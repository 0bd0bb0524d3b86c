import type { Highs } from "highs";
import type { IntegerProgramme } from "../core/planning/integer-programme.ts";

/** A programme as the solver takes it. */
export type ModelData = ReturnType<typeof modelFrom>;

export function modelFrom(highs: Highs, { columns, rows }: IntegerProgramme) {
  const starts = [0];
  for (const row of rows) starts.push(starts[starts.length - 1] + row.columns.length);
  const { variableType } = highs.constants;
  return {
    numCols: columns.length,
    numRows: rows.length,
    colCost: Float64Array.from(columns, ({ cost }) => cost),
    colLower: Float64Array.from(columns, ({ from }) => from),
    colUpper: Float64Array.from(columns, ({ to }) => to),
    rowLower: Float64Array.from(rows, ({ from }) => from),
    rowUpper: Float64Array.from(rows, ({ to }) => to),
    matrix: {
      format: "csr" as const,
      numRows: rows.length,
      numCols: columns.length,
      starts: Int32Array.from(starts),
      indices: Int32Array.from(rows.flatMap((row) => row.columns)),
      values: Float64Array.from(rows.flatMap((row) => row.coefficients)),
    },
    integrality: columns.map(({ whole }) => (whole ? variableType.integer : variableType.continuous)),
  };
}
