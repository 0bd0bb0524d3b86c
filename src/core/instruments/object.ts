import { type Place, refusal } from "../base/diagnostic.ts";
import { invariant } from "../base/invariant.ts";
import { type Outcome, refuse, succeed } from "../base/outcome.ts";
import { type SquareGrade, squareLimitMm } from "../standards/square-tolerance.ts";
import { sdWithin } from "./lasting-error.ts";

/** Id of an entry in the catalogue of objects. */
export type ObjectKindId = string & { readonly __brand: "ObjectKindId" };

/** Id of one object that stands in somebody's drawer. */
export type ObjectId = string & { readonly __brand: "ObjectId" };

/** Things that are measured against, not with. A check names the part that such a thing plays by its family. */
export const objectFamilies = [
  "square",
  "straightedge",
  "block",
  "cutter",
  "glass plate",
  "ground pin",
  "batten",
] as const;
export type ObjectFamily = (typeof objectFamilies)[number];

/**
 * What an object carries unknown into every run that leans on it. The names are those that the checks' formulas use.
 *
 * - `square`: mm per 100 mm of blade, + wider than 90°.
 * - `bow`: mm at the middle of the whole edge or plate, + bulging outwards.
 * - `overhang side`, `overhang fore`: mm per 100 mm of height, + when the block's top overhangs to + of X or Y.
 * - `block`: height of the block, mm. - `cutter`: effective less nominal diameter, mm. - `angle`: of a V cutter, degrees.
 */
export type ObjectUnknown = "square" | "bow" | "block" | "overhang side" | "overhang fore" | "cutter" | "angle";

export const unknownsOfFamily = {
  square: ["square"],
  straightedge: ["bow"],
  block: ["block", "overhang side", "overhang fore"],
  cutter: ["cutter", "angle"],
  "glass plate": ["bow"],
  "ground pin": [],
  batten: [],
} as const satisfies Record<ObjectFamily, readonly ObjectUnknown[]>;

/** Standard deviations of what is unknown of a kind of object, before anything has been measured or certified. */
export interface ObjectPriors {
  readonly squareSdMmPer100?: number;
  readonly bowSdMm?: number;
  readonly overhangSdMmPer100?: number;
  readonly diameterSdMm?: number;
  readonly angleSdDeg?: number;
}

export interface ObjectKind {
  readonly id: ObjectKindId;
  readonly name: string;
  readonly family: ObjectFamily;
  readonly priors: ObjectPriors;
  /** Where the figures come from: a key of the references, or that there is none. */
  readonly source: string;
}

/** A value and how well it is known, as a certificate or a measurement states it. The unit is that of the field's name. */
export interface StatedValue {
  readonly value: number;
  readonly expandedUncertainty: number;
  readonly coverageFactor: number;
}

/**
 * What is known of one object better than of its kind: it stands in the place of the kind's prior. Where both a value and
 * a grade or a limit are stated, the value counts.
 */
export interface Statements {
  readonly squareMmPer100?: StatedValue;
  readonly squareGrade?: { readonly grade: SquareGrade; readonly lengthMm: number };
  readonly bowMm?: StatedValue;
  /** The bow is nowhere larger: as straightedges and plates are sold. */
  readonly bowLimitMm?: number;
  readonly heightMm?: StatedValue;
  readonly overhangSideMmPer100?: StatedValue;
  readonly overhangForeMmPer100?: StatedValue;
  /** What a cutter really cuts; the unknown is this less the diameter that is written on it. */
  readonly effectiveDiameterMm?: StatedValue;
  /** What the V really has; the unknown is this less the angle that is written on it. */
  readonly measuredAngleDeg?: StatedValue;
}

/** What the owner states about an object. */
export interface OwnObject {
  readonly id: ObjectId;
  readonly kind: ObjectKindId;
  readonly name?: string;
  readonly serial?: string;
  /** Diameter that is written on a cutter, and the angle of a V. */
  readonly diameterMm?: number;
  readonly includedAngleDeg?: number;
  readonly stated?: Statements;
  readonly putAway?: string;
}

export interface Prior {
  readonly mean: number;
  readonly sd: number;
}

/** One object as all computations take it. */
export interface MeasuringObject {
  readonly id: ObjectId;
  readonly kind: ObjectKindId;
  readonly family: ObjectFamily;
  readonly name: string;
  readonly serial?: string;
  readonly diameterMm?: number;
  readonly includedAngleDeg?: number;
  /** Why nothing new is read against it, where it has been put away. What was read against it counts. */
  readonly putAway?: string;
  /** In the units that `ObjectUnknown` states. What is missing here is as usual for the check. */
  readonly priors: Readonly<Partial<Record<ObjectUnknown, Prior>>>;
}

/**
 * An owner's object: what is stated stands in the place of the kind's prior. Refuses a statement that this kind has no
 * unknown for, and a real size or angle without the one written on the cutter.
 */
