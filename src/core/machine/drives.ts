import { invariant } from "../base/invariant.ts";
import { tensionFromNoteN } from "../standards/taut-string.ts";
import type { DriveDescription } from "./description.ts";

/** A motor that is driven in steps, and a gear between it and the pulley, screw or pinion. */
export interface StepMotor {
  /** Full steps of one turn: 200 for 1.8°, 400 for 0.9°. */
  readonly fullStepsPerTurn: number;
  /** Into how many each full step is divided. */
  readonly microsteps: number;
  /** Turns of the motor for one turn of what it drives; 1 without a gear. */
  readonly reduction?: number;
}

/** What turns the motor's turns into a way: a toothed belt, a screw, or a pinion on a rack. */
export type Drive = StepMotor &
  (
    | { readonly kind: "belt"; readonly pitchMm: number; readonly teeth: number }
    /** Lead: the way of one turn, which is the pitch times the starts of the thread. */
    | { readonly kind: "screw"; readonly leadMm: number }
    | { readonly kind: "rack"; readonly moduleMm: number; readonly teeth: number }
  );

/** The way of one turn of pulley, screw or pinion, mm: belt p·z, screw its lead, rack π·m·z. */
export function travelPerTurnMm(drive: Drive): number {
  switch (drive.kind) {
    case "belt":
      return drive.pitchMm * drive.teeth;
    case "screw":
      return drive.leadMm;
    case "rack":
      return Math.PI * drive.moduleMm * drive.teeth;
  }
}

/** Steps that the controller sends for 1 mm: full steps · microsteps · reduction / way of one turn. */
export function stepsPerMm(drive: Drive): number {
  const { fullStepsPerTurn, microsteps, reduction = 1 } = drive;
  const travelMm = travelPerTurnMm(drive);
  invariant(travelMm > 0 && fullStepsPerTurn > 0 && microsteps > 0 && reduction > 0, "a drive moves by its steps");
  return (fullStepsPerTurn * microsteps * reduction) / travelMm;
}

/** The way of one full step, mm: a motor that is switched on may jump by up to two of them. */
export function fullStepMm(drive: Drive): number {
  return travelPerTurnMm(drive) / (drive.fullStepsPerTurn * (drive.reduction ?? 1));
}

/** Steps per mm of a drive as its owner describes it: as stated, else from motor and way of one turn; null if unknown. */
export function stepsPerMmFromDescription(described: DriveDescription): number | null {
  if (described.stepsPerMm !== undefined) return described.stepsPerMm;
  const { motorStepsPerTurn, microsteps, travelPerTurnMm: travelMm } = described;
  if (motorStepsPerTurn === undefined || microsteps === undefined || travelMm === undefined) return null;
  return (motorStepsPerTurn * microsteps) / travelMm;
}

/**
 * The steps per mm that cure a measured scale. The axis moves (1 + s/1000) times what is commanded, so it takes
 * 1/(1 + s/1000) times as many steps for a true millimetre.
 *
 * @param scaleMmPerM s, + when the axis moves too far
 */
export function correctedStepsPerMm(current: number, scaleMmPerM: number): number {
  invariant(scaleMmPerM > -1000, "an axis that stands still has no scale to cure");
  return current / (1 + scaleMmPerM / 1000);
}

/** The pull in a belt from its note, with its standard uncertainty, both N. */
export interface BeltTension {
  readonly tensionN: number;
  readonly standardUncertaintyN: number;
}

/** A number with its standard uncertainty in the same unit. */
export interface Known {
  readonly value: number;
  readonly standardUncertainty: number;
}

/**
 * T = 4·µ·L²·f² of a span that is plucked, and by relative uncertainties u(T)/T = √((2·u(f)/f)² + (2·u(L)/L)² + (u(µ)/µ)²)
 * [GUM §5.1.6].
 *
 * @param spanMm L, free length between the points that hold it
 * @param mass_g_per_m µ, as weighed
 * @param noteHz f
 */
export function beltTension(spanMm: Known, mass_g_per_m: Known, noteHz: Known): BeltTension {
  const tensionN = tensionFromNoteN(spanMm.value, mass_g_per_m.value, noteHz.value);
  const relative = ({ value, standardUncertainty }: Known) => standardUncertainty / value;
  const share = Math.hypot(2 * relative(noteHz), 2 * relative(spanMm), relative(mass_g_per_m));
  return { tensionN, standardUncertaintyN: tensionN * share };
}

/** How many semitones one note stands above another: 12·log₂(f₁/f₂); a semitone is 6 % of the note and 12 % of the pull. */
export function semitonesAbove(noteHz: number, otherHz: number): number {
  invariant(noteHz > 0 && otherHz > 0, "a note has a pitch");
  return 12 * Math.log2(noteHz / otherHz);
}

/** Two belts of one axis carry alike when their notes lie within a semitone. Common practice, no source. */
export function areOneNote(noteHz: number, otherHz: number): boolean {
  return Math.abs(semitonesAbove(noteHz, otherHz)) <= 1 + 1e-9;
}
