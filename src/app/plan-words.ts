import { formatChance, formatTrimmed } from "../core/base/number-format.ts";
import { OUT, WITHIN } from "../core/findings/evaluate.ts";
import type { Adjuster } from "../core/machine/adjusters/adjuster.ts";
import { adjustingHead, handsIn, markFirst, noKeysLeft, oneJoint } from "../core/machine/adjusters/cautions.ts";
import { handWayMm } from "../core/machine/adjusters/direction.ts";
import { directionOf, leafText, type MoveDetails, newSteps, sentenceOf } from "../core/machine/adjusters/sentence.ts";
import { turnedInWords } from "../core/machine/adjusters/turned.ts";
import type { DemandCure, Plan, PlannedDemand, PlannedMove } from "../core/planning/plan.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import { showDemand } from "../core/work/shown-demand.ts";
import { type BringingPlan, broughtBy } from "./brought.ts";
import type { HeldBack, WorkPlan } from "./plan-for.ts";

/** A plan, with what holds its moves back where something does. */
type SaidPlan = Plan & Partial<Pick<WorkPlan, "heldBack" | "measureFirst">>;

/** What the plan comes to, in one or two sentences. */
export function answerInWords({
  answer,
  moves,
  minutes,
  demands,
  heldBack = null,
  measureFirst = [],
}: SaidPlan): string {
  if (heldBack !== null) return heldBackInWords(heldBack);
  const out = demands.filter(({ after }) => after.verdict === "out");
  switch (answer) {
    case "leave it alone":
      return "Leave it alone: the work comes out as it is asked, and every joint that is opened leaves something to chance.";
    case "measure first":
      return "Measure first: nothing that is known yet says that a move would help, or that none is needed.";
    case "out of reach":
      return `Out of reach: no move that is free brings ${out.length === 1 ? "this demand" : `these ${out.length} demands`} in.`;
    case "move":
      return `${moves.length === 1 ? "1 move" : `${moves.length} moves`}, about ${formatTrimmed(minutes, 0)} minutes with what has to be read again afterwards.${measuredFirstInWords(measureFirst)}`;
  }
}

/** Nobody moves for what may well be within: it is measured, and the plan made anew. */
function measuredFirstInWords(demands: NonNullable<SaidPlan["measureFirst"]>): string {
  if (demands.length === 0) return "";
  const titles = demands.map(({ title }) => title.charAt(0).toLowerCase() + title.slice(1)).join(", ");
  return ` Measure first, though: more is in doubt of ${titles} than ${demands.length === 1 ? "its whole limit" : "their whole limits"}, and nothing is moved for that yet.`;
}

function heldBackInWords({ failed, lookAhead }: HeldBack): string {
  const first = failed
    ? "Put the machine right first: the fit-to-measure round has found something loose, and nothing is moved on what such a machine reads."
    : "Measure first: nothing is moved before the fit-to-measure round has been passed.";
  return lookAhead ? `${first} The moves below are a look ahead, and are not to be made yet.` : first;
}

