import { type Place, refusal } from "../base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../base/outcome.ts";
import type { Quantity, UnitId } from "../base/units.ts";
import { leafSetInWords } from "./marks.ts";

/** Id of an entry in the catalogue of instruments. */
export type InstrumentKindId = string & { readonly __brand: "InstrumentKindId" };

/** Id of one instrument that stands in somebody's drawer. */
export type InstrumentId = string & { readonly __brand: "InstrumentId" };

/** What a tool is called in the trade. Checks ask for families; which kinds of a family exist, the catalogue says. */
export const instrumentFamilies = [
  "feeler",
  "rule",
  "tape",
  "pinch rods",
  "calipers",
  "micrometer",
  "dial",
  "test indicator",
  "line by eye",
  "loupe",
  "touch plate",
  "paper",
  "level",
  "winding sticks",
  "luggage scale",
  "tuner",
  "look",
] as const;
export type InstrumentFamily = (typeof instrumentFamilies)[number];

/** What can be read, both ends included. A tool that reads both ways has a range on both sides of nothing. */
export interface Range {
  readonly from: number;
  readonly to: number;
}

/** Leaves that can be stacked, each once. */
export interface LeafSet {
  /** Thickness of each leaf, mm. */
  readonly leavesMm: readonly number[];
  /** How many leaves may lie on one another. */
  readonly largestStack: number;
}

/** The largest error the tool may have anywhere in its range, in mm: constant + perWholeMetre · (length in m, rounded up). */
export interface MaxPermissibleError {
  readonly constantMm: number;
  readonly perWholeMetreMm?: number;
}

/** Something that measures lengths, and the figures that say how well. */
export interface LengthFigures {
  readonly measures: "length";
  readonly rangeMm?: Range;
  /** Smallest difference that is read; absent where nothing is stepped, as with leaves or a line judged by eye. */
  readonly resolutionMm?: number;
  /** Standard uncertainty of setting and feel, drawn anew at every reading. */
  readonly settingMm: number;
  readonly maxPermissibleError?: MaxPermissibleError;
  /** As long as all readings of a run lie within `withinMm` of one another, this stands for the permissible error. */
  readonly smallRange?: { readonly withinMm: number; readonly maxPermissibleErrorMm: number };
  /** What remains of the permissible error when a block of nearly the same size is read beside the work. */
  readonly againstSameSize?: { readonly maxPermissibleErrorMm: number };
  /** Standard uncertainty of the graduation's scale; where given, it stands for the permissible error. */
  readonly scaleStandardUncertaintyMmPerM?: number;
  /** How the permissible error lasts from reading to reading: the same amount, or in proportion to the length. */
  readonly lasts: "offset" | "scale" | "none";
  /** True where one reading is already the difference of two lengths, as with a pair of sticks. */
  readonly readsDifference?: boolean;
  readonly leaves?: LeafSet;
}

/** Something that measures how steep a thing stands. Its zero is never trusted, so it has no permissible error. */
export interface SlopeFigures {
  readonly measures: "slope";
  readonly rangeMmPerM?: Range;
  readonly resolutionMmPerM?: number;
  readonly settingMmPerM: number;
}

/** Something that measures a pull. Its permissible error is a share of the reading and lasts as a scale. */
export interface ForceFigures {
  readonly measures: "force";
  readonly rangeN?: Range;
  readonly resolutionN?: number;
  readonly settingN?: number;
  readonly maxPermissibleErrorShare: number;
}

/** Something that hears a note. Its permissible error is a share of the reading and lasts as a scale. */
export interface FrequencyFigures {
  readonly measures: "frequency";
  readonly rangeHz?: Range;
  readonly resolutionHz?: number;
  readonly settingHz?: number;
  readonly maxPermissibleErrorShare: number;
}

/** A look or a push that answers yes or no and gives no number. */
export interface EyeFigures {
  readonly measures: "eye";
}

export type InstrumentFigures = LengthFigures | SlopeFigures | ForceFigures | FrequencyFigures | EyeFigures;

interface Named {
  readonly name: string;
  readonly family: InstrumentFamily;
  /** The unit its marks are in: taken when somebody types none. Absent where no number is read. */
  readonly markedIn?: UnitId;
}

/** One entry of the catalogue: a kind of tool with the figures that are usual for it. */
export type InstrumentKind = InstrumentFigures &
  Named & {
    readonly id: InstrumentKindId;
    /** Where the figures come from: a key of the references, or that there is none. */
    readonly source: string;
  };

/** One instrument as all computations take it: the kind's figures, with the owner's in their place where given. */
export type Instrument = InstrumentFigures &
  Named & {
    readonly id: InstrumentId;
    readonly kind: InstrumentKindId;
    /** Number engraved on it. */
    readonly serial?: string;
    /** Why nothing new is read with it, where it has been put away. What was read with it counts. */
    readonly putAway?: string;
  };

