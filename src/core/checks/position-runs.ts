import type { Arrival } from "../machine/joint.ts";
import { poseAt } from "../machine/joint.ts";
import { tip } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { axisFromOption, axisOption, lengthOfTravel, middleWith } from "./axis-option.ts";
import { bothLayouts, type GeometricCheck, optionOf, runZero, type Setup, type Station } from "./check.ts";
import { words } from "./words/position-runs.ts";

// Not evenly spaced, so that an error with the pitch of screw or pulley cannot hide.
const FRACTIONS = [0.06, 0.27, 0.52, 0.71, 0.94];

/** T along the axis − commanded + zero, at targets reached from both sides, after [ISO 230-2 §4]. */
export const positionRuns: GeometricCheck = {
  id: "position-runs",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  bothWays: true,
  instruments: ["dial", "test indicator", "calipers"],
  roles: [],
  lastingError: "cancels",
  atTip: true,
  options: [axisOption],
  stations: (setup) => {
    const axis = axisOf(setup);
    const { dimensions } = setup.machine;
    const full = lengthOfTravel(dimensions, axis);
    return FRACTIONS.flatMap((f, i) =>
      ([1, -1] as const).map(
        (way): Station => ({
          key: `target ${i + 1} ${way === 1 ? "up" : "down"}`,
          words: `target ${i + 1}, reached going ${way === 1 ? "up" : "down"}`,
          at: middleWith(dimensions, axis, f * full),
          figures: { way },
        }),
      ),
    );
  },
  unknowns: () => [runZero],
  predict: (scene, station, setup, unknown) => {
    const axis = axisOf(setup);
    const way = station.figures?.way as Arrival;
    const arrived = { x: { arrivedX: way }, y: { arrivedY: way }, z: { arrivedZ: way } }[axis];
    const [x, y, z] = station.at;
    const place = tip(scene, poseAt(x, y, z, arrived));
    return weightedSum([1, 1], [place[axis], unknown("zero")], -{ x, y, z }[axis]);
  },
};

function axisOf(setup: Setup) {
  return axisFromOption(optionOf(positionRuns, setup, "axis"));
}
