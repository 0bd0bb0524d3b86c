import { adjusterDrawing } from "../../src/core/drawing/adjuster-drawing.ts";
import { adjusterPlan } from "../../src/core/drawing/adjuster-plan.ts";
import { type BeforeAfterRow, beforeAfterDrawing } from "../../src/core/drawing/before-after.ts";
import type { Adjuster } from "../../src/core/machine/adjusters/adjuster.ts";
import { adjustersOf } from "../../src/core/machine/adjusters/catalogue.ts";
import type { LeavesToLay } from "../../src/core/machine/adjusters/sentence.ts";
import type { MachineDescription } from "../../src/core/machine/description.ts";
import { type Machine, machineFromDescription } from "../../src/core/machine/machine.ts";

/** An amount that every adjuster of the kind can be moved by, and the leaves that make it. */
export interface Example {
  readonly adjuster: Adjuster;
  readonly amount: number;
  readonly leaves: LeavesToLay | null;
}

/** Every adjuster of a machine, moved both ways. */
export function examplesOf(machine: Machine): readonly Example[] {
  return adjustersOf(machine).flatMap((adjuster) =>
    (adjuster.moves ? ([1, -1] as const) : ([1] as const)).map((sign): Example => {
      const amount = sign * (adjuster.unit === "mm/m" ? 3 : 0.35);
      if (adjuster.packing === "none") return { adjuster, amount, leaves: null };
      if (adjuster.packing === "top or bottom") {
        const place = sign > 0 ? "top" : "bottom";
        return { adjuster, amount, leaves: { place, layMm: [0.2, 0.15], takeOutMm: 0, restMm: 0.35 } };
      }
      const leaves: LeavesToLay =
        sign > 0
          ? { place: "only", layMm: [0.2, 0.15], takeOutMm: 0, restMm: 0.35 }
          : { place: "only", layMm: [0.15], takeOutMm: 0.5, restMm: 0.15 };
      return { adjuster, amount, leaves };
    }),
  );
}

const small: Omit<MachineDescription, "name" | "layout"> = {
  travelMm: { x: 150, y: 120, z: 40 },
  railPlanesMm: { left: -40, right: 190 },
  wheelbaseMm: 60,
  beamCentreMm: 70,
  toolFromBeamMm: -45,
  details: { slideScrewsMm: { across: 40, up: 50 }, mountScrewsMm: { across: 30, up: 40 }, beamFaceMm: -12 },
};
const large: Omit<MachineDescription, "name" | "layout"> = {
  travelMm: { x: 1500, y: 2500, z: 200 },
  railPlanesMm: { left: -150, right: 1650 },
  wheelbaseMm: 300,
  beamCentreMm: 240,
  toolFromBeamMm: -110,
  details: { beamUndersideMm: 180, beamFaceMm: -40 },
};

/** Machines unlike the worked ones: far smaller, far larger, the tool behind its beam, the yaw set in other ways. */
export const otherMachines: readonly Machine[] = (["moving-gantry", "fixed-bridge"] as const).flatMap((layout) =>
  [
    { ...small, name: "small", layout },
    { ...large, name: "large", layout },
    { ...small, name: "tool behind the beam", layout, toolFromBeamMm: 45 },
    { ...large, name: "squares on its stops", layout, details: { squaresOnStops: true } },
    { ...large, name: "one motor along Y", layout, details: { motorsOnY: 1 as const } },
  ].map(machineFromDescription),
);

const about = (median: number, half: number) => ({ low: Math.max(0, median - half), median, high: median + half });

const rows: readonly BeforeAfterRow[] = [
  {
    ...{ title: "Spread of depth over 400 × 150", unit: "mm", limit: 0.2, verdict: "within" },
    ...{ before: about(0.28, 0.06), after: about(0.13, 0.06) },
  },
  {
    ...{ title: "Diagonals of a square of 300", unit: "mm", limit: 0.15, verdict: "out" },
    ...{ before: about(0.23, 0.03), after: about(0.23, 0.03) },
  },
  {
    ...{ title: "Tram over 200", unit: "mm", limit: 0.1, verdict: "not known yet" },
    ...{ before: about(0.41, 0.2), after: about(0.09, 0.15) },
  },
  {
    ...{ title: "Lean of a wall over 40", unit: "mm/m", limit: 0.06, verdict: "out" },
    ...{ before: about(0.05, 0.02), after: about(0.2, 0.02) },
  },
];

/** Drawings of adjusters that are kept, by the name of their files. */
export function adjusterDrawings(gantry: Machine, bridge: Machine): Readonly<Record<string, () => string>> {
  const one = (machine: Machine, id: string, sign: 1 | -1) => () => {
    const example = examplesOf(machine).find(
      ({ adjuster, amount }) => adjuster.id === id && Math.sign(amount) === sign,
    ) as Example;
    return adjusterDrawing({ machine, ...example });
  };
  return {
    "adjuster-rail-left-front": one(gantry, "rail.left.front", 1),
    "adjuster-frame-toe": one(gantry, "frame.toe", 1),
    "adjuster-beam-right-down": one(gantry, "beam.right", -1),
    "adjuster-gantry-offset": one(gantry, "gantry.offset", 1),
    "adjuster-slide-packing": one(gantry, "slide.packing", 1),
    "adjuster-mount-side": one(gantry, "mount.side", -1),
    "adjuster-play-z": one(gantry, "play.z", 1),
    "adjuster-bridge-yaw": one(bridge, "bridge.yaw", -1),
    "adjuster-bridge-bed-rear-right": one(bridge, "bed.rear.right", -1),
    "adjuster-bridge-bed-turn": one(bridge, "bed.turn", 1),
    "adjuster-bridge-steps-y": one(bridge, "steps.y", 1),
    "adjuster-plan-gantry": () => adjusterPlan({ machine: gantry, now: "beam.right" }),
    "adjuster-plan-bridge": () => adjusterPlan({ machine: bridge }),
    "adjuster-before-after": () => beforeAfterDrawing(rows),
  };
}
