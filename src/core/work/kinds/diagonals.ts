import { lengthBetween } from "../../checks/hole-rectangle.ts";
import { sizeOf } from "../../findings/finding.ts";
import { subtract } from "../../numerics/dual.ts";
import type { DemandKind } from "../demand-kind.ts";
import { lengthsOfRectangle, rectangleInWords, rectangleSizes } from "../rectangle.ts";

/** One diagonal of a rectangle less the other. A b-square that is out of square by γ mm/m has √2·b·γ/1000 to first order. */
export const diagonals: DemandKind = {
  id: "diagonals",
  words: "the difference of a rectangle’s diagonals",
  unit: "mm",
  form: "largest",
  againstBed: false,
  sizes: rectangleSizes,
  place: "middle",
  draft: (chosen) => {
    const { widthMm, heightMm } = chosen.numbers;
    const [rising, falling] = lengthsOfRectangle(chosen, widthMm, heightMm).slice(4);
    return {
      title: `Difference of diagonals of ${rectangleInWords(widthMm, heightMm)}`,
      samples: (scene) => [subtract(lengthBetween(scene, rising), lengthBetween(scene, falling))],
      meaning: (value) => `One diagonal comes out ${sizeOf(value)} longer than the other.`,
    };
  },
};
