import { sizeOf } from "../../findings/finding.ts";
import { scale } from "../../numerics/dual.ts";
import { areaInWords, areaSizes, heightsOverBedAt } from "../area.ts";
import { type DemandKind, show } from "../demand-kind.ts";

/** Widest less narrowest stroke of a pointed cutter at one commanded depth: a stroke is 2·tan(α/2) times as wide as deep. */
export const strokeSpread: DemandKind = {
  id: "stroke-spread",
  words: "the spread of a stroke’s width over an area",
  unit: "mm",
  form: "spread",
  againstBed: true,
  sizes: [
    ...areaSizes(400, 150),
    { key: "angleDegrees", words: "angle of the cutter", unit: "°", from: 10, to: 150, usual: () => 60 },
  ],
  place: "middle",
  draft: (chosen) => {
    const { angleDegrees } = chosen.numbers;
    const widthPerDepth = 2 * Math.tan((angleDegrees * Math.PI) / 360);
    return {
      title: `Spread of a ${show(angleDegrees)}° stroke’s width over ${areaInWords(chosen)}`,
      samples: (scene) => heightsOverBedAt(scene, chosen).map((height) => scale(-widthPerDepth, height)),
      meaning: (value) =>
        `A stroke of one commanded depth comes out ${sizeOf(value)} wider in one place than in another.`,
    };
  },
};
