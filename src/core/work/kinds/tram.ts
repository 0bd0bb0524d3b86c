import { swungGap } from "../../checks/tram-sweep.ts";
import { sizeOf } from "../../findings/finding.ts";
import { subtract } from "../../numerics/dual.ts";
import type { Chosen, DemandKind } from "../demand-kind.ts";
import { show } from "../demand-kind.ts";
import { placesToJudge, worstInWords } from "../five-places.ts";

/** Height at which the tip stands while the arm is swung, mm: any will do. */
const HEIGHT = 20;

/** Opposite points of a swung circle against the bed, side to side and front to rear. */
export const tram: DemandKind = {
  id: "tram",
  words: "the cutter’s axis to the bed, over a swing",
  unit: "mm",
  form: "largest",
  againstBed: true,
  sizes: [{ key: "overMm", words: "swing", unit: "mm", from: 20, to: 1000, usual: () => 200, most: roomOnBed }],
  place: "five places",
  draft: (chosen) => {
    const radius = chosen.numbers.overMm / 2;
    const places = placesToJudge(chosen, radius);
    return {
      title: `Cutter’s axis to the bed over ${show(2 * radius)}`,
      samples: (scene) =>
        places.flatMap(({ x, y }) =>
          [0, 90].map((from) =>
            subtract(
              swungGap(scene, [x, y, HEIGHT], from, radius),
              swungGap(scene, [x, y, HEIGHT], from + 180, radius),
            ),
          ),
        ),
      meaning: (value) =>
        `Swung round over ${show(2 * radius)}, one side of the circle stands ${sizeOf(value)} further from the bed than the other${worstInWords(chosen)}.`,
    };
  },
};

/** The arm swings over the bed, which is larger than the travel. */
function roomOnBed({ machine, middle }: Chosen): number {
  const { left, right, front, rear } = machine.dimensions.details.bedMm;
  return 2 * Math.min(middle.x - left, right - middle.x, middle.y - front, rear - middle.y);
}
