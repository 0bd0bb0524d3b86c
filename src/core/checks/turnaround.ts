import type { Arrival } from "../machine/joint.ts";
import { poseAt } from "../machine/joint.ts";
import { placeOnMember, type Scene } from "../machine/kinematics.ts";
import { type Dual, subtract } from "../numerics/dual.ts";
import { axisFromOption, axisOption, middleWith } from "./axis-option.ts";
import { bothLayouts, type GeometricCheck, optionOf, type Setup, type Station } from "./check.ts";
import { words } from "./words/turnaround.ts";

/**
 * Arrival going down − arrival going up along the axis, at the nose or at the carriage's plate: + is lost motion. A dial
 * that was zeroed after going up shows it at once; leaves fill the way to a block on the plus side once after each
 * arrival, and going up the tool stops short of where it stops going down, so that the first gap is the wider.
 */
export const turnaround: GeometricCheck = {
  id: "turnaround",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["dial", "test indicator", "feeler"],
  roles: [],
  lastingError: "cancels",
  atTip: true,
  options: [axisOption],
  entries: ["gap after a plus move", "gap after a minus move"],
  oneEntryWith: ["dial", "test indicator"],
  stations: (setup) => {
    const axis = axisOf(setup);
    const { dimensions } = setup.machine;
    const half = { x: dimensions.Lx, y: dimensions.Ly, z: dimensions.Lz }[axis] / 2;
    const by = readBy(setup);
    const nose: Station = { key: "nose", words: `${by} the nose`, at: middleWith(dimensions, axis, half) };
    return axis === "z" ? [nose] : [nose, { ...nose, key: "plate", words: `${by} the carriage's plate` }];
  },
  stationAt: (setup, [x, y, z]) => ({
    key: `x=${x} y=${y} z=${z}`,
    words: `${readBy(setup)} the nose at X ${x}, Y ${y}`,
    at: [x, y, z],
  }),
  unknowns: () => [],
  predict: (scene, station, setup) => subtract(arrival(scene, station, setup, -1), arrival(scene, station, setup, 1)),
};

function readBy({ instrument }: Setup): string {
  return instrument?.family === "feeler" ? "leaves at" : "dial on";
}

function axisOf(setup: Setup) {
  return axisFromOption(optionOf(turnaround, setup, "axis"));
}

function arrival(scene: Scene, station: Station, setup: Setup, from: Arrival): Dual {
  const axis = axisOf(setup);
  const arrived = { x: { arrivedX: from }, y: { arrivedY: from }, z: { arrivedZ: from } }[axis];
  const member = station.key === "plate" ? "carriage" : "spindle";
  return placeOnMember(scene, member, station.at, poseAt(...station.at, arrived))[axis];
}
