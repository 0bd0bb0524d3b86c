import { type ExactRatio, ratio } from "./exact-ratio.ts";

/** What a number says: a length, how steep something stands, a pull, a note, how warm, or a share of a whole. */
export type Quantity = "length" | "slope" | "force" | "frequency" | "temperature" | "share";

export type UnitId =
  | "mm"
  | "um"
  | "cm"
  | "m"
  | "in"
  | "thou"
  | "ft"
  | "mm/m"
  | "um/m"
  | "in/ft"
  | "thou/ft"
  | "thou/in"
  | "deg"
  | "arcmin"
  | "arcsec"
  | "N"
  | "kgf"
  | "gf"
  | "lbf"
  | "Hz"
  | "kHz"
  | "degC"
  | "percent";

/**
 * One unit: `value in the core's unit = value in this unit · numerator / denominator`.
 * The two whole numbers make the factor exact; only the units of angle have a numerator that is not whole.
 */
export interface Unit {
  readonly id: UnitId;
  readonly quantity: Quantity;
  readonly numerator: number;
  readonly denominator: number;
  /** As it is written behind a number. */
  readonly symbol: string;
  /** As people type it; capitals make no difference. */
  readonly spellings: readonly string[];
}

/**
 * Inside the core: mm, mm/m, N, Hz, °C and plain shares. A slope of 1 mm/m and a rotation of 1 mrad are one number here,
 * so a degree is 1000·π/180 mm/m.
 *
 * 1 in = 25.4 mm, 1 kgf = 9.80665 N, 1 lbf = 4.4482216152605 N, all exact [SP 811 App. B].
 */
const table = {
  mm: unit("length", 1, 1, "mm", ["mm"]),
  um: unit("length", 1, 1000, "µm", ["um", "µm", "μm", "micron", "microns"]),
  cm: unit("length", 10, 1, "cm", ["cm"]),
  m: unit("length", 1000, 1, "m", ["m"]),
  in: unit("length", 254, 10, "in", ["in", "inch", "inches", '"', "″", "”", "''", "′′", "’’"]),
  thou: unit("length", 254, 10_000, "thou", ["thou", "thous", "mil", "mils"]),
  ft: unit("length", 3048, 10, "ft", ["ft", "foot", "feet", "'", "′", "’"]),
  "mm/m": unit("slope", 1, 1, "mm/m", ["mm/m", "mrad"]),
  "um/m": unit("slope", 1, 1000, "µm/m", ["um/m", "µm/m", "μm/m", "urad", "µrad", "μrad"]),
  "in/ft": unit("slope", 1000, 12, "in/ft", ["in/ft", '"/ft', "″/ft"]),
  "thou/ft": unit("slope", 1, 12, "thou/ft", ["thou/ft", "mil/ft"]),
  "thou/in": unit("slope", 1, 1, "thou/in", ["thou/in", "mil/in"]),
  deg: unit("slope", 1000 * Math.PI, 180, "°", ["°", "deg", "degree", "degrees"]),
  arcmin: unit("slope", 1000 * Math.PI, 10_800, "′", ["arcmin", "'", "′", "’", "min"]),
  arcsec: unit("slope", 1000 * Math.PI, 648_000, "″", ["arcsec", '"', "″", "”", "''", "′′", "’’"]),
  N: unit("force", 1, 1, "N", ["N"]),
  kgf: unit("force", 980_665, 100_000, "kgf", ["kgf", "kg"]),
  gf: unit("force", 980_665, 100_000_000, "gf", ["gf", "g"]),
  lbf: unit("force", 44_482_216_152_605, 10_000_000_000_000, "lbf", ["lbf", "lb", "lbs"]),
  Hz: unit("frequency", 1, 1, "Hz", ["Hz"]),
  kHz: unit("frequency", 1000, 1, "kHz", ["kHz"]),
  degC: unit("temperature", 1, 1, "°C", ["°C", "degC", "C"]),
  percent: unit("share", 1, 100, "%", ["%", "percent", "per cent"]),
} as const satisfies Record<UnitId, Omit<Unit, "id">>;

function unit(
  quantity: Quantity,
  numerator: number,
  denominator: number,
  symbol: string,
  spellings: readonly string[],
) {
  return { quantity, numerator, denominator, symbol, spellings };
}

export const unitIds = Object.keys(table) as readonly UnitId[];

export function unitOf(id: UnitId): Unit {
  return { id, ...table[id] };
}

/** The unit in which the core keeps a quantity; a share has none and is kept as a plain number. */
export const coreUnitOf = {
  length: "mm",
  slope: "mm/m",
  force: "N",
  frequency: "Hz",
  temperature: "degC",
} as const satisfies Partial<Record<Quantity, UnitId>>;

export function unitsOfQuantity(quantity: Quantity): readonly Unit[] {
  return unitIds.map(unitOf).filter((candidate) => candidate.quantity === quantity);
}

/**
 * The unit meant by what was typed. Some marks mean two units (″ is an inch and a second of arc), so the quantity that is
 * asked for decides first; a unit of another quantity is still found, so that a refusal can name it.
 */
export function unitFromSpelling(spelling: string, asked: Quantity): Unit | undefined {
  const matching = unitIds.map(unitOf).filter((candidate) => isSpelledAs(candidate, spelling));
  return matching.find((candidate) => candidate.quantity === asked) ?? matching[0];
}

function isSpelledAs(candidate: Unit, spelling: string): boolean {
  const folded = spelling.toLowerCase();
  return candidate.spellings.some((known) => known.toLowerCase() === folded);
}

/** A value typed in `id`, in the core's unit. */
export function coreFromUnit(value: number, id: UnitId): number {
  const { numerator, denominator } = table[id];
  return (value * numerator) / denominator;
}

/** A value in the core's unit, as it reads in `id`. */
export function unitFromCore(value: number, id: UnitId): number {
  const { numerator, denominator } = table[id];
  return (value * denominator) / numerator;
}

/** The factor without rounding. That of an angle is no ratio of whole numbers and is cut after twenty decimal places of π. */
export function exactFactorOf({ numerator, denominator }: Unit): ExactRatio {
  if (Number.isInteger(numerator)) return ratio(BigInt(numerator), BigInt(denominator));
  return ratio(314_159_265_358_979_323_846n * 1000n, 10n ** 20n * BigInt(denominator));
}

/** Whether somebody who uses this unit means a fraction of it when typing 3/16. */
export function countsInInches(id: UnitId): boolean {
  return id === "in" || id === "ft" || id === "in/ft";
}
