import { bump, type Joint, type Layout } from "../joint.ts";
import { type Mode, modeFromDraft } from "../modes.ts";
import { beamOnPlates, carriageOnBeam, railHeights, slideOnCarriage, spindleOnSlide } from "./shared-joints.ts";

/** Bridge on the frame: it only stands turned. */
const bridgeOnFrame: Joint = {
  carries: "bridge",
  origin: (d) => [d.xm, -d.ty, d.zr],
  terms: () => [["bridge.yaw", "wz", 1e-3]],
};

/** Table on its two rails. +Y moves the tool over the work to the rear: the table then goes to the front. */
const tableOnRails: Joint = {
  carries: "table",
  origin: (d, pose) => [d.Lx / 2, d.Ly / 2 - pose.y, d.zr],
  terms: (d, pose) => {
    const v = pose.y / d.Ly;
    return [
      ...railHeights(d, 1 - v),
      ["table.yaw.change", "wz", 1e-3 * (v - 0.5)],
      ["rail.wander", "tx", bump(1 - v)],
      ["scale.y", "ty", -1e-3 * pose.y],
      ["backlash.y", "ty", pose.arrivedY / 2],
    ];
  },
};

/** The bridge stands still and the table carries the work along Y. */
export const fixedBridge: Layout = {
  id: "fixed-bridge",
  words: "fixed bridge with a moving table",
  toolBranch: [bridgeOnFrame, beamOnPlates, carriageOnBeam, slideOnCarriage, spindleOnSlide],
  workBranch: [tableOnRails],
};

export function fixedBridgeModes(): readonly Mode[] {
  return [
    modeFromDraft(["bridge.yaw", "mm/m", "bridge", 3, "yaw of the bridge", "right end to the rear"]),
    modeFromDraft(["table.yaw.change", "mm/m", "table", 0.5, "change of the table's yaw along Y", "grows as Y grows"]),
  ];
}
