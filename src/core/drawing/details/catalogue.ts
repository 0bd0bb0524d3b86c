import { beamSquare } from "./beam-square.ts";
import { beltTuner } from "./belt-tuner.ts";
import { blockGap } from "./block-gap.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { dialNose } from "./dial-nose.ts";
import { footPaper } from "./foot-paper.ts";
import { gantryStops } from "./gantry-stops.ts";
import { grooveSection } from "./groove-section.ts";
import { laidSquare } from "./laid-square.ts";
import { lengthBetween } from "./length-between.ts";
import { levelCarriage } from "./level-carriage.ts";
import { linePointer } from "./line-pointer.ts";
import { passRidges } from "./pass-ridges.ts";
import { pencilLine } from "./pencil-line.ts";
import { frameDiagonalsPicture, railBar, railStick } from "./rail-bar.ts";
import { ringPicture } from "./ring-diameters.ts";
import { runoutPin } from "./runout-pin.ts";
import { scalePull } from "./scale-pull.ts";
import { slotCalipers } from "./slot-calipers.ts";
import { squareFlipPicture } from "./square-flip.ts";
import { squareGap } from "./square-gap.ts";
import { squareStem } from "./square-stem.ts";
import { straightedgePicture } from "./straightedge.ts";
import { tipTouch } from "./tip-touch.ts";
import { tramArm } from "./tram-arm.ts";
import { travelRule } from "./travel-rule.ts";
import { twoLevelBlock } from "./two-level-block.ts";

type Picture = (input: DetailInput) => Detail;

/** Which picture belongs to which check. A new check is added here; a test holds the list to the catalogue. */
const pictures: Readonly<Record<string, Picture>> = {
  "square-flip": squareFlipPicture,
  "frame-diagonals": frameDiagonalsPicture,
  "rail-spacing": railStick,
  "rail-wind": railBar,
  "stop-gaps": gantryStops,
  "gap-under-beam": blockGap,
  "beam-upright": squareGap,
  "grid-diagonals": lengthBetween,
  "line-along-y": linePointer,
  "line-along-x": linePointer,
  "beam-to-line": beamSquare,
  "upright-gap": squareGap,
  runout: runoutPin,
  "tram-sweep": tramArm,
  "level-ride": levelCarriage,
  "bed-touch": tipTouch,
  "upright-sweep": squareStem,
  "square-sweep": laidSquare,
  "edge-traverse": straightedgePicture,
  travel: travelRule,
  turnaround: dialNose,
  "position-runs": dialNose,
  "home-repeat": dialNose,
  "hole-rectangle": lengthBetween,
  "hole-field": lengthBetween,
  "ring-diameters": ringPicture,
  "slot-width": slotCalipers,
  "groove-widths": grooveSection,
  "pass-ridges": passRidges,
  "two-level-marks": twoLevelBlock,
  "feet-rock": footPaper,
  "grub-screws": pencilLine,
  "belt-note": beltTuner,
  "wheel-preload": pencilLine,
  "push-and-release": scalePull,
  "side-push": scalePull,
  "there-and-back": dialNose,
  "gross-scale": travelRule,
  "drag-force": scalePull,
  "spring-pass": slotCalipers,
  "same-again-slower": dialNose,
  "hose-lift": dialNose,
  "shank-line": pencilLine,
  "mount-line": pencilLine,
  "work-flat": pencilLine,
};

/** The picture of what is read in a check; null for a check that nobody has drawn yet. */
export function detailOf(input: DetailInput): Detail | null {
  return pictures[input.check.id]?.(input) ?? null;
}
