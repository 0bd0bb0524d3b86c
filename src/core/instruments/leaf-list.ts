import { type Diagnostic, type Place, refusal } from "../base/diagnostic.ts";
import { numberFromRatio, productOf } from "../base/exact-ratio.ts";
import { type Addend, readAddend } from "../base/number-addend.ts";
import { type Outcome, refuse, succeed } from "../base/outcome.ts";
import { countsInInches, exactFactorOf, type UnitId, unitOf } from "../base/units.ts";
import type { LeafSet } from "./instrument.ts";

/** A set of leaves as its owner lists it, and the unit that is engraved on them. */
export interface ListedLeaves {
  readonly set: LeafSet;
  readonly markedIn: "mm" | "thou";
}

/** The unit taken where none is typed, and how many leaves may lie on one another. */
export interface LeafListQuestion {
  readonly usualUnit: UnitId;
  readonly largestStack: number;
  readonly where?: Place;
}

/** Of one leaf, mm. */
const THINNEST = 0.001;
const THICKEST = 20;
const MOST_LEAVES = 100;
/** So many sums are looked through in the time of one key. */
const MOST_SUMS = 200_000;

/**
 * Reads a list of leaves as people type it: `0.05 0.10 0.15`, `0,05; 0,10`, `0.05, 0.10 mm`, `1.5 2 3 thou`, `.0015" .002"`.
 * Gaps, semicolons and commas part leaves; a comma between two digits is a decimal mark, unless points are marks already. A
 * unit typed once counts for every leaf. Thin leaves come first, whatever the order typed. Never throws.
 */
export function readLeafList(text: string, question: LeafListQuestion): Outcome<ListedLeaves> {
  const { usualUnit, largestStack, where = {} } = question;
  const read = addendsFrom(text, where);
  if (!read.ok) return read;
  const addends = read.value;
  if (addends.length === 0) return refuse(refusal("leaves-missing", where, { unit: unitOf(usualUnit).symbol }));

  const typed = new Map(addends.flatMap(({ unit }) => (unit ? [[unit.id, unit] as const] : [])));
  if (typed.size > 1 && addends.some(({ unit }) => !unit)) {
    return refuse(refusal("sum-with-unclear-units", where, { text: shortened(text) }));
  }
  const [common = unitOf(usualUnit)] = typed.values();
  const leaves = addends.map(({ amount, isFraction, words, unit = common }) => ({
    // Sums are compared in hundredths of a micrometre, and no leaf is known more finely.
    mm: Number(numberFromRatio(productOf(amount, exactFactorOf(unit))).toFixed(5)),
    isFraction,
    words,
    unit,
  }));

  const problems: Diagnostic[] = [];
  const seen = new Set<number>();
  for (const { mm, isFraction, words, unit } of leaves) {
    const named = { text: words, unit: unit.symbol };
    if (isFraction || mm < THINNEST || THICKEST < mm) {
      problems.push(refusal("leaf-not-possible", where, { ...named, from: THINNEST, to: THICKEST }));
    } else if (seen.has(mm)) problems.push(refusal("leaf-listed-twice", where, named));
    seen.add(mm);
  }
  if (leaves.length > MOST_LEAVES || sumsOf(leaves.length, largestStack) > MOST_SUMS) {
    problems.push(refusal("leaves-too-many", where, { count: leaves.length, largestStack, most: MOST_LEAVES }));
  }
  if (problems.length > 0) return refuse(...problems);
  const markedIn = countsInInches(common.id) || common.id === "thou" ? "thou" : "mm";
  return succeed({ set: { leavesMm: [...seen].sort((a, b) => a - b), largestStack }, markedIn }, read.diagnostics);
}

function addendsFrom(text: string, where: Place): Outcome<readonly (Addend & { readonly words: string })[]> {
  const addends: (Addend & { readonly words: string })[] = [];
  const remarks: Diagnostic[] = [];
  for (const { words, at } of piecesOf(text)) {
    const place = { ...where, column: (where.column ?? 1) + at };
    const addend = readAddend(words, { whole: words, place, asked: "length" });
    if (!addend.ok) return addend;
    addends.push({ ...addend.value, words });
    remarks.push(...addend.diagnostics);
  }
  return succeed(addends, remarks);
}

/** What stands between two partings; a unit that stands by itself belongs to the number before it. */
function piecesOf(text: string): readonly { readonly words: string; readonly at: number }[] {
  const pointsAreMarks = /\d\.\d|(?:^|\s)\.\d/.test(text);
  const parted = text.replace(/[;+\s]/g, " ").replace(pointsAreMarks ? /,/g : /,(?=\s|$)/g, " ");
  const pieces: { words: string; at: number }[] = [];
  for (const { 0: word, index } of parted.matchAll(/\S+/g)) {
    const before = pieces.at(-1);
    if (before && !/^[\d.,½¼¾⅛⅜⅝⅞]/u.test(word)) before.words += ` ${word}`;
    else pieces.push({ words: word, at: index });
  }
  return pieces;
}

/** How many ways there are to lay up to `most` of `count` leaves on one another. */
function sumsOf(count: number, most: number): number {
  let [sums, ways] = [0, 1];
  for (let k = 1; k <= Math.min(count, most); k++) {
    ways = (ways * (count - k + 1)) / k;
    sums += ways;
  }
  return sums;
}

function shortened(text: string): string {
  const whole = text.trim();
  return whole.length > 40 ? `${whole.slice(0, 40)}…` : whole;
}
