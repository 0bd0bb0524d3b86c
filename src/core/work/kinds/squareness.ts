import { sizeOf } from "../../findings/finding.ts";
import { poseAt } from "../../machine/joint.ts";
import { tip } from "../../machine/kinematics.ts";
import { add, type Dual, type DualVector, divide, multiply, scale, squareRoot, subtract } from "../../numerics/dual.ts";
import { roomAlongX, roomAlongY } from "../area.ts";
import { type DemandKind, show } from "../demand-kind.ts";
import { rectangleInWords } from "../rectangle.ts";

/**
 * The four corners of a square, each by the straight lines from it to its neighbours in plan: how far one side runs away
 * from square to the other, 1000·(a·b)/(|a||b|), + where the corner is narrower than 90°. mm/m.
 */
export const squareness: DemandKind = {
  id: "squareness",
  words: "the squareness of corners",
  unit: "mm/m",
  form: "largest",
  againstBed: false,
  sizes: [
    {
      key: "overMm",
      words: "side",
      unit: "mm",
      from: 10,
      to: 5000,
      usual: () => 300,
      most: (chosen) => Math.min(roomAlongX(chosen), roomAlongY(chosen)),
    },
  ],
  place: "middle",
  draft: ({ middle, numbers: { overMm } }) => {
    const half = overMm / 2;
    return {
      title: `Squareness of ${rectangleInWords(overMm, overMm)}`,
      samples: (scene) => {
        const corners = [
          [-half, -half],
          [half, -half],
          [half, half],
          [-half, half],
        ].map(([x, y]) => tip(scene, poseAt(middle.x + x, middle.y + y, 0)));
        return corners.map((corner, i) => sineOfCorner(corners[(i + 3) % 4], corner, corners[(i + 1) % 4]));
      },
      meaning: (value) =>
        `At the worst corner of a square of ${show(overMm)}, a side a metre long would end ${sizeOf(value)} beside square.`,
    };
  },
};

function sineOfCorner(before: DualVector, corner: DualVector, after: DualVector): Dual {
  const a = { x: subtract(before.x, corner.x), y: subtract(before.y, corner.y) };
  const b = { x: subtract(after.x, corner.x), y: subtract(after.y, corner.y) };
  return scale(1000, divide(dotInPlan(a, b), multiply(lengthInPlan(a), lengthInPlan(b))));
}

type InPlan = Pick<DualVector, "x" | "y">;

function dotInPlan(a: InPlan, b: InPlan): Dual {
  return add(multiply(a.x, b.x), multiply(a.y, b.y));
}

function lengthInPlan(a: InPlan): Dual {
  return squareRoot(dotInPlan(a, a));
}
