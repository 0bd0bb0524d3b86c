import { sizeOf } from "../../findings/finding.ts";
import { poseAt } from "../../machine/joint.ts";
import { spindleAxis } from "../../machine/kinematics.ts";
import { type DemandKind, show } from "../demand-kind.ts";
import { depthInWords, depthSize, leansAgainstBed, placesToJudge, worstInWords } from "../five-places.ts";

/** The spindle's axis against the bed's normal, side to side and front to rear, over the height of a wall. */
export const wallLean: DemandKind = {
  id: "wall-lean",
  words: "the lean of a wall",
  unit: "mm",
  form: "largest",
  againstBed: true,
  sizes: [depthSize(18)],
  place: "five places",
  draft: (chosen) => {
    const { depthMm } = chosen.numbers;
    return {
      title: `Lean of a wall ${depthInWords(chosen)}`,
      samples: (scene) =>
        placesToJudge(chosen).flatMap((place) =>
          leansAgainstBed(scene, place, spindleAxis(scene, poseAt(place.x, place.y, 0)), depthMm),
        ),
      meaning: (value) =>
        `A wall ${show(depthMm)} high stands ${sizeOf(value)} further out at its foot than at its top, or the reverse${worstInWords(chosen)}.`,
    };
  },
};
