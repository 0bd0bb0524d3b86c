import { formatTrimmed, type SystemOfUnits } from "../../base/number-format.ts";
import { unitFromCore } from "../../base/units.ts";
import type { Adjuster } from "./adjuster.ts";
import { type DirectionWord, directionWord, handWayMm, wayOf } from "./direction.ts";

/** What is laid at one packing place; thicknesses in mm. */
export interface LeavesToLay {
  readonly place: "top" | "bottom" | "only";
  readonly layMm: readonly number[];
  /** What lies there now, all of which comes out first. */
  readonly takeOutMm: number;
  readonly restMm: number;
}

/** What a sentence about a move may know besides the amount. */
export interface MoveDetails {
  /** One place, or both where leaves go from one to the other. */
  readonly leaves?: LeavesToLay | readonly LeavesToLay[] | null;
  /** Where the description does not have the number, or an old one. */
  readonly stepsPerMmNow?: number | null;
  /** Scale of the axis before the move, mm/m; left out, the move is one that brings it to nothing. */
  readonly scaleNow?: number;
  readonly system?: SystemOfUnits;
}

/** One move as a person is told it: what the hand does, which way, and how far. */
export function sentenceOf(adjuster: Adjuster, amount: number, details: MoveDetails = {}): string {
  if (adjuster.does !== undefined) return adjuster.does;
  if (adjuster.stepsPerMmNow !== undefined || isStepsPerMm(adjuster)) return sentenceOfSteps(adjuster, amount, details);
  if (adjuster.packing !== "none") return sentenceOfPacking(adjuster, amount, details);
  const { moves } = adjuster;
  const way = directionOf(adjuster, amount);
  const text = lengthText(moves ? handWayMm(moves, amount) : 0, details.system);
  if (!moves || !way || Number.parseFloat(text) === 0) return `Leave ${moves?.words ?? adjuster.words} as it is.`;
  if (way === "up") return `Raise ${moves.words} by ${text}.`;
  if (way === "down") return `Lower ${moves.words} by ${text}.`;
  if (adjuster.homesTo !== undefined) return `Let ${moves.words} come home ${text} further ${way}.`;
  if (!moves.over) return `Push ${moves.words} ${text} ${way}.`;
  const { lengthMm, words } = moves.over;
  return `Turn ${moves.words} ${text} ${way}, over the ${lengthText(lengthMm, details.system)} ${words}.`;
}

/** The way in which what a person watches goes for an amount of this sign; null where nothing is watched. */
export function directionOf({ moves }: Pick<Adjuster, "moves">, amount: number): DirectionWord | null {
  return moves && directionWord(wayOf(moves, amount));
}

/**
 * By what the steps per mm are multiplied, so that a scale s becomes s + amount (mm/m): (1000 + s + amount)/(1000 + s).
 * The s that the amount brings to nothing is −amount.
 */
export function stepsFactor(amount: number, scaleNow = -amount): number {
  return (1000 + scaleNow + amount) / (1000 + scaleNow);
}

/** The amount, mm/m, for which the steps per mm are multiplied by this: `stepsFactor` the other way round. */
export function amountForFactor(factor: number, scaleNow: number): number {
  return (factor - 1) * (1000 + scaleNow);
}

/** Name of a screw on the drawing: the adjuster's letter and its own number, "B1". */
export function screwName({ letter }: Pick<Adjuster, "letter">, index: number): string {
  return `${letter}${index + 1}`;
}

/** How the joint is opened and made fast again, in two sentences; null where nothing is loosened. */
export function fasteningOf(adjuster: Adjuster): { readonly loosen: string; readonly tighten: string } | null {
  const { places, words } = adjuster.fasteners;
  const names = places.map((_, i) => screwName(adjuster, i));
  if (names.length === 0) return null;
  if (adjuster.homesTo !== undefined) {
    return {
      loosen: `Ease ${names.join(" and ")} by a quarter turn each: ${words}.`,
      tighten: `Tighten ${names.join(" and ")}, and take the keys away. ${adjuster.homesTo}`,
    };
  }
  if (names.length === 1) {
    return {
      loosen: `Ease ${names[0]} by a quarter turn: ${words}.`,
      tighten: `Nip ${names[0]} up, read again, then tighten it.`,
    };
  }
  // Crosswise, so that no side is pulled down before the other.
  const order = names.length === 4 ? [0, 3, 1, 2].map((i) => names[i]!) : names;
  return {
    loosen: `Ease ${names[0]} ${names.length === 2 ? "and" : "to"} ${names.at(-1)} by a quarter turn each: ${words}.`,
    tighten: `Nip up ${order.slice(0, -1).join(", ")} and ${order.at(-1)}, read again, then tighten in the same order.`,
  };
}

