/** A straight beam of one section, and what carries it. */
export interface Beam {
  readonly spanMm: number;
  /** E, in N/mm². */
  readonly elasticModulus_N_per_mm2: number;
  /** I, about the axis it bends about, in mm⁴. */
  readonly secondMoment_mm4: number;
}

export type BeamSupport =
  /** Resting on both ends, free to tilt there. */
  | "resting"
  /** Both ends held so that they cannot tilt. */
  | "clamped";

/**
 * Sag at the middle of a beam under a load there, in mm.
 *
 *   resting PL³/(48EI), clamped PL³/(192EI)
 *
 * Bending alone, no shear; small sag. Closed form [Beam tables].
 */
export function sagUnderCentreLoadMm(beam: Beam, support: BeamSupport, loadN: number): number {
  return (loadN * beam.spanMm ** 3) / ((support === "resting" ? 48 : 192) * stiffness(beam));
}

/** Sag at the middle under an even load w in N/mm: resting 5wL⁴/(384EI), clamped wL⁴/(384EI). [Beam tables] */
export function sagUnderEvenLoadMm(beam: Beam, support: BeamSupport, load_N_per_mm: number): number {
  return ((support === "resting" ? 5 : 1) * load_N_per_mm * beam.spanMm ** 4) / (384 * stiffness(beam));
}

/** Sag at the middle of a resting beam under two equal loads, each a from its end: Pa(3L² − 4a²)/(24EI). [Beam tables] */
export function sagUnderTwoLoadsMm(beam: Beam, loadEachN: number, fromEndMm: number): number {
  return (loadEachN * fromEndMm * (3 * beam.spanMm ** 2 - 4 * fromEndMm ** 2)) / (24 * stiffness(beam));
}

/** How far the end of a beam that is clamped at its other end gives way under a load on it: PL³/(3EI). [Beam tables] */
export function cantileverDeflectionMm(beam: Beam, loadN: number): number {
  return (loadN * beam.spanMm ** 3) / (3 * stiffness(beam));
}

/** I of a full rectangle, bh³/12, h being the height in the direction of bending, in mm⁴. */
export function secondMomentOfRectangle_mm4(widthMm: number, heightMm: number): number {
  return (widthMm * heightMm ** 3) / 12;
}

function stiffness(beam: Beam): number {
  return beam.elasticModulus_N_per_mm2 * beam.secondMoment_mm4;
}
