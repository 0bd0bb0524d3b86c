import type { Estimate } from "../fit/estimate.ts";
import { presentCovariance, presentScene, unreadVariances } from "../fit/present-scene.ts";
import type { Scene } from "../machine/kinematics.ts";
import { homingYaw, type Machine } from "../machine/machine.ts";
import type { Dual } from "../numerics/dual.ts";
import { chanceAtMost, normalAboveNothing } from "../numerics/normal-above-nothing.ts";
import { normalsFrom } from "../numerics/normals.ts";
import { dot, quadraticForm, timesMatrix } from "../numerics/symmetric.ts";
import { chanceNotBeyond, conformanceProbability } from "../standards/jcgm106.ts";
import { findingsOf } from "./catalogue.ts";
import type { Finding, LinearFinding, SampledFinding } from "./finding.ts";
import type { Gate } from "./gate.ts";
import { narrowing, UNREAD } from "./narrowing.ts";

export type Verdict = "within" | "out" | "not known yet";

/** One finding with all that is known of it. Numbers in the finding's unit, unrounded. */
export interface FindingResult {
  readonly finding: Finding;
  readonly value: number;
  /** U with coverage factor 2; for a sampled finding half the width of the equal-tailed 95 % interval. */
  readonly expandedUncertainty: number;
  readonly low: number;
  readonly high: number;
  /** Null when neither the user nor the table of usual limits sets one. */
  readonly limit: number | null;
  readonly limitIsOwn: boolean;
  /** Chance of being within the limit [JCGM 106 §7]; null without a limit. */
  readonly probability: number | null;
  /** The same after the next homing, where homing draws the yaw anew. */
  readonly afterNextHoming: { readonly probability: number | null; readonly expandedUncertainty: number } | null;
  /** Null without a limit. */
  readonly verdict: Verdict | null;
  /** True when "within" was held back because the fit-to-measure round has not been passed. */
  readonly heldBack: boolean;
  /** How far the readings have narrowed what is usual: standard deviation now over standard deviation before any. */
  readonly narrowed: number;
}

/** A finding's value with its interval, in its own unit. */
export type FindingNumbers = Pick<FindingResult, "value" | "expandedUncertainty" | "low" | "high">;

/** Limits by finding id: what the user set, and what is usual for the machine's drives. */
export interface Limits {
  readonly own: ReadonlyMap<string, number>;
  readonly usual: ReadonlyMap<string, number>;
}

/** Enough for an interval's ends to a few hundredths of its width. */
const DRAWS = 1000;

/** A chance from which on something is called within, and one up to which it is called out. */
export const WITHIN = 0.95;
export const OUT = 0.05;

/** A finding of which the readings say next to nothing: its value would only repeat what is usual. */
export function isUnread({ verdict, heldBack, narrowed }: FindingResult): boolean {
  return verdict === "not known yet" && !heldBack && narrowed > UNREAD;
}

export function evaluateFindings(estimate: Estimate, limits: Limits, gate: Gate): readonly FindingResult[] {
  const scene = presentScene(estimate);
  const before = unreadVariances(estimate);
  return findingsOf(estimate.problem.machine).map((finding) =>
    finding.form === "linear"
      ? evaluateLinear(finding, scene, estimate, before, limits, gate)
      : evaluateSampled(finding, scene, estimate, before, limits, gate),
  );
}

/**
 * A finding in any state of the machine: by the same road as the present one, so that a history ends where the list of
 * findings stands.
 *
 * @param covariance over the scene's columns, row-major
 */
export function findingNumbers(finding: Finding, scene: Scene, covariance: Float64Array): FindingNumbers {
  if (finding.form === "sampled")
    return sampledNumbers(drawReduced(finding, finding.samples(scene), scene.machine, covariance));
  const { value, gradient } = finding.evaluate(scene);
  return linearNumbers(finding, value, Math.sqrt(quadraticForm(covariance, gradient)));
}

