import { formatNumber } from "../core/base/number-format.ts";
import { checkById, geometricChecks } from "../core/checks/catalogue.ts";
import type { FindingResult } from "../core/findings/evaluate.ts";
import type { Finding } from "../core/findings/finding.ts";
import { historyOf } from "../core/findings/history.ts";
import { causesOf, confusedWith } from "../core/fit/apart.ts";
import { expectedVariances } from "../core/fit/expected.ts";
import { gradientOverVariables, presentScene } from "../core/fit/present-scene.ts";
import { sharesOfInformation } from "../core/fit/shares.ts";
import type { Instrument } from "../core/instruments/instrument.ts";
import { usualInstrument } from "../core/instruments/instrument.ts";
import { correctedStepsPerMm, stepsPerMmFromDescription } from "../core/machine/drives.ts";
import type { Dual } from "../core/numerics/dual.ts";
import type { Assessment } from "./assess.ts";
import { kindsOfFamily } from "./catalog.ts";

/** The grounds of a finding, in words and numbers for page and command line alike. */
export interface Grounds {
  readonly carriedBy: readonly { readonly what: string; readonly share: number }[];
  readonly apart: string;
  readonly sharpenedBy: readonly string[];
  /** For a scale: the steps per mm that would cure it, where the drive is described. */
  readonly cure: string | null;
  readonly history: readonly {
    readonly date: string;
    readonly value: number;
    readonly expandedUncertainty: number;
    readonly after: string;
  }[];
}

export function explainFinding(assessment: Assessment, result: FindingResult): Grounds {
  const { estimate } = assessment;
  const gradient = gradientOf(result.finding, assessment);
  const overAll = gradientOverVariables(estimate, gradient);
  return {
    carriedBy: carriersOf(assessment, result),
    apart: apartInWords(assessment, result, gradient, overAll),
    sharpenedBy: sharpeners(assessment, result, overAll),
    cure: cureOfScale(assessment, result),
    history: historyOf(estimate, result.finding).map(({ at, value, expandedUncertainty, after }) => ({
      date: new Date(at).toISOString().slice(0, 10),
      value,
      expandedUncertainty,
      after: after.join(", "),
    })),
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
  const shares = sharesOfInformation(estimate, gradientOverVariables(estimate, gradientOf(finding, assessment)));
  return shares
    .filter(({ share }) => share > 0.01)
    .slice(0, 6)
    .map(({ run, share }) => ({
      share,
      what: run === null ? "what is usual" : runInWords(run.check, run.options, run.id),
    }));
}

function runInWords(check: string, options: Readonly<Record<string, unknown>>, id: string): string {
  const how = Object.values(options).filter((value) => typeof value === "string");
  return `${checkById(check)?.words.title ?? check}${how.length > 0 ? ` (${how.join(", ")})` : ""}, run ${id.slice(-6)}`;
}

function listed(words: readonly string[]): string {
  const named = words.map((word) => (word.startsWith("the ") ? word : `the ${word}`));
  return named.length === 1 ? named[0] : `${named.slice(0, -1).join(", ")} and ${named[named.length - 1]}`;
}

/** A finding that the readings have narrowed to less than this of what is usual is told from everything that matters. */
const KNOWN = 0.1;

/** How much of what is usual must be left of a mode before it counts as not told from the others. */
const OPEN = 0.6;

/** Which causes the readings leave open: for a finding that is known as a whole, and for one that is not. */
function apartInWords(
  { estimate }: Assessment,
  { finding, narrowed }: FindingResult,
  gradient: Float64Array,
  overAll: Float64Array,
): string {
  const sentences: string[] = [];
  const confused = narrowed > KNOWN ? confusedWith(estimate, overAll).slice(0, 4) : [];
  if (confused.length > 0) sentences.push(`It cannot be told from ${listed(confused.map(({ words }) => words))}.`);
  const open = causesOf(estimate, gradient)
    .filter((cause) => cause.open > OPEN)
    .map(({ words }) => words);
  if (open.length === 1 && narrowed > OPEN)
    sentences.push(`It rests on ${listed(open)}, which no reading has touched.`);
  if (open.length > 1) {
    const known = narrowed < 0.25 ? "It is known as a whole; which of its causes makes it is not. " : "";
    sentences.push(`${known}The readings do not tell these apart: ${listed(open)}.`);
    const against = finding.id.startsWith("over-bed") || finding.id.startsWith("beam-over-bed");
    if (against) sentences.push("Nothing that is measured against the bed does, and the work need not know.");
  }
  return sentences.length === 0 ? "Nothing that matters: the readings have it by itself." : sentences.join(" ");
}

/** The three checks that would bring U down most, with the user's own instruments where they have one of the family. */
function sharpeners(assessment: Assessment, result: FindingResult, g: Float64Array): readonly string[] {
  const { estimate, machine, timeline } = assessment;
  const ranked = geometricChecks
    .filter((check) => check.layouts.includes(machine.layout.id))
    .flatMap((check) => {
      const instrument = ownOrUsual(check.instruments, timeline.instruments);
      if (!instrument) return [];
      const objects = Object.fromEntries(
        check.roles.flatMap((role) => {
          const object = [...timeline.objects.values()].find(({ family }) => family === role);
          return object ? [[role, object.id]] : [];
        }),
      );
      const best = optionSets(check).map((options) => {
        const setup = { machine, options, instrument };
        const [{ now, after }] = expectedVariances(estimate, { check, setup, objects }, [g]);
        return { check, options, instrument, now: 2 * Math.sqrt(now), after: 2 * Math.sqrt(after) };
      });
      return [best.reduce((a, b) => (a.after <= b.after ? a : b))];
    })
    .sort((a, b) => a.after - b.after);
  const worth = ranked.filter(({ now, after }) => after < 0.9 * now).slice(0, 3);
  if (worth.length === 0) return ["You know enough: nothing in the catalogue would bring U down by a tenth."];
  // A sampled finding's U is scaled: the ratio is what the check changes.
  return worth.map(({ check, options, instrument, now, after }) => {
    const to = result.expandedUncertainty * (after / now);
    const how = Object.values(options).join(", ");
    return `${check.words.title}${how === "" ? "" : ` (${how})`} with ${instrument.name}: U falls from ${formatNumber(result.expandedUncertainty, 2)} to ${formatNumber(to, 2)}, in ${check.words.minutes} minutes.`;
  });
}

/** Answers of a check's first question: which axis, which lean, which way the level lies. */
function optionSets(check: (typeof geometricChecks)[number]): readonly Record<string, string>[] {
  const [first] = check.options;
  if (!first?.answers || !["axis", "towards", "lies", "along"].includes(first.key)) return [{}];
  return first.answers.map((answer) => ({ [first.key]: answer }));
}

function ownOrUsual(families: readonly string[], own: ReadonlyMap<string, Instrument>): Instrument | null {
  for (const family of families) {
    const mine = [...own.values()].find((instrument) => instrument.family === family);
    if (mine) return mine;
  }
  const kind = families.flatMap((family) => kindsOfFamily(family as never))[0];
  return kind ? usualInstrument(kind) : null;
}
