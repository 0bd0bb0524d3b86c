/**
 * A mixed-integer linear programme as data: least Σ cost·x with from ≤ Σ coefficient·x ≤ to for every row. Bounds may be
 * infinite. Whoever solves it must not need to know what it is about.
 */
export interface IntegerProgramme {
  readonly columns: readonly ProgrammeColumn[];
  readonly rows: readonly ProgrammeRow[];
}

export interface ProgrammeColumn {
  readonly name: string;
  readonly cost: number;
  readonly from: number;
  readonly to: number;
  readonly whole: boolean;
  /** How a first guess makes a fraction of a whole column whole; "near" when left out. */
  readonly guess?: Guess;
}

/**
 * "up" and "near" are settled all at once. A number is the column's turn: those with the least come first, each to the
 * nearest whole number that the ones before it leave room for.
 */
export type Guess = "up" | "near" | number;

export interface ProgrammeRow {
  readonly columns: readonly number[];
  readonly coefficients: readonly number[];
  readonly from: number;
  readonly to: number;
}

export interface ProgrammeSolution {
  /** In the order of the columns; null when nothing feasible was found. */
  readonly values: Float64Array | null;
  readonly objective: number;
  /** False when the search ended at its count of nodes. */
  readonly proven: boolean;
  /** Distance from the best possible objective, relative to it; 0 when proven. */
  readonly gap: number;
  readonly nodes: number;
}

/** The same programme must come to the same solution, on every machine and at every time. */
export type ProgrammeSolver = (programme: IntegerProgramme, mostNodes: number) => ProgrammeSolution;