export function objectFromKind(kind: ObjectKind, own: OwnObject, where: Place = {}): Outcome<MeasuringObject> {
  const possible: readonly ObjectUnknown[] = unknownsOfFamily[kind.family];
  const statements = Object.keys(own.stated ?? {}) as (keyof Statements)[];
  const strange = statements.find((name) => !possible.includes(unknownOfStatement[name]));
  if (strange) {
    const expected = (Object.keys(unknownOfStatement) as (keyof Statements)[])
      .filter((name) => possible.includes(unknownOfStatement[name]))
      .join(", ");
    return refuse(refusal("statement-of-other-object", where, { of: strange, name: kind.name, expected }));
  }
  const { stated = {}, diameterMm, includedAngleDeg } = own;
  if (stated.effectiveDiameterMm && diameterMm === undefined) {
    return refuse(refusal("statement-needs-nominal", where, { of: "effectiveDiameterMm", nominal: "diameterMm" }));
  }
  if (stated.measuredAngleDeg && includedAngleDeg === undefined) {
    return refuse(refusal("statement-needs-nominal", where, { of: "measuredAngleDeg", nominal: "includedAngleDeg" }));
  }
  return succeed({
    id: own.id,
    kind: kind.id,
    family: kind.family,
    name: own.name ?? kind.name,
    ...(own.serial !== undefined && { serial: own.serial }),
    ...(diameterMm !== undefined && { diameterMm }),
    ...(includedAngleDeg !== undefined && { includedAngleDeg }),
    ...(own.putAway !== undefined && { putAway: own.putAway }),
    priors: { ...priorsOfKind(kind), ...priorsOfStatements(stated, diameterMm, includedAngleDeg) },
  });
}

/** The prior of one unknown; where the object says nothing of it, or none is named, what is usual for the check. */
export function priorOfUnknown(object: MeasuringObject | null, unknown: string, usual: Prior): Prior {
  const priors: Readonly<Record<string, Prior | undefined>> = object?.priors ?? {};
  const { mean, sd } = (Object.hasOwn(priors, unknown) ? priors[unknown] : undefined) ?? usual;
  return { mean, sd };
}

/**
 * Standard deviation of a square's angle, mm per 100 mm, when all that is known is that the end of its blade stands
 * within ± t of upright over the length L: t·100/(L·√3) [GUM §4.3.7].
 *
 * @param limitUm t, µm, as grades of squares are stated
 */
export function squareSdFromLimit(limitUm: number, lengthMm: number): number {
  invariant(lengthMm > 0, "a length is positive");
  return sdWithin(((limitUm / 1000) * 100) / lengthMm);
}

const unknownOfStatement = {
  squareMmPer100: "square",
  squareGrade: "square",
  bowMm: "bow",
  bowLimitMm: "bow",
  heightMm: "block",
  overhangSideMmPer100: "overhang side",
  overhangForeMmPer100: "overhang fore",
  effectiveDiameterMm: "cutter",
  measuredAngleDeg: "angle",
} as const satisfies Record<keyof Statements, ObjectUnknown>;

type Priors = Partial<Record<ObjectUnknown, Prior>>;

function priorsOfKind({ family, priors }: ObjectKind): Priors {
  const about = (sd: number | undefined): Prior | undefined => (sd === undefined ? undefined : { mean: 0, sd });
  const all: Readonly<Record<ObjectUnknown, Prior | undefined>> = {
    square: about(priors.squareSdMmPer100),
    bow: about(priors.bowSdMm),
    // A block that nobody has measured has no height of its own kind.
    block: undefined,
    "overhang side": about(priors.overhangSdMmPer100),
    "overhang fore": about(priors.overhangSdMmPer100),
    cutter: about(priors.diameterSdMm),
    angle: about(priors.angleSdDeg),
  };
  return onlyKnown(Object.fromEntries(unknownsOfFamily[family].map((unknown) => [unknown, all[unknown]])));
}

function priorsOfStatements(stated: Statements, diameterMm = 0, includedAngleDeg = 0): Priors {
  const { squareGrade, bowLimitMm } = stated;
  const bySquareGrade = squareGrade && {
    mean: 0,
    sd: squareSdFromLimit(1000 * squareLimitMm(squareGrade.grade, squareGrade.lengthMm), squareGrade.lengthMm),
  };
  return onlyKnown({
    square: priorOfValue(stated.squareMmPer100) ?? bySquareGrade,
    bow: priorOfValue(stated.bowMm) ?? (bowLimitMm === undefined ? undefined : { mean: 0, sd: sdWithin(bowLimitMm) }),
    block: priorOfValue(stated.heightMm),
    "overhang side": priorOfValue(stated.overhangSideMmPer100),
    "overhang fore": priorOfValue(stated.overhangForeMmPer100),
    cutter: priorOfValue(stated.effectiveDiameterMm, diameterMm),
    angle: priorOfValue(stated.measuredAngleDeg, includedAngleDeg),
  });
}

/** u = U/k [GUM §4.3.3]. */
function priorOfValue(stated: StatedValue | undefined, nominal = 0): Prior | undefined {
  return stated && { mean: stated.value - nominal, sd: stated.expandedUncertainty / stated.coverageFactor };
}

function onlyKnown(priors: Readonly<Partial<Record<ObjectUnknown, Prior | undefined>>>): Priors {
  return Object.fromEntries(Object.entries(priors).filter(([, prior]) => prior !== undefined));
}