function linearNumbers({ neverNegative }: LinearFinding, value: number, sd: number): FindingNumbers {
  const shape = neverNegative
    ? normalAboveNothing(value, sd)
    : { value, sd, low: value - 2 * sd, high: value + 2 * sd };
  return { value: shape.value, expandedUncertainty: 2 * shape.sd, low: shape.low, high: shape.high };
}

/** @param draws sorted */
function sampledNumbers(draws: Float64Array): FindingNumbers {
  const low = quantile(draws, 0.025);
  const high = quantile(draws, 0.975);
  return { value: quantile(draws, 0.5), expandedUncertainty: (high - low) / 2, low, high };
}

function evaluateLinear(
  finding: LinearFinding,
  scene: Scene,
  estimate: Estimate,
  before: Float64Array,
  limits: Limits,
  gate: Gate,
): FindingResult {
  const { value, gradient } = finding.evaluate(scene);
  const sd = Math.sqrt(varianceOf(estimate, gradient));
  const narrowed = narrowing(estimate, gradient, before);
  const { limit, own } = limitFor(finding, limits);
  const chance = (spread: number) =>
    limit === null
      ? null
      : finding.neverNegative
        ? chanceAtMost(value, spread, limit)
        : chanceWithin(finding, value, spread, limit);
  const probability = chance(sd);
  return {
    finding,
    ...linearNumbers(finding, value, sd),
    limit,
    limitIsOwn: own,
    probability,
    afterNextHoming: afterNextHoming(estimate, gradient, chance),
    narrowed,
    ...verdictFor(probability, () => chanceNotBeyond(value, sd, limit ?? 0), narrowed, gate),
  };
}

function evaluateSampled(
  finding: SampledFinding,
  scene: Scene,
  estimate: Estimate,
  before: Float64Array,
  limits: Limits,
  gate: Gate,
): FindingResult {
  const samples = finding.samples(scene);
  const draws = drawReduced(finding, samples, scene.machine, presentCovariance(estimate));
  const { limit, own } = limitFor(finding, limits);
  const probability =
    limit === null ? null : draws.reduce((count, d) => count + (Math.abs(d) <= limit ? 1 : 0), 0) / draws.length;
  const widest = samples.reduce((best, sample) => Math.max(best, narrowing(estimate, sample.gradient, before)), 0);
  return {
    finding,
    ...sampledNumbers(draws),
    limit,
    limitIsOwn: own,
    probability,
    afterNextHoming: null,
    narrowed: widest,
    ...verdictFor(probability, () => notBeyondOf(finding, samples, estimate, limit ?? 0), widest, gate),
  };
}

/**
 * The chance that the estimate does not lie beyond the limit. A largest, a spread and the width of a zone are each the
 * greatest of some sums over the samples: that sum counts which makes the number what it is at the estimate.
 */
function notBeyondOf({ reduce }: SampledFinding, samples: readonly Dual[], estimate: Estimate, limit: number): number {
  const { machine } = estimate.problem;
  const values = Float64Array.from(samples, ({ value }) => value);
  const number = reduce(values, machine);
  const deciding = new Float64Array(samples[0].gradient.length);
  samples.forEach(({ gradient }, i) => {
    const nudged = values.map((value, k) => (k === i ? value + NUDGE : value));
    const share = (reduce(nudged, machine) - number) / NUDGE;
    for (let j = 0; j < deciding.length; j++) deciding[j] += share * gradient[j];
  });
  return chanceNotBeyond(number, Math.sqrt(varianceOf(estimate, deciding)), limit);
}

/** So little that the same samples decide, mm. */
const NUDGE = 1e-7;

