import type { Machine } from "../../src/core/machine/machine.ts";
import type { Random } from "../../src/core/numerics/random.ts";

/** A machine drawn from the priors, times `size`: 1 is a machine as it comes, 0.001 one on which only first order shows. */
export function randomState(machine: Machine, random: Random, size = 1): Float64Array {
  return Float64Array.from(machine.parameters, (id) => {
    const mode = machine.modes.find((candidate) => candidate.id === id);
    if (!mode) return size * 0.2 * random.normal();
    const draw = mode.priorMean + mode.priorSd * random.normal();
    return size * (mode.neverNegative ? Math.abs(draw) : draw);
  });
}

/** Central differences of a function of several numbers. */
export function centralDifferences(
  f: (at: Float64Array) => number,
  at: Float64Array,
  step = 1e-2,
  columns: readonly number[] = Array.from(at, (_, i) => i),
): Float64Array {
  return Float64Array.from(columns, (i) => {
    const up = Float64Array.from(at);
    const down = Float64Array.from(at);
    up[i] += step;
    down[i] -= step;
    return (f(up) - f(down)) / (2 * step);
  });
}

/** The largest difference of two gradients, relative to the larger of 1 and their own size. */
export function disagreement(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let most = a.length === b.length ? 0 : Number.POSITIVE_INFINITY;
  for (let i = 0; i < a.length; i++) {
    const off = Math.abs(a[i] - b[i]) / Math.max(1, Math.abs(a[i]), Math.abs(b[i]));
    // Written so that something that is no number is the largest disagreement of all.
    if (!(off <= most)) most = Number.isNaN(off) ? Number.POSITIVE_INFINITY : off;
  }
  return most;
}
