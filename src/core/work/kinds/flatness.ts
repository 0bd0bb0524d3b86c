import { sizeOf } from "../../findings/finding.ts";
import { poseAt } from "../../machine/joint.ts";
import { tip } from "../../machine/kinematics.ts";
import { areaInWords, areaSizes, placesOfArea } from "../area.ts";
import type { DemandKind } from "../demand-kind.ts";
import { restOfFit } from "../rest-of-fit.ts";

/** Highest less lowest place of a face that was cut flat, over its least-squares plane [ISO 230-1]. */
export const flatness: DemandKind = {
  id: "flatness",
  words: "the flatness of a surfaced face",
  unit: "mm",
  form: "spread",
  againstBed: false,
  sizes: areaSizes(),
  place: "middle",
  draft: (chosen) => {
    const places = placesOfArea(chosen);
    const { middle } = chosen;
    const plane = [places.map(() => 1), places.map(({ x }) => x - middle.x), places.map(({ y }) => y - middle.y)];
    return {
      title: `Flatness over ${areaInWords(chosen)}`,
      samples: (scene) =>
        restOfFit(
          places.map(({ x, y }) => tip(scene, poseAt(x, y, 0)).z),
          plane,
        ),
      meaning: (value) => `A face that is cut flat has hills and hollows of ${sizeOf(value)} in all.`,
    };
  },
};
