import { formatNumber, showUncertainty } from "../core/base/number-format.ts";
import type { FindingResult } from "../core/findings/evaluate.ts";
import type { Finding } from "../core/findings/finding.ts";
import { type Cause, causesOf, confusedWith } from "../core/fit/apart.ts";
import { gradientOverVariables, presentScene } from "../core/fit/present-scene.ts";
import { correctedStepsPerMm, stepsPerMmFromDescription } from "../core/machine/drives.ts";
import type { Dual } from "../core/numerics/dual.ts";
import { runTitle } from "../core/planning/next-check-words.ts";
import { possibleRuns } from "../core/planning/possible-runs.ts";
import { sharpeningRuns } from "../core/planning/sharpening.ts";
import type { LogEvent } from "../logbook/events.ts";
import type { Assessment } from "./assess.ts";
import { type Carrier, carriersOfGradient } from "./carriers.ts";
import { instrumentKinds } from "./catalog.ts";
import { type DatedPoint, historyInWords } from "./history-in-words.ts";

/** The grounds of a finding, in words and numbers for page and command line alike. */
export interface Grounds {
  readonly carriedBy: readonly Carrier[];
  readonly apart: string;
  readonly sharpenedBy: readonly string[];
  /** For a scale: the steps per mm that would cure it, where the drive is described. */
  readonly cure: string | null;
  readonly history: readonly DatedPoint[];
}

/** @param events of the logbook, for the time of day at the place */
export function explainFinding(
  assessment: Assessment,
  result: FindingResult,
  events: readonly Pick<LogEvent, "at">[] = [],
): Grounds {
  const { estimate } = assessment;
  const gradient = gradientOf(result.finding, assessment);
  const overAll = gradientOverVariables(estimate, gradient);
  return {
    carriedBy: carriersOf(assessment, result),
    apart: apartInWords(assessment, result, gradient, overAll),
    sharpenedBy: sharpeners(assessment, result, overAll),
    cure: cureOfScale(assessment, result),
    history: historyInWords(assessment, result.finding, events),
  };
}

/** Only as true as the rule: the cure carries the scale's own doubt with it. */
function cureOfScale({ machine }: Assessment, { finding, value, expandedUncertainty }: FindingResult): string | null {
  const axis = /^scale\.([xyz])$/.exec(finding.id)?.[1] as "x" | "y" | "z" | undefined;
  if (!axis) return null;
  const now = stepsPerMmFromDescription(machine.dimensions.details.drives[axis]);
  if (now === null)
    return `Describe the drive of ${axis.toUpperCase()} (steps per mm, or motor, microsteps and pulley or lead), and the figure that cures it stands here.`;
  const then = correctedStepsPerMm(now, value);
  const doubt = (then * expandedUncertainty) / 1000;
  return `Steps per mm of ${axis.toUpperCase()}: ${formatNumber(now, 3)} now, ${formatNumber(then, 3)} ± ${formatNumber(doubt, 3)} would cure it.`;
}

/** A sampled finding is explained by the sample, or the pair of samples, that makes it what it is. */
function gradientOf(finding: Finding, { estimate }: Assessment): Float64Array {
  const scene = presentScene(estimate);
  if (finding.form === "linear") return finding.evaluate(scene).gradient;
  const samples = finding.samples(scene);
  const byValue = [...samples].sort((a, b) => a.value - b.value);
  const low = byValue[0];
  const high = byValue[byValue.length - 1];
  if (finding.sided === "two") return farthest(samples).gradient;
  return high.gradient.map((g, i) => g - low.gradient[i]);
}

function farthest(samples: readonly Dual[]): Dual {
  return samples.reduce((best, sample) => (Math.abs(sample.value) > Math.abs(best.value) ? sample : best));
}

/** The runs that carry a finding, the weightiest first, and what is usual. */
export function carriersOf(assessment: Assessment, { finding }: FindingResult): Grounds["carriedBy"] {
  const { estimate } = assessment;
  return carriersOfGradient(estimate, gradientOverVariables(estimate, gradientOf(finding, assessment)));
}

function listed(words: readonly string[]): string {
  const named = words.map((word) => (word.startsWith("the ") ? word : `the ${word}`));
  return named.length === 1 ? named[0] : `${named.slice(0, -1).join(", ")} and ${named[named.length - 1]}`;
}

/** A finding that the readings have narrowed to less than this of what is usual is told from everything that matters. */
const KNOWN = 0.1;

/** How much of what is usual must be left of a mode before it counts as not told from the others. */
const OPEN = 0.6;

/** Narrowed to less than this of what is usual, a finding is known as a whole, whatever makes it. */
const AS_A_WHOLE = 0.25;

/** Of the weightiest cause: one that weighs less is not named where hardly anything is known. */
const WEIGHTY = 0.2;

/** Which causes the readings leave open: for a finding that is known as a whole, and for one that is not. */
function apartInWords(
  { estimate }: Assessment,
  { finding, narrowed, expandedUncertainty }: FindingResult,
  gradient: Float64Array,
  overAll: Float64Array,
): string {
  const sentences: string[] = [];
  const confused = narrowed > KNOWN ? confusedWith(estimate, overAll).slice(0, 4) : [];
  if (confused.length > 0) sentences.push(`It cannot be told from ${listed(confused.map(({ words }) => words))}.`);
  const causes = causesOf(estimate, gradient);
  // What is known as a whole is not told apart where a cause can still make more of it than is in doubt of the whole.
  const doubt = expandedUncertainty / 2;
  const isOpen = ({ open, left, weight }: Cause) =>
    narrowed < AS_A_WHOLE ? left > doubt : open > OPEN && weight > WEIGHTY * causes[0].weight;
  const open = causes.filter(isOpen).map(({ words }) => words);
  if (open.length === 1 && narrowed > OPEN)
    sentences.push(`It rests on ${listed(open)}, which no reading has touched.`);
  if (open.length > 1) {
    const known = narrowed < AS_A_WHOLE ? "It is known as a whole; which of its causes makes it is not. " : "";
    sentences.push(`${known}The readings do not tell these apart: ${listed(open)}.`);
    const against = finding.id.startsWith("over-bed") || finding.id.startsWith("beam-over-bed");
    if (against) sentences.push("Nothing that is measured against the bed does, and the work need not know.");
  }
  return sentences.length === 0 ? "Nothing that matters: the readings have it by itself." : sentences.join(" ");
}

/**
 * The three checks that would bring U down most with what the user has; where none does, with what could be got. The
 * runs are those of which the next check is chosen.
 */
function sharpeners(
  { estimate, machine, timeline }: Assessment,
  result: FindingResult,
  g: Float64Array,
): readonly string[] {
  const { own, listed: toGet } = possibleRuns(machine, timeline, { kinds: instrumentKinds.values() });
  const mine = sharpeningRuns(estimate, g, own);
  const worth = (mine.length > 0 ? mine : sharpeningRuns(estimate, g, toGet)).slice(0, SHOWN);
  if (worth.length === 0) return ["You know enough: nothing in the catalogue would bring U down by a tenth."];
  return worth.map(({ run, leaves }) => {
    // A sampled finding's U is scaled: the ratio is what the check changes.
    const to = result.expandedUncertainty * leaves;
    const get = run.lacks.length === 0 ? "" : `, which you would have to get (${run.lacks.join(", ")})`;
    return `${runTitle(run)} with ${run.setup.instrument.name}${get}: U falls from ${showUncertainty(result.expandedUncertainty)} to ${showUncertainty(to)}, in ${run.minutes} minutes.`;
  });
}

const SHOWN = 3;
