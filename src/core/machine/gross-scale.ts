import { invariant } from "../base/invariant.ts";
import { formatTrimmed } from "../base/number-format.ts";
import type { Drive } from "./drives.ts";

/** What makes an axis move by a wrong factor altogether. */
export type GrossCause = "microsteps" | "motor" | "teeth" | "lead" | "inches";

/** One factor that explains the way gone, with what may have made it, in whole sentences for the user. */
export interface GrossExplanation {
  readonly cause: GrossCause;
  /** Exact factor: way gone / way commanded. */
  readonly factor: number;
  readonly words: string;
}

export interface GrossScale {
  /** `as commanded`: within 2 mm in 100, which is for fine measuring to settle. */
  readonly verdict: "as commanded" | "wrong factor" | "stands still";
  readonly runsBackwards: boolean;
  /** Way gone / way commanded, without its sign. */
  readonly factor: number;
  /** The nearest factor first; empty when none of the usual ones is near. */
  readonly explanations: readonly GrossExplanation[];
}

/**
 * Names the factor between the way commanded and the way gone: a wrong number of microsteps, teeth, lead, or inches for
 * millimetres. The exact nominal figure comes first, and no fine measuring before it. Common practice, no source.
 *
 * @param goneMm as read by a rule to `readToMm`, negative when the axis went the other way
 * @param drive what the steps per mm were worked out from, where known: teeth and lead are then named by number
 */
export function nameGrossScale(commandedMm: number, goneMm: number, drive?: Drive, readToMm = 1): GrossScale {
  invariant(commandedMm > 0, "the way commanded is more than nothing");
  const factor = Math.abs(goneMm) / commandedMm;
  const runsBackwards = goneMm < 0;
  if (Math.abs(goneMm) <= readToMm) return { verdict: "stands still", runsBackwards: false, factor, explanations: [] };
  if (Math.abs(factor - 1) <= 0.02 + 1e-9) return { verdict: "as commanded", runsBackwards, factor, explanations: [] };
  // Beside the reading itself the axis may be a hundredth out in the ordinary way.
  const tolerance = 0.01 * factor + readToMm / commandedMm;
  const distance = (explanation: GrossExplanation) => Math.abs(explanation.factor - factor);
  const explanations = explanationsOf(drive)
    .filter((explanation) => distance(explanation) <= tolerance)
    .sort((a, b) => distance(a) - distance(b));
  return { verdict: "wrong factor", runsBackwards, factor, explanations };
}

function explanationsOf(drive: Drive | undefined): readonly GrossExplanation[] {
  const geared = drive?.kind === "screw" ? leads(drive.leadMm) : drive ? teeth(drive.teeth) : [...teeth(), ...leads()];
  return [...microsteps(drive?.microsteps), ...motors(drive?.fullStepsPerTurn), ...geared, ...inches()];
}

function microsteps(assumed?: number): readonly GrossExplanation[] {
  return [2, 4, 8, 16, 32]
    .flatMap((times) => [times, 1 / times])
    .filter((factor) => assumed === undefined || Number.isInteger(assumed / factor))
    .map((factor) => {
      const counted =
        assumed === undefined ? "" : `: ${formatTrimmed(assumed / factor, 0)} in a step instead of ${assumed}`;
      const share = factor === 2 ? "half the" : factor > 1 ? `only one in ${factor} of the` : `${1 / factor} times the`;
      const words = `The motor's driver makes ${share} microsteps that the steps per mm count on${counted}.`;
      return { cause: "microsteps", factor, words };
    });
}

function motors(assumed?: number): readonly GrossExplanation[] {
  const words = (real: number, counted: number) =>
    `The motor has ${real} steps a turn, and the steps per mm count on ${counted}.`;
  const all = [
    { cause: "motor" as const, factor: 0.5, words: words(400, 200), counted: 200 },
    { cause: "motor" as const, factor: 2, words: words(200, 400), counted: 400 },
  ];
  return all
    .filter(({ counted }) => assumed === undefined || assumed === counted)
    .map(({ cause, factor, words }) => ({ cause, factor, words }));
}

const usualTeeth = [10, 12, 14, 15, 16, 18, 20, 24, 25, 28, 30, 32, 36, 40];
const usualLeadsMm = [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25];
// Where nothing is known of the drive only the commonest mix-ups are worth naming.
const mixedUpTeeth = [16, 20, 40];
const mixedUpLeadsMm = [2, 4, 5, 8, 10];

function teeth(assumed?: number): readonly GrossExplanation[] {
  return pairs(assumed, usualTeeth, mixedUpTeeth).map(({ real, counted }) => ({
    cause: "teeth",
    factor: real / counted,
    words: `The pulley has ${real} teeth, and the steps per mm count on ${counted}.`,
  }));
}

function leads(assumed?: number): readonly GrossExplanation[] {
  return pairs(assumed, usualLeadsMm, mixedUpLeadsMm).map(({ real, counted }) => ({
    cause: "lead",
    factor: real / counted,
    words: `The screw moves ${real} mm a turn, and the steps per mm count on ${counted} mm.`,
  }));
}

function pairs(assumed: number | undefined, usual: readonly number[], mixedUp: readonly number[]) {
  const counted = assumed === undefined ? mixedUp : [assumed];
  const real = assumed === undefined ? mixedUp : usual;
  return counted.flatMap((c) => real.filter((r) => r !== c).map((r) => ({ real: r, counted: c })));
}

/** 25.4, and 25.4 with the decimal mark elsewhere. */
function inches(): readonly GrossExplanation[] {
  const shifted = " A decimal mark stands in the wrong place as well.";
  return [25.4, 2.54, 0.254].flatMap((factor) => [
    {
      cause: "inches" as const,
      factor,
      words: `Inches are taken where millimetres are meant.${factor === 25.4 ? "" : shifted}`,
    },
    {
      cause: "inches" as const,
      factor: 1 / factor,
      words: `Millimetres are taken where inches are meant.${factor === 25.4 ? "" : shifted}`,
    },
  ]);
}
