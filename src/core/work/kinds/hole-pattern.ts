import { lengthBetween } from "../../checks/hole-rectangle.ts";
import { sizeOf } from "../../findings/finding.ts";
import { roomAlongX, roomAlongY } from "../area.ts";
import { type DemandKind, show } from "../demand-kind.ts";
import { lengthsOfRectangle, rectangleInWords } from "../rectangle.ts";

/** Sides and diagonals of a square of holes, all reached from the same side, each less what it should be. */
export const holePattern: DemandKind = {
  id: "hole-pattern",
  words: "the distances in a pattern of holes",
  unit: "mm",
  form: "largest",
  againstBed: false,
  sizes: [
    {
      key: "sizeMm",
      words: "side",
      unit: "mm",
      from: 5,
      to: 5000,
      usual: () => 150,
      most: (chosen) => Math.min(roomAlongX(chosen), roomAlongY(chosen)),
    },
  ],
  place: "middle",
  draft: (chosen) => {
    const { sizeMm } = chosen.numbers;
    const lengths = lengthsOfRectangle(chosen, sizeMm, sizeMm);
    return {
      title: `Pattern of four holes, ${rectangleInWords(sizeMm, sizeMm)}`,
      samples: (scene) => lengths.map((length) => lengthBetween(scene, length)),
      meaning: (value) =>
        `Of four holes at the corners of a square of ${show(sizeMm)}, two come out ${sizeOf(value)} too far apart or too close.`,
    };
  },
};
