import { scaleFindings } from "../../findings/axes.ts";
import { sizeOf } from "../../findings/finding.ts";
import { axisNames, axisSize } from "../axis-size.ts";
import type { DemandKind } from "../demand-kind.ts";

/** What a metre of commanded travel along one axis has too much or too little, as the finding has it. */
export const scale: DemandKind = {
  id: "scale",
  words: "the scale of an axis",
  unit: "mm/m",
  form: "largest",
  againstBed: false,
  sizes: [axisSize],
  place: "none",
  draft: ({ answers: { axis } }) => ({
    title: `Scale of ${axis.toUpperCase()}`,
    samples: (scene) => [scaleFindings[axisNames.indexOf(axis)].evaluate(scene)],
    meaning: (value) => `A metre along ${axis.toUpperCase()} comes out ${sizeOf(value)} too long or too short.`,
  }),
};
