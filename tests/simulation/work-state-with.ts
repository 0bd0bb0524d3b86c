import type { Machine } from "../../src/core/machine/machine.ts";
import type { WorkState } from "../../src/core/work/work-state.ts";

/** A machine of which some modes are out and some are not quite known; all others are nothing, and known to be. */
export function workStateWith(
  machine: Machine,
  modes: Readonly<Record<string, number>>,
  standardDeviations: Readonly<Record<string, number>> = {},
): WorkState {
  const size = machine.parameters.length;
  const column = (id: string) => {
    const index = machine.parameterIndex.get(id);
    if (index === undefined) throw new Error(`${machine.layout.id} has no ${id}`);
    return index;
  };
  const state = new Float64Array(size);
  for (const [id, value] of Object.entries(modes)) state[column(id)] = value;
  const covariance = new Float64Array(size * size);
  for (const [id, sd] of Object.entries(standardDeviations)) covariance[column(id) * (size + 1)] = sd * sd;
  return { scene: { machine, state, size, skim: null }, covariance };
}
