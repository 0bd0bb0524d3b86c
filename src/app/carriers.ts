import { checkById } from "../core/checks/catalogue.ts";
import type { Setup } from "../core/checks/check.ts";
import type { Estimate } from "../core/fit/estimate.ts";
import { gradientOverVariables } from "../core/fit/present-scene.ts";
import { sharesOfInformation } from "../core/fit/shares.ts";
import { homingYaw } from "../core/machine/machine.ts";
import { runTitle } from "../core/planning/next-check-words.ts";
import type { Demand } from "../core/work/demand.ts";
import { limitedFunctions } from "../core/work/limited-functions.ts";
import { workState } from "../core/work/work-state.ts";
import { runName } from "./run-name.ts";

/** Something that carries a part of what is known, or of what is in doubt; shares are of 1. */
export interface Carrier {
  readonly what: string;
  readonly share: number;
}

const SHOWN = 6;

/** Less than this is not worth a line. */
const SLIGHT = 0.01;

/** The runs that carry something, the weightiest first, and what is usual. `overAll` is over the problem's variables. */
export function carriersOfGradient(estimate: Estimate, overAll: Float64Array): readonly Carrier[] {
  return weightiest(allCarriers(estimate, overAll));
}

/**
 * What the doubt of a demand comes from, as shares of its variance: the runs, what is usual, and the homing that is still
 * to come. Of a demand's many samples the one counts, or of a spread the two, that may reach furthest with what is in
 * doubt of them: they decide most often whether the limit is kept. Empty where nothing is in doubt.
 */
export function carriersOfDemand(estimate: Estimate, demand: Demand): readonly Carrier[] {
  const functions = limitedFunctions(demand, workState(estimate));
  const reach = ({ value, variance }: (typeof functions)[number]) =>
    Math.abs(value) + COVERAGE * Math.sqrt(Math.max(0, variance));
  const furthest = functions.reduce((best, one) => (reach(one) > reach(best) ? one : best));
  if (!(furthest.variance > 0)) return [];
  const { machine, homingSd } = estimate.problem;
  const home = machine.parameterIndex.get(homingYaw) as number;
  const gradient = Float64Array.from(furthest.gradient());
  // The homing to come is drawn apart from all that is known, so that its part is added to that of the readings.
  const homing = (gradient[home] * homingSd) ** 2 / furthest.variance;
  gradient[home] = 0;
  const known = allCarriers(estimate, gradientOverVariables(estimate, gradient));
  return weightiest([
    { what: "the next homing", share: homing },
    ...known.map(({ what, share }) => ({ what, share: share * (1 - homing) })),
  ]);
}

/** Standard deviations to the end of an interval that covers about 95 %: only to choose by, so it need not be finer. */
const COVERAGE = 2;

function allCarriers(estimate: Estimate, overAll: Float64Array): readonly Carrier[] {
  return sharesOfInformation(estimate, overAll).map(({ run, share }) => ({
    share,
    what: run === null ? "what is usual" : runInWords(run.check, run.options, run.id),
  }));
}

function weightiest(carriers: readonly Carrier[]): readonly Carrier[] {
  return carriers
    .filter(({ share }) => share > SLIGHT)
    .sort((a, b) => b.share - a.share)
    .slice(0, SHOWN);
}

function runInWords(check: string, options: Setup["options"], id: string): string {
  const known = checkById(check);
  return `${known ? runTitle({ check: known, setup: { options } }) : check}, ${runName(id)}`;
}
