import type { FigureUse } from "../../src/core/drawing/figure.ts";
import { type WorkPictureId, workDrawing, workPictures } from "../../src/core/drawing/work-drawings.ts";
import type { WorkShape } from "../../src/core/drawing/work-figure.ts";
import { type Machine, machineFromDescription } from "../../src/core/machine/machine.ts";
import { createRandom } from "../../src/core/numerics/random.ts";
import type { WorkState } from "../../src/core/work/work-state.ts";
import { randomState } from "../simulation/random-state.ts";
import { workStateWith } from "../simulation/work-state-with.ts";
import { bridge, gantry } from "./drawings.ts";

/** What is not quite known after an afternoon of readings. */
function known(machine: Machine, share: number): Readonly<Record<string, number>> {
  return Object.fromEntries(machine.modes.map(({ id, priorSd }) => [id, share * priorSd] as const));
}

export const gantryNow = workStateWith(
  gantry,
  {
    "gantry.rack": 1.1,
    "gantry.rack.change": 0.2,
    "beam.right": -0.28,
    "beam.left": 0.05,
    "beam.bow": 0.09,
    "beam.crown": 0.1,
    "beam.roll": -0.8,
    "slide.lean.side": 1.7,
    "slide.lean.fore": -0.6,
    "spindle.tilt.fore": 3.1,
    "spindle.tilt.side": -4,
    "rail.right.rear": 0.2,
    "bed.tilt.x": 0.2,
    "bed.dome.x": 0.12,
    "bed.twist": -0.1,
    "scale.x": -0.6,
    "scale.y": 0.4,
    "backlash.x": 0.08,
    "backlash.y": 0.05,
    "spindle.runout": 0.04,
  },
  known(gantry, 0.05),
);

export const gantryAfter = workStateWith(
  gantry,
  {
    "gantry.rack": 0.1,
    "gantry.rack.change": 0.2,
    "beam.right": -0.03,
    "beam.left": 0.02,
    "beam.bow": 0.09,
    "beam.crown": 0.1,
    "slide.lean.side": 0.2,
    "slide.lean.fore": -0.1,
    "spindle.tilt.fore": 0.1,
    "spindle.tilt.side": -0.2,
    "bed.dome.x": 0.12,
    "backlash.x": 0.03,
    "backlash.y": 0.03,
    "spindle.runout": 0.04,
  },
  known(gantry, 0.06),
);

export const bridgeNow = workStateWith(
  bridge,
  {
    "bridge.yaw": -1.4,
    "table.yaw.change": 0.4,
    "beam.right": 0.2,
    "beam.crown": -0.1,
    "slide.lean.side": -1.2,
    "slide.lean.fore": 0.5,
    "spindle.tilt.side": 1.2,
    "spindle.tilt.fore": -0.4,
    "rail.right.rear": 0.2,
    "rail.wander": 0.1,
    "bed.tilt.y": -0.4,
    "bed.dome.y": 0.2,
    "scale.x": 1,
    "scale.y": -0.3,
    "backlash.x": 0.02,
    "backlash.y": 0.03,
    "spindle.runout": 0.02,
  },
  known(bridge, 0.04),
);

function drawnWork(
  id: WorkPictureId,
  now: WorkState,
  after: WorkState | null = null,
  shape: WorkShape = "wide",
  use: FigureUse = "file",
): string {
  const drawing = workDrawing(id, now, after);
  if (!drawing.ok) throw new Error(JSON.stringify(drawing.diagnostics));
  return drawing.value.draw(shape, use);
}

const workPictureIds = workPictures.map(({ id }) => id);

/** Every drawing of the work that is kept, by the name of its file. */
export const workDrawings: Readonly<Record<string, () => string>> = Object.fromEntries(
  workPictureIds.flatMap((id) => [
    [`work-${id}`, () => drawnWork(id, gantryNow)],
    [`work-${id}-narrow`, () => drawnWork(id, gantryNow, null, "narrow")],
    [`work-${id}-after`, () => drawnWork(id, gantryNow, gantryAfter)],
    [`work-${id}-after-narrow`, () => drawnWork(id, gantryNow, gantryAfter, "narrow")],
    [`work-${id}-bridge`, () => drawnWork(id, bridgeNow)],
  ]),
);

/** Machines that are hardly known, far out, without any slip, very small, or long and narrow: nobody keeps their drawings. */
const oddStates: Readonly<Record<string, { readonly now: WorkState; readonly after: WorkState }>> = {
  unread: { now: workStateWith(gantry, {}, known(gantry, 1)), after: workStateWith(gantry, {}, known(gantry, 0.3)) },
  "far out": { now: randomWork(bridge, 3, 0.2), after: randomWork(bridge, 1, 0.2) },
  "out as machines come": { now: randomWork(gantry, 1, 0.1), after: randomWork(gantry, 0.2, 0.1) },
  "without slip": { now: workStateWith(bridge, {}), after: workStateWith(bridge, {}) },
  "after a skim": { now: gantryNow, after: workStateWith(gantry, { "bed.dome.x": 0.001 }, known(gantry, 0.01)) },
  small: sized(80, 60),
  "long and narrow": sized(1500, 160),
  "deep and narrow": sized(150, 1400),
};

export const oddWorkDrawings: Readonly<Record<string, () => string>> = Object.fromEntries(
  Object.entries(oddStates).flatMap(([name, { now, after }]) =>
    workPictureIds.flatMap((id) =>
      (["wide", "narrow"] as const).flatMap((shape) => [
        [`${id}, ${name}, ${shape}`, () => drawnWork(id, now, null, shape, "page")],
        [`${id}, ${name}, ${shape}, after`, () => drawnWork(id, now, after, shape, "page")],
      ]),
    ),
  ),
);

function sized(x: number, y: number) {
  const machine = machineFromDescription({
    ...gantry.description,
    travelMm: { x, y, z: 40 },
    railPlanesMm: { left: -80, right: x + 80 },
  });
  return { now: randomWork(machine, 1, 0.1), after: randomWork(machine, 0.3, 0.1) };
}

function randomWork(machine: Machine, size: number, share: number): WorkState {
  const values = randomState(machine, createRandom(8), size);
  const modes = Object.fromEntries(machine.parameters.map((id, i) => [id, values[i]] as const));
  return workStateWith(machine, modes, known(machine, share));
}
