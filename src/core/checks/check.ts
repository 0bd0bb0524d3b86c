import { type Instrument, type InstrumentFamily, longestReadingMm } from "../instruments/instrument.ts";
import type { LayoutId } from "../machine/description.ts";
import type { Scene } from "../machine/kinematics.ts";
import type { Machine } from "../machine/machine.ts";
import type { Dual } from "../numerics/dual.ts";
import type { CheckWords } from "./check-words.ts";

/** One place, or one length, that is read. */
export interface Station {
  /** Stands in the logbook. */
  readonly key: string;
  /** Where it is, in words a person at the machine follows. */
  readonly words: string;
  /** Where the tool, or what is read, stands over the bed: x, y, z in mm. */
  readonly at: readonly [x: number, y: number, z: number];
  /** A length between two places has a second end. */
  readonly to?: readonly [x: number, y: number, z: number];
  /** What was commanded, or is written on the print: a reading is what is typed less this (mm). 0 when absent. */
  readonly nominal?: number;
  /** Further figures that the check's own formula uses. */
  readonly figures?: Readonly<Record<string, number>>;
}

/** How one run was set up. */
export interface Setup {
  readonly machine: Machine;
  readonly options: Readonly<Record<string, string | number | boolean>>;
  /** The instrument's range decides how long a length can be; null: the check's usual one. */
  readonly instrument: Instrument | null;
}

/** A question that the set-up of a run answers, asked in words and drawn. */
export interface CheckOption {
  readonly key: string;
  readonly question: string;
  /** Answers in words; a number option has a unit and a range instead. */
  readonly answers?: readonly string[];
  readonly number?: { readonly unit: "mm" | "°"; readonly from: number; readonly to: number };
  /** The answer when none is given; it may depend on the machine and on the answers that are given. */
  readonly usual: string | number | ((machine: Machine, given?: Setup["options"]) => string | number);
}

/** How long an unknown that is not a mode lives, and with what it is shared. */
export type UnknownScope = "run" | "object" | "part";

/**
 * Something the formula contains besides the machine's modes. Its meaning and unit are the formula's; the prior is
 * normal. An unknown with the scope "object" belongs to the object in the given role and takes its prior from there.
 */
export interface CheckUnknown {
  readonly key: string;
  readonly scope: UnknownScope;
  readonly words: string;
  readonly mean: number;
  readonly sd: number;
  /** Role of the object whose lasting unknown this is. */
  readonly role?: string;
  /** True of an unknown of the run that lies in the machine and not in how the run was set up. */
  readonly lasts?: boolean;
}

/** What of a surface's lasting shape a reading contains: `weight` mm per mm at the place (x, y) of the surface. */
export interface Touch {
  readonly surface: "bed" | "grid line along x" | "grid line along y" | "rails" | "grid length" | "edge";
  readonly x: number;
  readonly y: number;
  readonly weight: number;
}

/** What the readings of a check are, as a quantity: it decides which units and instruments fit. */
export type ReadingQuantity = "length" | "slope" | "force" | "frequency" | "verdict" | "count";

interface CheckBase {
  readonly id: string;
  readonly words: CheckWords;
  readonly layouts: readonly LayoutId[];
  readonly quantity: ReadingQuantity;
  readonly options: readonly CheckOption[];
  /** Names of the two entries that one station takes: the reading is the first less the second. One alone is their difference. */
  readonly entries?: readonly [first: string, second: string];
  /** True where people read the second entry first, such as left before right: it is then asked and shown first. */
  readonly readsSecondFirst?: boolean;
  /** Families that show the difference at once, so that one entry is the usual thing with them. */
  readonly oneEntryWith?: readonly InstrumentFamily[];
  /** True where one of the two entries is a touch, and is entered as 0. */
  readonly oneTouches?: boolean;
  /** True where a reading says how far and which way: who reads it puts the sign, whatever tool shows how far. */
  readonly bothWays?: true;
  stations(setup: Setup): readonly Station[];
}

/** A check whose readings bear on the geometry. Everything about it that can be computed is exact. */
export interface GeometricCheck extends CheckBase {
  readonly kind: "geometric";
  /** Families of instrument that can read it, the usual one first. */
  readonly instruments: readonly InstrumentFamily[];
  /** Of those, the ones that suit these answers, the usual one first; all of them when left out. */
  instrumentsWith?(given: Setup["options"]): readonly InstrumentFamily[];
  /** Answers that are offered with such an instrument (null: none is chosen) where they are not the usual ones. */
  answersWith?(family: InstrumentFamily | null): Readonly<Record<string, string>>;
  /** Roles of the objects it leans on. */
  readonly roles: readonly string[];
  /** "cancels": the run has a zero, or a reading is a difference by one tool, so that its lasting error drops out. */
  readonly lastingError: "cancels" | "enters";
  /** True where the tip, or what stands in for it, is read: a rocking carriage then adds to the feel. */
  readonly atTip: boolean;
  /** True where every reading follows a homing of its own, or is taken with the drives free. */
  readonly homedAfresh?: boolean;
  /** A place of the user's own; null where this check cannot have one. */
  stationAt?(setup: Setup, place: readonly [number, number, number]): Station | null;
  unknowns(setup: Setup, station: Station): readonly CheckUnknown[];
  /** The reading that the scene makes at the station; `unknown` gives the check's own unknowns by key. */
  predict(scene: Scene, station: Station, setup: Setup, unknown: (key: string) => Dual): Dual;
  touches?(setup: Setup, station: Station): readonly Touch[];
}

