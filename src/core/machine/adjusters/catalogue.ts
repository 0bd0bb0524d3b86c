import type { Machine } from "../machine.ts";
import type { Adjuster } from "./adjuster.ts";
import { beamSeats } from "./beam-seat.ts";
import { bedCorners } from "./bed-corners.ts";
import { bedTurn } from "./bed-fixing.ts";
import { type AdjusterChange, changedAdjuster } from "./change.ts";
import { adjusterFromDraft } from "./draft.ts";
import { framePushes } from "./frame.ts";
import { mountOnSlide } from "./mount.ts";
import { playTakeUps } from "./play.ts";
import { railPacking } from "./rail-packing.ts";
import { bedSkim } from "./skim.ts";
import { slideOnCarriage } from "./slide.ts";
import { stepsPerMmNumbers } from "./steps.ts";
import { yawOffsets } from "./yaw.ts";

/** All places where this machine can be changed, upstream first, with what its owner knows better about them, by id. */
export function adjustersOf(
  machine: Machine,
  changes: ReadonlyMap<string, AdjusterChange> = new Map(),
): readonly Adjuster[] {
  const drafts = [
    ...railPacking(machine),
    ...framePushes(machine),
    ...beamSeats(machine),
    ...yawOffsets(machine),
    ...slideOnCarriage(machine),
    ...mountOnSlide(machine),
    ...playTakeUps(machine),
    ...bedCorners(machine),
    bedTurn(machine),
    ...stepsPerMmNumbers(machine),
    bedSkim(machine),
  ];
  return drafts.map((draft, index) => {
    const adjuster = adjusterFromDraft(draft, index);
    return changedAdjuster(adjuster, changes.get(adjuster.id));
  });
}
