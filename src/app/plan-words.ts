import { formatChance, formatTrimmed } from "../core/base/number-format.ts";
import type { Adjuster } from "../core/machine/adjusters/adjuster.ts";
import { sentenceOf } from "../core/machine/adjusters/sentence.ts";
import type { DemandCure, Plan, PlannedDemand, PlannedMove } from "../core/planning/plan.ts";

/** What the plan comes to, in one or two sentences. */
export function answerInWords({ answer, moves, minutes, demands }: Plan): string {
  const out = demands.filter(({ after }) => after.verdict === "out");
  switch (answer) {
    case "leave it alone":
      return "Leave it alone: the work comes out as it is asked, and every joint that is opened leaves something to chance.";
    case "measure first":
      return "Measure first: nothing that is known yet says that a move would help, or that none is needed.";
    case "out of reach":
      return `Out of reach: no move that is free brings ${out.length === 1 ? "this demand" : `these ${out.length} demands`} in.`;
    case "move":
      return `${moves.length === 1 ? "1 move" : `${moves.length} moves`}, about ${formatTrimmed(minutes, 0)} minutes with what has to be read again afterwards.`;
  }
}

export function chanceInWords({ chance: { now, after, knownExactly }, moves }: Plan): string {
  const first = `Chance that all demands are within: now ${formatChance(now)}`;
  if (moves.length === 0) return `${first}.`;
  return `${first}, after the plan ${formatChance(after)}; ${formatChance(knownExactly)} if the machine were known exactly.`;
}

/** How far the moves may be from the best there are; null where none are better. */
export function proofInWords({ proven, gap }: Plan): string | null {
  if (proven) return null;
  const far = Number.isFinite(gap)
    ? `by at most ${formatTrimmed(100 * gap, 0)} % of its cost`
    : "by nobody knows how much";
  return `The search was stopped at its count of steps: a better plan is possible, ${far}.`;
}

/** What the hand does at one move, leaves by name and steps from old to new. */
export function moveInWords({ adjuster, amount, leaves, before }: PlannedMove): string {
  const [mode] = Object.keys(adjuster.effect);
  const index = mode === undefined ? undefined : before.scene.machine.parameterIndex.get(mode);
  const scaleNow = adjuster.id.startsWith("steps.") && index !== undefined ? before.scene.state[index] : undefined;
  return sentenceOf(adjuster, amount, { leaves, ...(scaleNow !== undefined && { scaleNow }) });
}

/** What would bring a demand in that the plan leaves out, in one sentence. */
export function cureInWords({ demand }: PlannedDemand, cure: DemandCure, adjusters: readonly Adjuster[]): string {
  switch (cure.kind) {
    case "skim":
      return "Skimming the bed would bring it in.";
    case "steps per mm":
      return `Correcting the steps per mm of ${cure.axis.toUpperCase()} would bring it in; that number is locked.`;
    case "correct the program":
      return "No joint brings it in; a program that allows for it does.";
    case "measure better":
      return "Its middle is within; what is not known of it keeps it open, and a better reading settles that.";
    case "unlock": {
      const words = adjusters.find(({ id }) => id === cure.adjuster)?.words ?? cure.adjuster;
      return `It would come in if this did not have to stay as it is: ${words} (${cure.adjuster}).`;
    }
    case "relax the demand":
      return `The machine reaches ${limitText(cure.reachable)} ${demand.unit} here; a limit of that much would hold.`;
  }
}

/** Rounded up, so that the limit that is named holds. */
function limitText(reachable: number): string {
  const step = reachable < 1 ? 100 : 10;
  return formatTrimmed(Math.ceil(reachable * step - 1e-9) / step, 2);
}