export function chanceInWords({ chance: { now, after, knownExactly }, moves, heldBack = null }: SaidPlan): string {
  const slips = heldBack === null ? "" : ", if nothing slips";
  const first = `Chance that all demands are within${slips}: now ${formatChance(now)}`;
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
export function moveInWords(move: PlannedMove): string {
  return sentenceOf(move.adjuster, move.amount, detailsOf(move));
}

/** The amount of a move by itself: "0.29 up", "0.3 + 0.05 laid", "80.109"; empty where nothing goes by an amount. */
export function amountInWords(move: PlannedMove): string {
  const { adjuster, amount, leaves } = move;
  const { kind, packing, moves } = adjuster;
  if (kind !== "add") return "";
  if (adjuster.id.startsWith("steps.")) return newSteps(adjuster, amount, detailsOf(move)).becomes;
  if (packing !== "none") {
    const laid = leaves.flatMap(({ layMm }) => layMm);
    return laid.length > 0 ? `${laid.map((leaf) => leafText(leaf)).join(" + ")} laid` : "taken out";
  }
  return moves ? `${formatTrimmed(handWayMm(moves, amount), 2)} ${directionOf(adjuster, amount)}` : "";
}

function detailsOf({ adjuster, leaves, before }: PlannedMove): MoveDetails {
  const [mode] = Object.keys(adjuster.effect);
  const index = mode === undefined ? undefined : before.scene.machine.parameterIndex.get(mode);
  const scaleNow = adjuster.id.startsWith("steps.") && index !== undefined ? before.scene.state[index] : undefined;
  return { leaves, ...(scaleNow !== undefined && { scaleNow }) };
}

/** The same in turns of a screw, teeth of a belt or steps of a motor, where the description tells; else null. */
export function turnedOfMoveInWords({ adjuster, amount }: PlannedMove): string | null {
  return turnedInWords(adjuster, amount);
}

/** What holds for the moves of a plan that is more than one. */
export const inOrder = "One move at a time, in this order.";

/** What many joints ask for; a sentence is said of a joint only where the joint itself asks for it. */
const asOfManyJoints: readonly string[] = [handsIn, oneJoint, markFirst, noKeysLeft];

/** Stands above the moves of a plan: what at least one of its joints asks for, said once for all of them. */
export function aboveAllMoves(moves: readonly PlannedMove[]): readonly string[] {
  const asked = new Set(moves.flatMap(({ adjuster }) => adjuster.whatHolds.cautions));
  const common = asOfManyJoints.filter((caution) => asked.has(caution));
  const [first, rest] = [common.filter((caution) => caution === handsIn), common.filter((one) => one !== handsIn)];
  return [
    ...first,
    ...(moves.some(({ adjuster }) => isOpened(adjuster)) ? [adjustingHead] : []),
    ...(moves.length > 1 ? [inOrder] : []),
    ...rest,
  ];
}

/** What one joint asks for beside that. */
export function ownCautionsOf({ whatHolds }: Adjuster): readonly string[] {
  return whatHolds.cautions.filter((caution) => !asOfManyJoints.includes(caution));
}

/** Of one joint by itself, what is minded before anything else: plug and cutter first, then what is its own. */
export function cautionsBefore(adjuster: Adjuster): readonly string[] {
  const { cautions } = adjuster.whatHolds;
  return [...cautions.filter((caution) => caution === handsIn), ...ownCautionsOf(adjuster)];
}

/** And what is minded meanwhile, as of many joints. */
export function cautionsMeanwhile(adjuster: Adjuster): readonly string[] {
  const { cautions } = adjuster.whatHolds;
  const common = cautions.filter((caution) => caution !== handsIn && asOfManyJoints.includes(caution));
  return isOpened(adjuster) ? [adjustingHead, ...common] : common;
}

function isOpened({ fasteners }: Adjuster): boolean {
  return fasteners.places.length > 0;
}

/** "play of X 0.18 → 0.03 (0.00 to 0.06) mm"; empty where it brings nothing to speak of. */
export function broughtInWords(plan: BringingPlan, move: PlannedMove): string {
  return broughtBy(plan, move)
    .map(
      ({ demand: { title, unit }, before, after }) =>
        `${withSmallInitial(title)} ${showDemand(before).value} → ${showDemand(after).whole} ${unit}`,
    )
    .join(", ");
}

/** A chance as words; a dash where it would say more than the readings do. */
export function chanceUnlessHeldBack({ probability, verdict }: DemandResult): string {
  const isHeldBack = verdict === "not known yet" && (probability >= WITHIN || probability <= OUT);
  return isHeldBack ? "–" : formatChance(probability);
}

/** Why a demand holds out, and what would bring it in; null where it does not. */
export function holdOutInWords(planned: PlannedDemand, adjusters: readonly Adjuster[]): string | null {
  return planned.cure === null ? null : cureInWords(planned, planned.cure, adjusters);
}

/** What would bring a demand in that the plan leaves out, in one sentence. */
function cureInWords({ demand }: PlannedDemand, cure: DemandCure, adjusters: readonly Adjuster[]): string {
  switch (cure.kind) {
    case "skim":
      return "Skimming the bed would bring it in.";
    case "steps per mm":
      return `Correcting the steps per mm of ${cure.axis.toUpperCase()} would bring it in; that number is to stay as it is.`;
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

/** A title as it stands within a sentence. */
export function withSmallInitial(title: string): string {
  return title.charAt(0).toLowerCase() + title.slice(1);
}
