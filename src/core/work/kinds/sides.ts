import { lengthBetween } from "../../checks/hole-rectangle.ts";
import { sizeOf } from "../../findings/finding.ts";
import type { DemandKind } from "../demand-kind.ts";
import { lengthsOfRectangle, rectangleInWords, rectangleSizes } from "../rectangle.ts";

/** Each side of a rectangle of holes, all reached from the same side, less what it should be. */
export const sides: DemandKind = {
  id: "sides",
  words: "the sides of a rectangle",
  unit: "mm",
  form: "largest",
  againstBed: false,
  sizes: rectangleSizes,
  place: "middle",
  draft: (chosen) => {
    const { widthMm, heightMm } = chosen.numbers;
    const lengths = lengthsOfRectangle(chosen, widthMm, heightMm).slice(0, 4);
    return {
      title: `Sides of ${rectangleInWords(widthMm, heightMm)}`,
      samples: (scene) => lengths.map((length) => lengthBetween(scene, length)),
      meaning: (value) => `From hole to hole, one side comes out ${sizeOf(value)} longer or shorter than programmed.`,
    };
  },
};
