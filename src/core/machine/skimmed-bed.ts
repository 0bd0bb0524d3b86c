import type { Machine } from "./machine.ts";

/** Shape that a skimming cutter leaves to chance over the whole bed, mm (common practice, no source). */
const LEFT_MM = 0.02;

/**
 * What skimming leaves of the bed's own modes: mean 0 and this standard deviation, in the modes' units. The depth of the
 * skim is free. The print is gone: a new one starts from what is usual.
 */
export function skimLeaves(machine: Machine): ReadonlyMap<string, number> {
  const { Lx, Ly } = machine.dimensions;
  const shape: readonly (readonly [string, number])[] = [
    ["bed.height", 1],
    ["bed.tilt.x", (LEFT_MM * 1000) / Lx],
    ["bed.tilt.y", (LEFT_MM * 1000) / Ly],
    ["bed.twist", LEFT_MM],
    ["bed.dome.x", LEFT_MM],
    ["bed.dome.y", LEFT_MM],
  ];
  const print = machine.modes.flatMap(({ id, priorSd }) => (id.startsWith("grid.") ? [[id, priorSd] as const] : []));
  return new Map([...shape, ...print]);
}
