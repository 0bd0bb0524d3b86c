import { sizeOf } from "../../findings/finding.ts";
import { poseAt } from "../../machine/joint.ts";
import { tip } from "../../machine/kinematics.ts";
import { subtractVectors } from "../../numerics/dual.ts";
import type { DemandKind } from "../demand-kind.ts";
import { show } from "../demand-kind.ts";
import { depthInWords, depthSize, leansAgainstBed, placesToJudge, worstInWords } from "../five-places.ts";

/** The way of the Z travel against the bed's normal, side to side and front to rear. */
export const plungeLean: DemandKind = {
  id: "plunge-lean",
  words: "the lean of a plunge",
  unit: "mm",
  form: "largest",
  againstBed: true,
  sizes: [depthSize(40)],
  place: "five places",
  draft: (chosen) => {
    const { depthMm } = chosen.numbers;
    return {
      title: `Lean of a plunge ${depthInWords(chosen)}`,
      samples: (scene) =>
        placesToJudge(chosen).flatMap((place) => {
          const { x, y } = place;
          // Going up throughout: the chord then holds no play.
          const up = subtractVectors(tip(scene, poseAt(x, y, depthMm)), tip(scene, poseAt(x, y, 0)));
          return leansAgainstBed(scene, place, up, depthMm);
        }),
      meaning: (value) =>
        `A hole ${show(depthMm)} deep ends ${sizeOf(value)} beside the place where it began${worstInWords(chosen)}.`,
    };
  },
};
