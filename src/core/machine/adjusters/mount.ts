import type { Machine } from "../machine.ts";
import type { AdjusterDraft } from "./draft.ts";
import { turnedAndPacked } from "./hanging-plate.ts";
import { middleOfTravel } from "./place.ts";

/** The spindle's mount on the slide. */
export function mountOnSlide({ dimensions: d }: Machine): readonly AdjusterDraft[] {
  return turnedAndPacked(d, {
    id: "mount",
    named: "mount",
    level: 3,
    member: "spindle",
    screws: d.details.mountScrewsMm,
    screwWords: "the screws of the spindle's mount, usually M6",
    share: 0.42,
    z: middleOfTravel(d)[2] + d.zm,
    sideWords: "the spindle mount's screws, mount turned",
    packingWords: "packing behind the spindle's mount: top screws (+) or bottom screws (−)",
    modes: { side: "spindle.tilt.side", fore: "spindle.tilt.fore" },
    sideRange: [-12, 12],
    packingRange: [-0.6, 0.6],
    caution:
      "Spindle and mount hang on these screws: hold them, and keep the spindle's clamp shut, or its height is lost as well.",
  });
}