type OverridesOf<Figures> = Partial<Omit<Figures, "measures">>;

export type InstrumentOverrides =
  | OverridesOf<LengthFigures>
  | OverridesOf<SlopeFigures>
  | OverridesOf<ForceFigures>
  | OverridesOf<FrequencyFigures>;

/** What the owner states about an instrument; what is not stated is as usual for its kind. */
export interface OwnInstrument {
  readonly id: InstrumentId;
  readonly kind: InstrumentKindId;
  readonly name?: string;
  readonly serial?: string;
  readonly markedIn?: UnitId;
  readonly figures?: InstrumentOverrides;
  readonly putAway?: string;
}

/** The quantity that an instrument's readings have; null for a look. */
export function quantityOf(
  instrument: InstrumentFigures,
): Extract<Quantity, "length" | "slope" | "force" | "frequency"> | null {
  return instrument.measures === "eye" ? null : instrument.measures;
}

/** What it can read from and to, in the core's unit of what it reads; undefined where nothing is stated. */
export function rangeOf(instrument: InstrumentFigures): Range | undefined {
  switch (instrument.measures) {
    case "length":
      return instrument.rangeMm;
    case "slope":
      return instrument.rangeMmPerM;
    case "force":
      return instrument.rangeN;
    case "frequency":
      return instrument.rangeHz;
    case "eye":
      return undefined;
  }
}

/** The same tool where who reads it says which way: what its marks show from nothing on, it then reads on either side of it. */
export function readBothWays(instrument: Instrument): Instrument {
  if (instrument.measures !== "length" || instrument.leaves || !instrument.rangeMm) return instrument;
  const { from, to } = instrument.rangeMm;
  return from < 0 ? instrument : { ...instrument, rangeMm: { from: -to, to } };
}

/** The longest length it can read, mm; null where it has no end, or reads something else. */
export function longestReadingMm(instrument: InstrumentFigures): number | null {
  return instrument.measures === "length" ? (instrument.rangeMm?.to ?? null) : null;
}

/** The kind as it comes, for somebody who has stated nothing about their own. */
export function usualInstrument(kind: InstrumentKind): Instrument {
  const { id, source: _source, ...rest } = kind;
  return { ...rest, id: id as string as InstrumentId, kind: id };
}

/** An owner's instrument: every figure stated replaces the usual one whole. Refuses figures of another quantity. */
export function instrumentFromKind(kind: InstrumentKind, own: OwnInstrument, where: Place = {}): Outcome<Instrument> {
  const possible: readonly string[] = figureNames[kind.measures];
  const strange = Object.keys(own.figures ?? {}).filter((name) => !possible.includes(name));
  if (strange.length > 0) {
    const data = { figure: strange[0]!, name: kind.name, expected: possible.join(", ") };
    return refuse(refusal("figure-of-other-instrument", where, data));
  }
  const { serial, markedIn, putAway } = own;
  return succeed({
    ...usualInstrument(kind),
    ...own.figures,
    id: own.id,
    name: instrumentName(kind, own),
    ...(serial !== undefined && { serial }),
    ...(markedIn !== undefined && { markedIn }),
    ...(putAway !== undefined && { putAway }),
  } as Instrument);
}

/** Instruments or objects that have not been put away: what a new reading is offered. */
export function inUse<Tool extends { readonly putAway?: string }>(tools: Iterable<Tool>): readonly Tool[] {
  return [...tools].filter(({ putAway }) => putAway === undefined);
}

/** As its owner calls it, else as its kind is called; a set of other leaves than the kind's is called by its own. */
export function instrumentName(kind: InstrumentKind, own: Omit<OwnInstrument, "id" | "kind">): string {
  const { name, figures, markedIn = kind.markedIn ?? "mm" } = own;
  const leaves = figures && "leaves" in figures ? figures.leaves : undefined;
  return name ?? (leaves ? `feeler leaves, ${leafSetInWords(leaves.leavesMm, markedIn)}` : kind.name);
}

const figureNames = {
  length: [
    "rangeMm",
    "resolutionMm",
    "settingMm",
    "maxPermissibleError",
    "smallRange",
    "againstSameSize",
    "scaleStandardUncertaintyMmPerM",
    "lasts",
    "readsDifference",
    "leaves",
  ],
  slope: ["rangeMmPerM", "resolutionMmPerM", "settingMmPerM"],
  force: ["rangeN", "resolutionN", "settingN", "maxPermissibleErrorShare"],
  frequency: ["rangeHz", "resolutionHz", "settingHz", "maxPermissibleErrorShare"],
  eye: [],
} as const satisfies {
  [M in InstrumentFigures["measures"]]: readonly Exclude<
    keyof Extract<InstrumentFigures, { measures: M }>,
    "measures"
  >[];
};
