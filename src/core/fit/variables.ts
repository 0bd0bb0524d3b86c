/** One number that the estimate finds: a mode during an epoch, a homing, or an unknown of a run, an object, a tool. */
export interface Variable {
  readonly id: string;
  readonly words: string;
  readonly kind: "mode" | "homing" | "unknown" | "place" | "scatter";
  /** Where it starts: the prior's mean, or a guess for one that follows from another. */
  readonly start: number;
  /** Standard deviation that is usual for it; scales what counts as a small change. */
  readonly usualSd: number;
}

/** Two variables tied to one another across a change of the machine, or one to its prior: Σ coefficient·value ≈ target ± sd. */
export interface Tie {
  readonly stage: number;
  readonly columns: readonly number[];
  readonly coefficients: readonly number[];
  readonly target: number;
  readonly sd: number;
}

/** Grows while the problem is laid out; then it is only read. */
export class VariableList {
  readonly variables: Variable[] = [];
  readonly ties: Tie[] = [];
  readonly #indexById = new Map<string, number>();

  /** A variable with a prior of its own. Asking again for the same id gives the same variable. */
  withPrior(stage: number, variable: Omit<Variable, "start" | "usualSd">, mean: number, sd: number): number {
    const known = this.#indexById.get(variable.id);
    if (known !== undefined) return known;
    const index = this.add({ ...variable, start: mean, usualSd: sd });
    this.ties.push({ stage, columns: [index], coefficients: [1], target: mean, sd });
    return index;
  }

  add(variable: Variable): number {
    const index = this.variables.length;
    this.variables.push(variable);
    this.#indexById.set(variable.id, index);
    return index;
  }

  indexOf(id: string): number | undefined {
    return this.#indexById.get(id);
  }
}
