import type { Dimensions } from "../dimensions.ts";
import { bump, type Joint, type Layout } from "../joint.ts";
import { lengthFactor, type Mode, modeFromDraft } from "../modes.ts";
import { beamOnPlates, carriageOnBeam, railHeights, slideOnCarriage, spindleOnSlide } from "./shared-joints.ts";

/** Gantry on its two rails. */
const gantryOnRails: Joint = {
  carries: "rails",
  origin: (d, pose) => [d.xm, pose.y - d.ty, d.zr],
  terms: (d, pose) => {
    const v = pose.y / d.Ly;
    return [
      ...railHeights(d, v),
      ["gantry.rack", "wz", 1e-3],
      ["gantry.rack.home", "wz", 1e-3],
      ["gantry.rack.change", "wz", 1e-3 * (v - 0.5)],
      ["rail.wander", "tx", bump(v)],
      ["scale.y", "ty", 1e-3 * pose.y],
      ["backlash.y", "ty", -pose.arrivedY / 2],
    ];
  },
};

/** The beam travels over a bed that stands still. */
export const movingGantry: Layout = {
  id: "moving-gantry",
  words: "moving gantry",
  toolBranch: [gantryOnRails, beamOnPlates, carriageOnBeam, slideOnCarriage, spindleOnSlide],
  workBranch: [],
};

export function movingGantryModes(d: Dimensions): readonly Mode[] {
  return [
    modeFromDraft([
      "frame.stagger",
      "mm",
      "frame",
      lengthFactor(d.W),
      "stagger of the rails",
      "right rail further to the rear",
    ]),
    modeFromDraft(["gantry.rack", "mm/m", "rails", 3, "yaw of the beam", "right end to the rear"]),
    modeFromDraft(["gantry.rack.change", "mm/m", "rails", 0.5, "change of the yaw along Y", "grows to the rear"]),
  ];
}
