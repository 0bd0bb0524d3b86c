import { type Scene, valuesOnly as sceneOfValues } from "../../machine/kinematics.ts";
import type { Dual } from "../../numerics/dual.ts";
import { dot, quadraticForm, timesMatrix } from "../../numerics/symmetric.ts";
import type { WorkState } from "../work-state.ts";

/**
 * One number of a picture: its value by the exact model at the estimate, and U = 2·u with u² = gᵀP g, the law of
 * propagation to first order [GUM §5.2.2 eq. 13]. For a largest or a spread over places see `knownFromDraws`.
 */
export interface KnownValue {
  readonly value: number;
  readonly expandedUncertainty: number;
}

export function knownValue(state: WorkState, { value, gradient }: Dual): KnownValue {
  return { value, expandedUncertainty: 2 * Math.sqrt(quadraticForm(state.covariance, gradient)) };
}

/** Where a place lies in 95 of 100 cases: an ellipse about it, mm. */
export interface Ring {
  readonly semiMajor: number;
  readonly semiMinor: number;
  /** Direction of the longer axis, from +X towards +Y, −90 to 90. */
  readonly directionDegrees: number;
}

/** √(χ²₀.₉₅ with two degrees of freedom) = √(−2 ln 0.05). Closed form. */
export const ringFactor = Math.sqrt(-2 * Math.log(0.05));

/**
 * The 95 % ellipse of two values that are known together, from the eigenvalues of their covariance
 * [[a, c], [c, b]]:  λ = (a + b)/2 ± √((a − b)²/4 + c²), direction ½·atan2(2c, a − b). Closed form.
 */
export function ringOf(state: WorkState, x: Dual, y: Dual): Ring {
  const px = timesMatrix(state.covariance, x.gradient);
  const a = Math.max(0, dot(x.gradient, px));
  const b = quadraticForm(state.covariance, y.gradient);
  const c = dot(y.gradient, px);
  const middle = (a + b) / 2;
  const half = Math.hypot((a - b) / 2, c);
  return {
    semiMajor: ringFactor * Math.sqrt(middle + half),
    semiMinor: ringFactor * Math.sqrt(Math.max(0, middle - half)),
    directionDegrees: (Math.atan2(2 * c, a - b) * 90) / Math.PI,
  };
}

/** The same machine without gradients, for lines of many points. */
export function withoutGradients({ scene }: WorkState): Scene {
  return sceneOfValues(scene.machine, scene.state, scene.skim?.state ?? null);
}
