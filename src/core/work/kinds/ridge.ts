import { sizeOf } from "../../findings/finding.ts";
import { poseAt } from "../../machine/joint.ts";
import { spindleAxis, tip } from "../../machine/kinematics.ts";
import { divide, dot, subtractVectors } from "../../numerics/dual.ts";
import { type DemandKind, show } from "../demand-kind.ts";
import { placesToJudge, worstInWords } from "../five-places.ts";

/**
 * Height of the step where two passes meet: a·(T₂ − T₁)/a_z, the passes one stepover apart with the place midway. To first
 * order the stepover times the slope of the axis against the local motion. a: the axis, up; T₁, T₂: the tip in both.
 */
export const ridge: DemandKind = {
  id: "ridge",
  words: "the ridges between surfacing passes",
  unit: "mm",
  form: "largest",
  againstBed: false,
  sizes: [
    { key: "cutterMm", words: "diameter of the cutter", unit: "mm", from: 1, to: 200, usual: () => 25 },
    {
      key: "stepoverMm",
      words: "stepover",
      unit: "mm",
      from: 0.1,
      to: 200,
      usual: ({ numbers }) => 0.6 * numbers.cutterMm,
      // More than its own width would leave a wall between two passes.
      most: ({ machine, middle, numbers }) => {
        const { Lx, Ly } = machine.dimensions;
        return Math.min(numbers.cutterMm, 2 * middle.x, 2 * (Lx - middle.x), 2 * middle.y, 2 * (Ly - middle.y));
      },
    },
  ],
  place: "five places",
  draft: (chosen) => {
    const { cutterMm, stepoverMm } = chosen.numbers;
    const half = stepoverMm / 2;
    const places = placesToJudge(chosen, half);
    return {
      title: `Ridges of a ${show(cutterMm)} mm cutter stepped over by ${show(stepoverMm)}`,
      samples: (scene) =>
        places.flatMap(({ x, y }) => {
          const axis = spindleAxis(scene, poseAt(x, y, 0));
          const step = (alongX: number, alongY: number) => {
            const next = tip(scene, poseAt(x + alongX, y + alongY, 0));
            return divide(dot(axis, subtractVectors(next, tip(scene, poseAt(x - alongX, y - alongY, 0)))), axis.z);
          };
          return [step(half, 0), step(0, half)];
        }),
      meaning: (value) => `Neighbouring passes meet in a step of ${sizeOf(value)}${worstInWords(chosen)}.`,
    };
  },
};
