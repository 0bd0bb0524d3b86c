import { sizeOf } from "../../findings/finding.ts";
import { areaInWords, areaSizes, heightsOverBedAt } from "../area.ts";
import type { DemandKind } from "../demand-kind.ts";

/** How far a cut that is deep enough to part the sheet everywhere bites into the bed where it is deepest. */
export const throughCut: DemandKind = {
  id: "through-cut",
  words: "how far a cut through the sheet bites into the bed",
  unit: "mm",
  form: "spread",
  againstBed: true,
  sizes: areaSizes(),
  place: "middle",
  draft: (chosen) => ({
    title: `Bite into the bed when cutting through ${areaInWords(chosen)}`,
    samples: (scene) => heightsOverBedAt(scene, chosen),
    meaning: (value) =>
      `Set just deep enough to part the sheet everywhere, the cutter goes ${sizeOf(value)} into the bed where it is deepest.`,
  }),
};
