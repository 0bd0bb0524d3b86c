import { type Outcome, refuse, succeed } from "../../base/outcome.ts";
import { poseAt } from "../../machine/joint.ts";
import { read, type Scene, tip } from "../../machine/kinematics.ts";
import { type Dual, multiply, scale, squareRoot, subtract, weightedSum } from "../../numerics/dual.ts";
import type { WorkState } from "../work-state.ts";
import { type KnownValue, knownValue } from "./known-value.ts";
import { rectangleSkew } from "./rectangle.ts";
import { middleOfTravel, type PlanPlace, reachProblems, roomAbout, sizeProblems, usualWithin } from "./work-place.ts";

/** What is left out is the usual: 100 long or what fits, a cutter of 6, in the middle of the travel. Lengths in mm. */
export interface DimensionSizes {
  readonly length?: number;
  readonly cutterDiameter?: number;
  readonly place?: PlanPlace;
  /** Height of the cut over the bed. */
  readonly height?: number;
}

/** A piece and the pocket for it, both commanded to one length along one axis, mm. */
export interface FitAlong {
  readonly piece: KnownValue;
  readonly pocket: KnownValue;
  /** Pocket less piece: + is a gap, − does not go in. */
  readonly gap: KnownValue;
}

export interface DimensionPicture {
  readonly length: number;
  readonly cutterDiameter: number;
  readonly place: PlanPlace;
  readonly height: number;
  readonly alongX: FitAlong;
  readonly alongY: FitAlong;
  /** How much wider the cutter cuts than it is: the whole runout at its tip. */
  readonly runout: KnownValue;
  /** A square piece that is turned over has the skew against that of its pocket: off at the end of a side, mm. */
  readonly turnedOver: KnownValue;
}

/**
 * The tool goes round the piece outside and round the pocket inside, a commanded radius away. Play lets both sides lie
 * nearer to the middle; runout makes the cutter D + runout wide:
 *
 *   piece = path over L + D − (D + runout),  pocket = path over L − D + (D + runout)
 *
 * The cutter's own size is taken as stated: what it differs by makes the piece smaller and the pocket larger.
 */
export function dimensionPicture(state: WorkState, sizes: DimensionSizes = {}): Outcome<DimensionPicture> {
  const { scene } = state;
  const { dimensions: d } = scene.machine;
  const place = sizes.place ?? middleOfTravel(d);
  const room = roomAbout(d, place);
  const cutterDiameter = sizes.cutterDiameter ?? 6;
  const length = sizes.length ?? usualWithin(100, Math.min(room.alongX, room.alongY) - cutterDiameter);
  const height = sizes.height ?? 0;
  const problems = [
    ...sizeProblems([
      { field: "cutterDiameter", value: cutterDiameter, from: 0.1, to: 60, unit: "mm" },
      { field: "length", value: length, from: cutterDiameter, to: Math.min(d.Lx, d.Ly), unit: "mm" },
      { field: "height", value: height, from: 0, to: d.Lz, unit: "mm" },
    ]),
    ...reachProblems(d, place, length + cutterDiameter, length + cutterDiameter),
  ];
  if (problems.length > 0) return refuse(...problems);
  const runout = read(scene, "spindle.runout");
  const fitOf = (axis: "x" | "y"): FitAlong => {
    const outer = pathBetweenSides(scene, place, height, axis, length + cutterDiameter);
    const inner = pathBetweenSides(scene, place, height, axis, length - cutterDiameter);
    const piece = weightedSum([1, -1], [outer, runout], -cutterDiameter);
    const pocket = weightedSum([1, 1], [inner, runout], cutterDiameter);
    return {
      piece: knownValue(state, piece),
      pocket: knownValue(state, pocket),
      gap: knownValue(state, subtract(pocket, piece)),
    };
  };
  const skew = rectangleSkew(scene, { alongX: length, alongY: length, place, height });
  return succeed({
    length,
    cutterDiameter,
    place,
    height,
    alongX: fitOf("x"),
    alongY: fitOf("y"),
    runout: knownValue(state, runout),
    turnedOver: knownValue(state, scale((2 * Math.sign(skew.value || 1) * length) / 1000, skew)),
  });
}

/** How far apart the tool's ways along two opposite sides are, in plan. */
function pathBetweenSides(scene: Scene, { x, y }: PlanPlace, z: number, axis: "x" | "y", length: number): Dual {
  const at = (to: 1 | -1) =>
    axis === "x"
      ? tip(scene, poseAt(x + (to * length) / 2, y, z, { arrivedX: to }))
      : tip(scene, poseAt(x, y + (to * length) / 2, z, { arrivedY: to }));
  const [a, b] = [at(-1), at(1)];
  const [across, up] = [subtract(b.x, a.x), subtract(b.y, a.y)];
  // Nothing lies between the sides of a pocket that is as wide as the cutter.
  if (length === 0) return axis === "x" ? across : up;
  return squareRoot(weightedSum([1, 1], [multiply(across, across), multiply(up, up)]));
}