/** A look, a push or a count that gates the geometric readings or says how far to trust them. */
export interface ConditionCheck extends CheckBase {
  readonly kind: "condition";
  readonly instruments: readonly InstrumentFamily[];
  /** Judges one reading in core units: true when it passes. Null for what is only noted. */
  passes: ((reading: number, station: Station, setup: Setup) => boolean) | null;
  /** Judges the readings of all stations together, where what counts is how they compare. */
  passesTogether?(readings: readonly number[]): boolean;
  /** Names what may have made a reading that does not pass; null when there is nothing to add. */
  whatFailed?(reading: number, station: Station, setup: Setup): string | null;
  /** Answers with which it has to be done, each by itself; once with any answers when left out. */
  readonly doneWith?: readonly Readonly<Record<string, string>>[];
  /** One of the eight that must be passed before a geometric reading is believed. */
  readonly fitToMeasure: boolean;
  /** What else must be true of the machine for the check to make sense. */
  appliesTo?(machine: Machine): boolean;
}

export type Check = GeometricCheck | ConditionCheck;

export const bothLayouts: readonly LayoutId[] = ["moving-gantry", "fixed-bridge"];

/** The run's zero: of a dial, a pointer or a touch. It takes whatever constant the readings have. */
export const runZero: CheckUnknown = { key: "zero", scope: "run", words: "zero of the run", mean: 0, sd: 10 };

export function optionOf(check: Pick<CheckBase, "options">, setup: Setup, key: string): string | number {
  const given = setup.options[key];
  if (typeof given === "string" || typeof given === "number") return given;
  const option = check.options.find((candidate) => candidate.key === key);
  const usual = option?.usual ?? "";
  return typeof usual === "function" ? usual(setup.machine, setup.options) : usual;
}

/** Whether a check that is set up so is done in the way that these answers make. */
export function isDoneWith(check: Check, setup: Setup, answers: Readonly<Record<string, string>>): boolean {
  return Object.entries(answers).every(([key, answer]) => optionOf(check, setup, key) === answer);
}

/** How many entries a station usually takes with this instrument; where it is two, one alone is still their difference. */
export function usualEntries({ entries, oneEntryWith }: Check, instrument: Instrument | null): 1 | 2 {
  if (entries === undefined) return 1;
  const family = instrument?.family;
  return family !== undefined && oneEntryWith?.includes(family) ? 1 : 2;
}

/** Families of instrument that suit a check with these answers, the usual one first. */
export function suitingInstruments(check: Check, given: Setup["options"]): readonly InstrumentFamily[] {
  return (check.kind === "geometric" && check.instrumentsWith?.(given)) || check.instruments;
}

/**
 * The answers that are offered to somebody who has these families of instrument and has answered nothing yet: the usual
 * ones where an instrument of theirs suits them, else those that suit what they have.
 */
export function offeredAnswers(check: Check, own: readonly InstrumentFamily[]): Readonly<Record<string, string>> {
  if (check.kind !== "geometric" || check.answersWith === undefined) return {};
  const usual = check.answersWith(null);
  if (suitingInstruments(check, usual).some((family) => own.includes(family))) return usual;
  return check.answersWith(check.instruments.find((family) => own.includes(family)) ?? null);
}

/** The places between which lengths are read, from the front and from the left; nothing where they are not marked first. */
export function markedPlaces(check: Check, setup: Setup): readonly (readonly [x: number, y: number])[] {
  if (check.kind !== "geometric" || !check.atTip) return [];
  const ends = check.stations(setup).flatMap(({ at, to }) => (to === undefined ? [] : [at, to]));
  const places = new Map(ends.map(([x, y]) => [`${x} ${y}`, [x, y] as const]));
  return [...places.values()].sort(([x, y], [otherX, otherY]) => y - otherY || x - otherX);
}

/** The longest length that the run's instrument reads, mm; null where it has no end or is not stated. */
export function longestReading(setup: Setup): number | null {
  return setup.instrument && longestReadingMm(setup.instrument);
}
