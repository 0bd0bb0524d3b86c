import loadHighs, { type Highs } from "highs";
import type { IntegerProgramme, ProgrammeSolution, ProgrammeSolver } from "../core/planning/integer-programme.ts";

/**
 * Fixed seed, stopped by nodes and never by the clock: the same programme gives the same answer everywhere. Plans are
 * small and dense: without presolve and without searches inside the search they take a quarter of the time (measured).
 */
const steady = {
  output_flag: false,
  random_seed: 20,
  mip_rel_gap: 1e-4,
  mip_abs_gap: 0.02,
  presolve: "off",
  mip_heuristic_run_feasibility_jump: false,
  mip_heuristic_run_rins: false,
  mip_heuristic_run_rens: false,
} as const;

let loading: Promise<Highs> | null = null;

/** The solver, loaded when it is first asked for. */
export async function loadSolver(): Promise<ProgrammeSolver> {
  loading ??= loadHighs();
  const highs = await loading;
  return (programme, mostNodes) => solveWith(highs, programme, mostNodes);
}

function solveWith(highs: Highs, programme: IntegerProgramme, mostNodes: number): ProgrammeSolution {
  return highs.withModel(modelFrom(highs, programme), (model) => {
    model.options.set({ ...steady, mip_max_nodes: mostNodes });
    model.run();
    const { modelStatus } = highs.constants;
    const status = model.getModelStatus();
    const values = Number(model.info.get("primal_solution_status")) === 2 ? model.getSolution().colValue : null;
    const proven = status === modelStatus.optimal;
    return {
      values: values && Float64Array.from(values, (value, i) => settled(value, programme.columns[i])),
      objective: values ? model.getObjectiveValue() : Number.NaN,
      proven,
      gap: proven ? 0 : Number(model.info.get("mip_gap")),
      nodes: Number(model.info.get("mip_node_count")),
    };
  });
}

/** The solver works to a tolerance; whole numbers are whole and bounds are kept. */
function settled(value: number, { whole, from, to }: IntegerProgramme["columns"][number]): number {
  return Math.min(Math.max(whole ? Math.round(value) : value, from), to);
}

function modelFrom(highs: Highs, { columns, rows }: IntegerProgramme) {
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
