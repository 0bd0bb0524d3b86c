/** The two diagonals of a rectangle that was sheared. */
export interface Diagonals {
  /** From the corner at the origin to the far one; the longer for a positive skew. */
  readonly fromOrigin: number;
  readonly across: number;
}

/**
 * The diagonals of a parallelogram with sides a and b whose second side leans by γ towards the first:
 *
 *   D₁² = a² + b² + 2ab·sin γ,  D₂² = a² + b² − 2ab·sin γ
 *
 * Closed form. Positive γ closes the angle at the origin: its two sides stand at 90° − γ.
 */
export function diagonalsOfSkewedRectangle(a: number, b: number, skewRad: number): Diagonals {
  const sides = a * a + b * b;
  const shear = 2 * a * b * Math.sin(skewRad);
  return { fromOrigin: Math.sqrt(sides + shear), across: Math.sqrt(sides - shear) };
}

/**
 * The skew from the two diagonals, exact for any size of it: sin γ = (D₁² − D₂²)/(4ab). Closed form.
 *
 * @returns undefined when no parallelogram with these sides has such diagonals
 */
export function skewFromDiagonalsRad(a: number, b: number, diagonals: Diagonals): number | undefined {
  const { fromOrigin, across } = diagonals;
  const sine = ((fromOrigin - across) * (fromOrigin + across)) / (4 * a * b);
  return Math.abs(sine) <= 1 ? Math.asin(sine) : undefined;
}
