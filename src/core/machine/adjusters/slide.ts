import type { Machine } from "../machine.ts";
import type { AdjusterDraft } from "./draft.ts";
import { turnedAndPacked } from "./hanging-plate.ts";

/** The slide's plate on the carriage, whose own plate takes part of the room between beam and tool. */
export function slideOnCarriage({ dimensions: d }: Machine): readonly AdjusterDraft[] {
  return turnedAndPacked(d, {
    id: "slide",
    named: "slide",
    level: 2,
    member: "slide",
    screws: d.details.slideScrewsMm,
    screwWords: "the screws of the slide's plate, usually M6",
    share: 0.18,
    z: d.zs,
    sideWords: "the slide's plate screws, slide turned",
    packingWords: "packing behind the slide: top screws (+) or bottom screws (−)",
    modes: { side: "slide.lean.side", fore: "slide.lean.fore" },
    sideRange: [-15, 15],
    packingRange: [-1.2, 1.2],
    caution: "The slide can slip down or swing while its plate is loose: stand a block under the spindle and hold it.",
  });
}
