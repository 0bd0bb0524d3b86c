import { sizeOf } from "../../findings/finding.ts";
import { type Arrival, poseAt } from "../../machine/joint.ts";
import { read, type Scene, tip } from "../../machine/kinematics.ts";
import { type Dual, distance, weightedSum } from "../../numerics/dual.ts";
import { roomAlongX, roomAlongY } from "../area.ts";
import { type Chosen, type DemandKind, show } from "../demand-kind.ts";

/**
 * Distance of two walls that face each other, less what it should be, along X and along Y.
 *
 * Each wall is cut while the axis across it has last gone outwards, as it does on the way round a piece or a pocket: the
 * tool then lags behind on both sides, and play makes either smaller. The cutter is entered as it was measured at rest;
 * turning, it cuts wider by the whole runout, half of it at each wall: a piece comes out smaller and a pocket larger.
 */
export const size: DemandKind = {
  id: "size",
  words: "the size of a length",
  unit: "mm",
  form: "largest",
  againstBed: false,
  sizes: [
    {
      key: "lengthMm",
      words: "length",
      unit: "mm",
      from: 1,
      to: 5000,
      usual: () => 100,
      most: (chosen) => Math.max(roomAlongX(chosen), roomAlongY(chosen)),
    },
    { key: "cut", words: "what is cut", answers: ["piece", "pocket", "both"], usual: "piece" },
  ],
  place: "middle",
  draft: (chosen) => {
    const lengths = lengthsAlongAxes(chosen);
    const runoutSigns = { piece: [-1], pocket: [1], both: [-1, 1] }[chosen.answers.cut as Cut];
    const what = { piece: "a piece", pocket: "a pocket", both: "piece and pocket" }[chosen.answers.cut as Cut];
    const words =
      lengths.x === lengths.y ? show(lengths.x) : `${show(lengths.x)} along X and ${show(lengths.y)} along Y`;
    return {
      title: `Size of ${words}, ${what}`,
      samples: (scene) => {
        const runout = read(scene, "spindle.runout");
        return (["x", "y"] as const).flatMap((axis) => {
          const between = betweenWalls(scene, chosen.middle, axis, lengths[axis]);
          return runoutSigns.map((sign) => weightedSum([1, sign], [between, runout], -lengths[axis]));
        });
      },
      meaning: (value) => `A length of ${words} comes out ${sizeOf(value)} too long or too short.`,
    };
  },
};

type Cut = "piece" | "pocket" | "both";

/** A length that fits along one axis only is judged along the other as far as there is room. */
function lengthsAlongAxes(chosen: Chosen): { readonly x: number; readonly y: number } {
  const { lengthMm } = chosen.numbers;
  return { x: Math.min(lengthMm, roomAlongX(chosen)), y: Math.min(lengthMm, roomAlongY(chosen)) };
}

function betweenWalls(scene: Scene, middle: Chosen["middle"], axis: "x" | "y", length: number): Dual {
  const wall = (way: Arrival) => {
    const outwards = (way * length) / 2;
    return axis === "x"
      ? tip(scene, poseAt(middle.x + outwards, middle.y, 0, { arrivedX: way }))
      : tip(scene, poseAt(middle.x, middle.y + outwards, 0, { arrivedY: way }));
  };
  return distance(wall(1), wall(-1));
}