/** A number in the controller: nothing is loosened for it, and nothing of it is left to chance. */
export function isStepsPerMm({ id }: Pick<Adjuster, "id">): boolean {
  return id.startsWith("steps.");
}

function sentenceOfSteps(adjuster: Adjuster, amount: number, details: MoveDetails): string {
  const { now, becomes } = newSteps(adjuster, amount, details);
  if (now === null) return `Multiply the ${adjuster.words} by ${becomes}.`;
  return `Change the ${adjuster.words} from ${now} to ${becomes}.`;
}

/** The number of the controller as it is and as it becomes; where nobody knows it, what it is multiplied by. */
export function newSteps(
  { stepsPerMmNow }: Adjuster,
  amount: number,
  details: MoveDetails,
): { readonly now: string | null; readonly becomes: string } {
  const factor = stepsFactor(amount, details.scaleNow);
  const now = details.stepsPerMmNow ?? stepsPerMmNow ?? null;
  if (now === null) return { now, becomes: formatTrimmed(factor, 5) };
  return { now: stepsText(now), becomes: stepsText(now * factor) };
}

/** Fine enough that rounding moves nothing by more than 10 µm in a metre. */
function stepsText(steps: number): string {
  return formatTrimmed(steps, Math.max(0, 4 - Math.floor(Math.log10(steps))));
}

function sentenceOfPacking(adjuster: Adjuster, amount: number, details: MoveDetails): string {
  const given = details.leaves ?? [];
  const changes: readonly LeavesToLay[] = "place" in given ? [given] : given;
  const text = lengthText(amount, details.system).replace("−", "");
  const done =
    changes.length > 0
      ? changes.map((change) => sentenceOfLeaves(adjuster, change, details.system)).join(" ")
      : Number.parseFloat(text) === 0
        ? ""
        : sentenceWithoutLeaves(adjuster, amount, text);
  if (done === "") return `Leave the ${adjuster.words} as it is.`;
  // Which end of an upright part comes forward is not plain from where the leaves lie.
  const { moves } = adjuster;
  if (adjuster.packing === "one place" || !moves || amount === 0) return done;
  return `${done} That brings ${moves.words} ${directionOf(adjuster, amount)}.`;
}

function sentenceWithoutLeaves({ packing, leavesLie = {} }: Adjuster, amount: number, text: string): string {
  if (packing === "top or bottom") return `Lay ${text} ${amount > 0 ? leavesLie.top : leavesLie.bottom}.`;
  return amount > 0 ? `Lay ${text} more ${leavesLie.only}.` : `Take ${text} out from ${leavesLie.only}.`;
}

function sentenceOfLeaves({ leavesLie = {} }: Adjuster, change: LeavesToLay, system?: SystemOfUnits): string {
  const { layMm, takeOutMm, place } = change;
  const where = leavesLie[place] ?? leavesLie.only ?? "";
  const total = layMm.reduce((sum, leaf) => sum + leaf, 0);
  const stack = layMm.length > 1 ? `: ${layMm.map((leaf) => leafText(leaf, system)).join(" + ")}` : "";
  if (layMm.length === 0) return takeOutMm > 0 ? `Take out the ${packText(takeOutMm, system)} ${where}.` : "";
  if (takeOutMm > 0) {
    return `Take out the ${packText(takeOutMm, system)} ${where}, and lay ${packText(total, system)} there${stack}.`;
  }
  return `Lay ${packText(total, system)} ${where}${stack}.`;
}

function lengthText(lengthMm: number, system: SystemOfUnits = "metric"): string {
  return system === "metric"
    ? `${formatTrimmed(lengthMm, 2)} mm`
    : `${formatTrimmed(unitFromCore(lengthMm, "in"), 4)} in`;
}

/** What is laid or taken out at one place in all, with its unit. */
function packText(lengthMm: number, system: SystemOfUnits = "metric"): string {
  return `${leafText(lengthMm, system)}${system === "metric" ? " mm" : ""}`;
}

/** Leaves carry two decimals, and those made in thousandths three. */
export function leafText(lengthMm: number, system: SystemOfUnits = "metric"): string {
  if (system === "inch") return lengthText(lengthMm, system);
  const inHundredths = Math.abs(Math.round(lengthMm * 100) - lengthMm * 100) < 1e-6;
  return lengthMm.toFixed(inHundredths ? 2 : 3);
}
