import { sizeOf } from "../../findings/finding.ts";
import { areaInWords, areaSizes, heightsOverBedAt } from "../area.ts";
import type { DemandKind } from "../demand-kind.ts";

/** Highest less lowest height of the tip over the bed for a flat cut. */
export const depthSpread: DemandKind = {
  id: "depth-spread",
  words: "the spread of depth over an area",
  unit: "mm",
  form: "spread",
  againstBed: true,
  sizes: areaSizes(),
  place: "middle",
  draft: (chosen) => ({
    title: `Spread of depth over ${areaInWords(chosen)}`,
    samples: (scene) => heightsOverBedAt(scene, chosen),
    meaning: (value) => `A cut of one commanded depth comes out ${sizeOf(value)} deeper in one place than in another.`,
  }),
};
