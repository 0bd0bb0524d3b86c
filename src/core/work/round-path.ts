import { type Arrival, poseAt } from "../machine/joint.ts";
import { type Scene, tip } from "../machine/kinematics.ts";
import { type DualVector, weightedSum } from "../numerics/dual.ts";

/** One place of a circle on its way round, and what it counts when all of them are averaged. */
export interface PassedPlace {
  /** Degrees from X towards Y. */
  readonly angle: number;
  readonly arrivedX: Arrival;
  readonly arrivedY: Arrival;
  readonly weight: number;
}

// The widest place of an oval lies at most half a step off: there its deviation is still cos 11.25° of the whole. The
// middles of the quarters, where skew shows, are among the places.
const STEP = 11.25;

/**
 * Even angles once round, counter-clockwise or clockwise. Where an axis turns, the place is passed twice, just before it
 * has turned and just after: there the path steps by the play. The two share the weight of one.
 */
export function placesRound(turn: "counter-clockwise" | "clockwise"): readonly PassedPlace[] {
  const sign = turn === "clockwise" ? -1 : 1;
  const quarter = (angle: number) => Math.floor((((angle % 360) + 360) % 360) / 90);
  // Within a quarter both axes keep their way: at its middle the direction is −sin, cos of the angle, or the reverse.
  const inQuarter = (angle: number, q: number, weight: number): PassedPlace => {
    const middle = ((90 * q + 45) * Math.PI) / 180;
    const arrivedX = (Math.sin(middle) > 0 ? -sign : sign) as Arrival;
    const arrivedY = (Math.cos(middle) > 0 ? sign : -sign) as Arrival;
    return { angle, arrivedX, arrivedY, weight };
  };
  return Array.from({ length: 360 / STEP }, (_, i) => i * STEP).flatMap((angle) =>
    angle % 90 === 0
      ? [inQuarter(angle, quarter(angle - 1), 0.5), inQuarter(angle, quarter(angle + 1), 0.5)]
      : [inQuarter(angle, quarter(angle), 1)],
  );
}

/** The tip at each place of a circle cut flat at commanded z = 0. */
export function tipRound(
  scene: Scene,
  middle: { readonly x: number; readonly y: number },
  radius: number,
  places: readonly PassedPlace[],
): readonly DualVector[] {
  return places.map(({ angle, arrivedX, arrivedY }) => {
    const f = (angle * Math.PI) / 180;
    const x = middle.x + radius * Math.cos(f);
    const y = middle.y + radius * Math.sin(f);
    return tip(scene, poseAt(x, y, 0, { arrivedX, arrivedY }));
  });
}

/** The weighted mean of the places. */
export function centreOf(points: readonly DualVector[], places: readonly PassedPlace[]): Pick<DualVector, "x" | "y"> {
  const total = places.reduce((sum, { weight }) => sum + weight, 0);
  const weights = places.map(({ weight }) => weight / total);
  const mean = (axis: "x" | "y") =>
    weightedSum(
      weights,
      points.map((point) => point[axis]),
    );
  return { x: mean("x"), y: mean("y") };
}
