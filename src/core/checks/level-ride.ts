import { poseAt } from "../machine/joint.ts";
import { placeOverFloor, type Scene } from "../machine/kinematics.ts";
import { type Dual, divide, subtractVectors, weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type CheckUnknown, type GeometricCheck, optionOf, type Setup, type Station } from "./check.ts";
import { words } from "./words/level-ride.ts";

const FRACTIONS = [0.04, 0.27, 0.5, 0.73, 0.96];

/**
 * Slope of a level on the carriage against gravity, mm/m + zero: "side" + right end high, "fore" + rear end high. On a
 * moving table the carriage is ridden along X and the table along Y, each with a zero of its own.
 */
export const levelRide: GeometricCheck = {
  id: "level-ride",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "slope",
  instruments: ["level"],
  roles: [],
  lastingError: "cancels",
  atTip: false,
  options: [{ key: "lies", question: "How does the level lie?", answers: ["side", "fore"], usual: "side" }],
  stations: ({ machine }) => {
    const { Lx, Ly } = machine.dimensions;
    const along = (line: "x" | "y") =>
      FRACTIONS.map(
        (f, i): Station => ({
          key: `along ${line} ${i + 1}`,
          words: `carriage ${line === "x" ? "along the beam" : "from front to rear"}, place ${i + 1}`,
          at: line === "x" ? [f * Lx, Ly / 2, 10] : [Lx / 2, f * Ly, 10],
          figures: { alongY: line === "y" ? 1 : 0 },
        }),
      );
    return [...along("x"), ...along("y")];
  },
  unknowns: (setup, station) => [zeroOf(setup, station)],
  predict: (scene, station, setup, unknown) => {
    const fore = optionOf(levelRide, setup, "lies") === "fore";
    return weightedSum([1000, 1], [slope(scene, station, fore), unknown(zeroOf(setup, station).key)]);
  },
};

function slope(scene: Scene, station: Station, fore: boolean): Dual {
  const [x, y, z] = station.at;
  const onTable = scene.machine.layout.workBranch.length > 0 && station.figures?.alongY === 1;
  const pose = poseAt(x, y, z);
  const rise = onTable ? 0 : scene.machine.dimensions.zs;
  const at = (dx: number, dy: number) =>
    placeOverFloor(scene, onTable ? "table" : "carriage", [x + dx, y + dy, rise], pose);
  const run = fore ? subtractVectors(at(0, 100), at(0, 0)) : subtractVectors(at(100, 0), at(0, 0));
  return divide(run.z, fore ? run.y : run.x);
}

function zeroOf({ machine }: Setup, station: Station): CheckUnknown {
  const own = machine.layout.workBranch.length > 0 && station.figures?.alongY === 1;
  return {
    key: own ? "zero on the table" : "zero",
    scope: "run",
    words: "the machine's own slope under the level",
    mean: 0,
    sd: 10,
  };
}
