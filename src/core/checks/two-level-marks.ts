import { poseAt } from "../machine/joint.ts";
import { bedDirections, tip } from "../machine/kinematics.ts";
import { dot, subtractVectors, weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, optionOf } from "./check.ts";
import { words } from "./words/two-level-marks.ts";

/**
 * (T(h) − T(0))·e − turned·block·h/100: mark on the top of a block less mark on the bed, both measured to the block's
 * faces. block: mm per 100 mm, + when its top overhangs towards + as it first stood; turned = −1 when it stood half round.
 */
export const twoLevelMarks: GeometricCheck = {
  id: "two-level-marks",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["calipers"],
  roles: ["block"],
  lastingError: "cancels",
  atTip: true,
  options: [
    {
      key: "block",
      question: "How does the block stand?",
      answers: ["as first", "turned half round"],
      usual: "as first",
    },
    {
      key: "heightMm",
      question: "How high is the block?",
      number: { unit: "mm", from: 10, to: 300 },
      usual: ({ dimensions }) => Math.min(50, 0.7 * dimensions.Lz),
    },
  ],
  entries: ["top mark", "bed mark"],
  stations: (setup) => {
    const { Lx, Ly, Lz } = setup.machine.dimensions;
    const h = Number(optionOf(twoLevelMarks, setup, "heightMm"));
    // The top of a block that is higher than Z goes cannot be pricked.
    if (h > Lz) return [];
    const at = [Lx / 2, Ly / 2, h] as const;
    const apart = `${Math.round(h * 10) / 10} apart in height`;
    return [
      { key: "side", words: `marks ${apart}, measured from left to right`, at, figures: { fore: 0 } },
      { key: "fore", words: `marks ${apart}, measured from front to rear`, at, figures: { fore: 1 } },
    ];
  },
  unknowns: (_, station) => [
    {
      key: station.figures?.fore === 1 ? "overhang fore" : "overhang side",
      scope: "object",
      role: "block",
      words: "how far the block's top overhangs",
      mean: 0,
      sd: 0.03,
    },
  ],
  predict: (scene, station, setup, unknown) => {
    const [x, y, h] = station.at;
    const fore = station.figures?.fore === 1;
    const turned = optionOf(twoLevelMarks, setup, "block") === "as first" ? 1 : -1;
    const low = tip(scene, poseAt(x, y, 0));
    const high = tip(scene, poseAt(x, y, h));
    const { alongX, alongY } = bedDirections(scene, low.x, low.y);
    return weightedSum(
      [1, (-turned * h) / 100],
      [dot(subtractVectors(high, low), fore ? alongY : alongX), unknown(fore ? "overhang fore" : "overhang side")],
    );
  },
};
