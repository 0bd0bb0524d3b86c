import { poseAt } from "../machine/joint.ts";
import { tip } from "../machine/kinematics.ts";
import { distance, scale } from "../numerics/dual.ts";
import { axisFromOption, axisOption, lengthOfTravel, middleWith } from "./axis-option.ts";
import { bothLayouts, type GeometricCheck, longestReading, optionOf, type Setup, type Station } from "./check.ts";
import { words } from "./words/travel.ts";

const FRACTIONS = [0.25, 0.5, 0.75, 0.95];

/** Distance between two stops along one axis, both reached going up in it, − what was commanded. */
export const travel: GeometricCheck = {
  id: "travel",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["rule", "calipers", "tape", "dial"],
  roles: [],
  lastingError: "enters",
  atTip: true,
  options: [axisOption],
  stations: (setup) => {
    const axis = axisOf(setup);
    const full = lengthOfTravel(setup.machine.dimensions, axis);
    const longest = longestReading(setup) ?? full;
    return FRACTIONS.map((f) => f * full)
      .filter((length) => length <= longest)
      .map((length, i) => lengthStation(setup, `${i + 1}`, length));
  },
  stationAt: (setup, place) => {
    const axis = axisOf(setup);
    const length = { x: place[0], y: place[1], z: place[2] }[axis];
    return length > 0 ? lengthStation(setup, `${axis}=${length}`, length) : null;
  },
  unknowns: () => [],
  predict: (scene, station) => {
    const to = station.to as NonNullable<Station["to"]>;
    const up = { arrivedZ: 1 } as const;
    const from = tip(scene, poseAt(...station.at, up));
    return scale(1, distance(tip(scene, poseAt(...to, up)), from), -(station.nominal as number));
  },
};

function axisOf(setup: Setup) {
  return axisFromOption(optionOf(travel, setup, "axis"));
}

function lengthStation(setup: Setup, key: string, length: number): Station {
  const { dimensions } = setup.machine;
  const axis = axisOf(setup);
  const start = 0.02 * lengthOfTravel(dimensions, axis);
  return {
    key,
    words: `${Math.round(length * 10) / 10} commanded along ${axis.toUpperCase()}`,
    at: middleWith(dimensions, axis, start),
    to: middleWith(dimensions, axis, start + length),
    nominal: length,
  };
}