/** Sorted draws of the reduced samples: joint normal with the samples' own covariance, seeded by the finding's name. */
function drawReduced(
  finding: SampledFinding,
  samples: readonly Dual[],
  machine: Machine,
  covariance: Float64Array,
): Float64Array {
  const m = samples.length;
  const root = covarianceRoot(samples, covariance);
  // Samples hang on fewer modes than there are samples: most columns of the root are 0. Their normals are drawn all the
  // same, so that a finding keeps its draws when one more reading ties two samples together.
  const free = samples.flatMap((_, j) => (root[j * m + j] > 0 ? [j] : []));
  const means = Float64Array.from(samples, ({ value }) => value);
  const normals = normalsFrom(hash(finding.id), DRAWS * m);
  const values = new Float64Array(m);
  const draws = new Float64Array(DRAWS);
  for (let draw = 0; draw < DRAWS; draw++) {
    values.set(means);
    for (const j of free) {
      const normal = normals[draw * m + j];
      for (let i = j; i < m; i++) values[i] += root[i * m + j] * normal;
    }
    draws[draw] = finding.reduce(values, machine);
  }
  return draws.sort();
}

/** Lower triangle L with L·Lᵀ = J P Jᵀ; a sample that the others determine gets a row that ends in 0. */
function covarianceRoot(samples: readonly Dual[], covariance: Float64Array): Float64Array {
  const m = samples.length;
  const products = samples.map((sample) => timesMatrix(covariance, sample.gradient));
  const root = new Float64Array(m * m);
  for (let i = 0; i < m; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = dot(samples[j].gradient, products[i]);
      const whole = sum;
      for (let k = 0; k < j; k++) sum -= root[i * m + k] * root[j * m + k];
      if (i === j) root[i * m + i] = sum > 1e-12 * whole ? Math.sqrt(sum) : 0;
      else root[i * m + j] = root[j * m + j] > 0 ? sum / root[j * m + j] : 0;
    }
  }
  return root;
}

function varianceOf(estimate: Estimate, gradient: Float64Array): number {
  return quadraticForm(presentCovariance(estimate), gradient);
}

/** Without the homing in force, and with any other in its place. */
function afterNextHoming(
  estimate: Estimate,
  gradient: Float64Array,
  chance: (sd: number) => number | null,
): FindingResult["afterNextHoming"] {
  const { problem } = estimate;
  const index = problem.machine.parameterIndex.get(homingYaw) as number;
  const share = gradient[index];
  // What a homing moves by less than a tenth of what is not known anyway is not worth a word.
  const moved = Math.abs(share * problem.homingSd);
  if (moved <= 0.1 * Math.sqrt(varianceOf(estimate, gradient))) return null;
  const without = Float64Array.from(gradient);
  without[index] = 0;
  const sd = Math.sqrt(varianceOf(estimate, without) + (share * problem.homingSd) ** 2);
  return { probability: chance(sd), expandedUncertainty: 2 * sd };
}

function limitFor(finding: Finding, limits: Limits): { limit: number | null; own: boolean } {
  const own = limits.own.get(finding.id);
  if (own !== undefined) return { limit: own, own: true };
  return { limit: finding.hasLimit ? (limits.usual.get(finding.id) ?? null) : null, own: false };
}

function verdictFor(
  probability: number | null,
  notBeyond: () => number,
  narrowed: number,
  gate: Gate,
): { verdict: Verdict | null; heldBack: boolean } {
  if (probability === null) return { verdict: null, heldBack: false };
  // What is usual of machines in general is no verdict on this one.
  if (narrowed > UNREAD) return { verdict: "not known yet", heldBack: false };
  // A broad doubt is seldom within, whatever the estimate: out is what the readings have found beyond the limit.
  if (probability <= OUT && notBeyond() <= OUT) return { verdict: "out", heldBack: false };
  if (probability < WITHIN) return { verdict: "not known yet", heldBack: false };
  return gate.passed ? { verdict: "within", heldBack: false } : { verdict: "not known yet", heldBack: true };
}

function chanceWithin(finding: Finding, value: number, sd: number, limit: number): number {
  if (sd === 0) return Math.abs(value) <= limit ? 1 : 0;
  const lower = finding.sided === "two" ? -limit : Number.NEGATIVE_INFINITY;
  return conformanceProbability(value, sd, { lower, upper: limit });
}

function quantile(sorted: Float64Array, p: number): number {
  const at = p * (sorted.length - 1);
  const below = Math.floor(at);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}

function hash(text: string): number {
  let h = 2166136261;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 16777619) >>> 0;
  return h;
}
