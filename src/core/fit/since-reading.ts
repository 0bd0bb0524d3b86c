import { optionOf } from "../checks/check.ts";
import { skimLeaves } from "../machine/skimmed-bed.ts";
import type { Estimate } from "./estimate.ts";
import { adjustersAtMoves } from "./hand-scatter.ts";
import { predictObservation } from "./linearise.ts";
import { shareShifted } from "./mode-history.ts";
import type { Observation } from "./observations.ts";
import type { LaidOutObservation, Problem } from "./problem.ts";
import type { Happening } from "./timeline.ts";

/**
 * What has come since a station was read, for whoever wants it read a second time.
 *
 * - nothing: it can still be read as it was.
 * - read anew: another run has read the same station since.
 * - changed: something has been done to the machine that the reading hangs on, so that it cannot be repeated.
 */
export type SinceReading =
  | { readonly kind: "nothing" }
  | { readonly kind: "read anew"; readonly at: number }
  | { readonly kind: "changed"; readonly at: number; readonly by: Happening["kind"] };

/** A change of what is read by less than this share of its standard deviation leaves it repeatable. */
const LEAST_CHANGE = 0.5;

/** @param index number of the observation in the problem */
export function sinceReading(estimate: Estimate, index: number): SinceReading {
  const { problem } = estimate;
  const observation = problem.observations[index];
  const change = firstChange(estimate, observation);
  const anew = problem.observations
    .filter((other) => other.run.id !== observation.run.id && isSamePlace(observation, other))
    .map(({ values: [first] }) => first?.reading.at ?? Number.NEGATIVE_INFINITY)
    .filter((at) => at > lastReadAt(observation) && (change === null || at < change.at));
  if (anew.length > 0) return { kind: "read anew", at: Math.max(...anew) };
  return change === null ? { kind: "nothing" } : { kind: "changed", at: change.at, by: change.kind };
}

function lastReadAt({ values }: Observation): number {
  return Math.max(Number.NEGATIVE_INFINITY, ...values.map(({ reading }) => reading.at));
}

/** The same station of the same check, done with the same answers. */
function isSamePlace(one: Observation, other: Observation): boolean {
  return (
    one.check.id === other.check.id &&
    one.station.key === other.station.key &&
    one.check.options.every(({ key }) => optionOf(one.check, one.setup, key) === optionOf(one.check, other.setup, key))
  );
}

function firstChange({ problem, values }: Estimate, observation: LaidOutObservation): Happening | null {
  const { machine, epochs, modes } = problem;
  const { gradient } = predictObservation(problem, observation, values);
  const sd = Math.min(Number.POSITIVE_INFINITY, ...observation.values.map((value) => value.sd));
  const surface = modes[observation.epoch].bedSurface;
  const onBed = observation.check.touches?.(observation.setup, observation.station) ?? [];
  const isOnBed = onBed.some(({ surface: on }) => on === "bed" || on.startsWith("grid"));
  for (let e = observation.epoch + 1; e < epochs.length; e++) {
    for (const happening of epochs[e].changes) {
      const remade = isOnBed && modes[e].bedSurface !== surface && isAtBed(happening);
      const size = sizesOf(problem, happening).reduce((sum, [mode, by]) => {
        const at = machine.parameterIndex.get(mode);
        return at === undefined ? sum : sum + Math.abs(gradient[at] * by);
      }, 0);
      if (remade || size > LEAST_CHANGE * sd) return happening;
    }
  }
  return null;
}

function isAtBed({ kind }: Happening): boolean {
  return kind === "skimmed" || kind === "part-replaced";
}

/** By how much a happening may have changed each mode, in the mode's unit. */
function sizesOf({ machine, timeline }: Problem, happening: Happening): readonly (readonly [string, number])[] {
  switch (happening.kind) {
    case "moved": {
      const adjuster = adjustersAtMoves(machine, timeline)(happening);
      if (!adjuster) return [];
      const ofMode = (id: string) => machine.modes.find((mode) => mode.id === id)?.priorSd ?? 0;
      return [
        ...Object.entries(adjuster.effect).map(([id, perUnit]) => [id, perUnit * happening.amount] as const),
        ...Object.entries(adjuster.frees),
        ...Object.keys(adjuster.leaves ?? {}).map((id) => [id, ofMode(id)] as const),
      ];
    }
    case "skimmed":
      return [...skimLeaves(machine)];
    default:
      return machine.modes.map((mode) => [mode.id, shareShifted(happening, mode) * mode.priorSd] as const);
  }
}
