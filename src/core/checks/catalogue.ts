import type { Machine } from "../machine/machine.ts";
import { beamToLine } from "./beam-to-line.ts";
import { beamUpright } from "./beam-upright.ts";
import { bedTouch } from "./bed-touch.ts";
import type { Check, ConditionCheck, GeometricCheck } from "./check.ts";
import { conditionChecks } from "./condition-checks.ts";
import { edgeTraverse } from "./edge-traverse.ts";
import { frameDiagonals } from "./frame-diagonals.ts";
import { gapUnderBeam } from "./gap-under-beam.ts";
import { gridDiagonals } from "./grid-diagonals.ts";
import { grooveWidths } from "./groove-widths.ts";
import { holeField } from "./hole-field.ts";
import { holeRectangle } from "./hole-rectangle.ts";
import { homeRepeat } from "./home-repeat.ts";
import { levelRide } from "./level-ride.ts";
import { lineAlongX } from "./line-along-x.ts";
import { lineAlongY } from "./line-along-y.ts";
import { passRidges } from "./pass-ridges.ts";
import { positionRuns } from "./position-runs.ts";
import { railSpacing } from "./rail-spacing.ts";
import { railWind } from "./rail-wind.ts";
import { ringDiameters } from "./ring-diameters.ts";
import { runout } from "./runout.ts";
import { slotWidth } from "./slot-width.ts";
import { squareFlip } from "./square-flip.ts";
import { squareSweep } from "./square-sweep.ts";
import { stopGaps } from "./stop-gaps.ts";
import { tramSweep } from "./tram-sweep.ts";
import { travel } from "./travel.ts";
import { turnaround } from "./turnaround.ts";
import { twoLevelMarks } from "./two-level-marks.ts";
import { uprightGap } from "./upright-gap.ts";
import { uprightSweep } from "./upright-sweep.ts";

/** Every check that bears on the geometry, in the order in which a machine meets them. A new check is added here. */
export const geometricChecks: readonly GeometricCheck[] = [
  squareFlip,
  frameDiagonals,
  railSpacing,
  railWind,
  stopGaps,
  gapUnderBeam,
  beamUpright,
  gridDiagonals,
  lineAlongY,
  lineAlongX,
  beamToLine,
  uprightGap,
  runout,
  tramSweep,
  levelRide,
  bedTouch,
  uprightSweep,
  squareSweep,
  edgeTraverse,
  travel,
  turnaround,
  positionRuns,
  homeRepeat,
  holeRectangle,
  holeField,
  ringDiameters,
  slotWidth,
  grooveWidths,
  passRidges,
  twoLevelMarks,
];

export const checks: readonly Check[] = [
  ...conditionChecks.filter((check) => check.fitToMeasure),
  ...geometricChecks,
  ...conditionChecks.filter((check) => !check.fitToMeasure),
];

const byId = new Map(checks.map((check) => [check.id, check]));

export function checkById(id: string): Check | undefined {
  return byId.get(id);
}

/** The eight that come first on every machine, as far as they make sense on this one. */
export function fitToMeasureRound(machine: Machine): readonly ConditionCheck[] {
  return conditionChecks.filter(
    (check) => check.fitToMeasure && check.layouts.includes(machine.layout.id) && (check.appliesTo?.(machine) ?? true),
  );
}

/** What a run is offered when nobody asks for more: an hour that shows most of what matters. */
export function shortRound(machine: Machine): readonly Check[] {
  const ids = ["gap-under-beam", "stop-gaps", "turnaround", "tram-sweep", "hole-rectangle"];
  const geometric = ids
    .map((id) => checkById(id) as Check)
    .filter((check) => check.layouts.includes(machine.layout.id));
  return [...fitToMeasureRound(machine), ...geometric];
}
