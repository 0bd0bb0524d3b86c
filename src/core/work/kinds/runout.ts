import { runoutFinding } from "../../findings/axes.ts";
import { sizeOf } from "../../findings/finding.ts";
import type { DemandKind } from "../demand-kind.ts";

/** Total indicated runout of a pin in the collet, as the finding has it. */
export const runout: DemandKind = {
  id: "runout",
  words: "the runout",
  unit: "mm",
  form: "largest",
  againstBed: false,
  sizes: [],
  place: "none",
  draft: () => ({
    title: "Runout",
    samples: (scene) => [runoutFinding.evaluate(scene)],
    meaning: (value) => `The cutter runs out by ${sizeOf(value)} in all and cuts wider by that much.`,
  }),
};
