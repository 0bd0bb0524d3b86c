import { lostMotionFindings } from "../../findings/axes.ts";
import { sizeOf } from "../../findings/finding.ts";
import { axisNames, axisSize } from "../axis-size.ts";
import type { DemandKind } from "../demand-kind.ts";

/** Play of one axis, as the finding has it. */
export const play: DemandKind = {
  id: "play",
  words: "the play of an axis",
  unit: "mm",
  form: "largest",
  againstBed: false,
  sizes: [axisSize],
  place: "none",
  draft: ({ answers: { axis } }) => ({
    title: `Play of ${axis.toUpperCase()}`,
    samples: (scene) => [lostMotionFindings[axisNames.indexOf(axis)].evaluate(scene)],
    meaning: (value) => `When ${axis.toUpperCase()} turns round, the tool stands still for ${sizeOf(value)}.`,
  }),
};
