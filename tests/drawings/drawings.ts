import { checkById } from "../../src/core/checks/catalogue.ts";
import type { Setup } from "../../src/core/checks/check.ts";
import { checkSetupDrawing } from "../../src/core/drawing/check-setup.ts";
import { historyPlot } from "../../src/core/drawing/history.ts";
import { intervalBar, statusSymbol } from "../../src/core/drawing/interval-bar.ts";
import { type MachineSheet, machinePlan, machineSheet } from "../../src/core/drawing/machine-sheet.ts";
import { residualPlot } from "../../src/core/drawing/residuals.ts";
import { sharesPlot } from "../../src/core/drawing/shares.ts";
import { type Machine, machineFromDescription, nominalState } from "../../src/core/machine/machine.ts";
import { adjusterDrawings } from "./adjuster-drawings.ts";

export const gantry = machineFromDescription({
  name: "Router by the window",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 500, z: 70 },
  railPlanesMm: { left: -90, right: 690 },
  wheelbaseMm: 140,
  beamCentreMm: 105,
  toolFromBeamMm: -75,
  details: { gridPitchMm: 50 },
});

export const bridge = machineFromDescription({
  name: "Small bridge",
  layout: "fixed-bridge",
  travelMm: { x: 400, y: 350, z: 80 },
  railPlanesMm: { left: -60, right: 460 },
  wheelbaseMm: 200,
  beamCentreMm: 125,
  toolFromBeamMm: -75,
});

export function stateWith(machine: Machine, modes: Readonly<Record<string, number>>): Float64Array {
  const state = nominalState(machine);
  for (const [mode, value] of Object.entries(modes)) state[machine.parameterIndex.get(mode) as number] = value;
  return state;
}

const shown = [
  { words: "Beam over the bed, left to right", value: "−0.28", U: "0.09" },
  { words: "Yaw of the beam, right end to the rear, as it is homed now", value: "+0.90 mm/m", U: "0.21" },
  { words: "Plunge leans to the right", value: "+0.70 mm/m", U: "0.62" },
];

export const gantrySheet: MachineSheet = {
  machine: gantry,
  state: stateWith(gantry, {
    "gantry.rack": 0.9,
    "beam.right": -0.28,
    "beam.crown": 0.1,
    "beam.roll": -0.8,
    "slide.lean.side": 0.7,
    "spindle.tilt.fore": 0.5,
    "rail.right.rear": 0.2,
    "rail.toe": 0.2,
    "bed.tilt.x": 0.2,
    "bed.dome.x": 0.1,
    "grid.yaw": -0.8,
    "scale.x": 4,
  }),
  stations: [
    { number: 1, x: 60, y: 80, z: 0, state: "read" },
    { number: 2, x: 300, y: 80, z: 0, state: "read" },
    { number: 3, x: 540, y: 80, z: 0, state: "read" },
    { number: 4, x: 60, y: 450, z: 0, state: "now" },
    { number: 5, x: 300, y: 450, z: 0, state: "open" },
    { number: 6, x: 540, y: 450, z: 0, state: "open" },
    { number: 7, x: 540, y: 450, z: 0, state: "open" },
  ],
  shown,
  readings: "31 in 5 checks",
  date: "2026-03-14",
};

export const bridgeSheet: MachineSheet = {
  machine: bridge,
  state: stateWith(bridge, {
    "bridge.yaw": 0.9,
    "beam.right": -0.2,
    "beam.bow": 0.15,
    "slide.lean.side": 0.7,
    "rail.right.rear": 0.2,
    "bed.tilt.x": 0.2,
    "table.yaw.change": 0.4,
  }),
  stations: [
    { number: 1, x: 40, y: 80, z: 0, state: "read" },
    { number: 2, x: 360, y: 315, z: 0, state: "open" },
  ],
  shown,
  readings: "8 in 2 checks",
  date: "2026-03-14",
};

function setupOf(
  id: string,
  machine: Machine,
  options: Setup["options"] = {},
  shape: "wide" | "narrow" = "wide",
): string {
  const check = checkById(id) as NonNullable<ReturnType<typeof checkById>>;
  const setup: Setup = { machine, options, instrument: null };
  const stations = check.stations(setup);
  return checkSetupDrawing({
    check,
    setup,
    read: stations.slice(0, 1).map(({ key }) => key),
    now: stations[1]?.key,
    shape,
  });
}

const both = { size: 0.3, sides: "both" } as const;

/** Every drawing that is kept, by the name of its file. */
export const drawings: Readonly<Record<string, () => string>> = {
  ...adjusterDrawings(gantry, bridge),
  "machine-sheet-gantry": () => machineSheet(gantrySheet),
  "machine-sheet-gantry-first-angle": () => machineSheet({ ...gantrySheet, projection: "first" }),
  "machine-sheet-bridge": () => machineSheet(bridgeSheet),
  "machine-sheet-as-it-should-be": () => machineSheet({ ...gantrySheet, state: null, shown: [], stations: [] }),
  "machine-sheet-too-far-out": () =>
    machineSheet({ ...gantrySheet, state: stateWith(gantry, { "gantry.rack": 80, "beam.right": -9 }) }),
  "machine-plan-narrow": () => machinePlan(gantrySheet),
  "setup-gap-under-beam": () => setupOf("gap-under-beam", gantry),
  "setup-gap-under-beam-narrow": () => setupOf("gap-under-beam", gantry, {}, "narrow"),
  "setup-tram-sweep-bridge": () => setupOf("tram-sweep", bridge),
  "setup-upright-gap-fore": () => setupOf("upright-gap", gantry, { towards: "fore" }),
  "setup-square-sweep-turned": () => setupOf("square-sweep", gantry, { lies: "turned over, corner front right" }),
  "setup-hole-rectangle": () => setupOf("hole-rectangle", gantry),
  "setup-ring-diameters": () => setupOf("ring-diameters", bridge),
  "setup-stop-gaps": () => setupOf("stop-gaps", gantry),
  "setup-feet-rock": () => setupOf("feet-rock", bridge),
  "bar-out": () =>
    intervalBar({ value: 0.55, low: 0.34, high: 0.76, limit: both, verdict: "out" }, "Squareness of Y to X"),
  "bar-within": () =>
    intervalBar({ value: -0.1, low: -0.25, high: 0.05, limit: both, verdict: "within" }, "Beam over the bed"),
  "bar-not-known-yet": () =>
    intervalBar(
      { value: 0.06, low: 0, high: 0.13, limit: { size: 0.1, sides: "one" }, verdict: "not known yet" },
      "Play of X",
    ),
  "status-within": () => statusSymbol("within", "file"),
  "status-out": () => statusSymbol("out", "file"),
  "status-not-known-yet": () => statusSymbol("not known yet", "file"),
  residuals: () =>
    residualPlot(
      "Gap under the beam, readings against the fit",
      [0.2, -1.1, 3.9, -0.4, 1.2, -6.3, 0.1].map((inSd, i) => ({ number: i + 1, inSd, isOdd: Math.abs(inSd) > 3.5 })),
    ),
  history: () =>
    historyPlot({
      title: "Squareness of Y to X over time",
      unit: "mm/m",
      limit: both,
      epochs: [
        { day: 0, date: "2026-02-02", value: 0.9, low: 0.6, high: 1.2 },
        { day: 12, date: "2026-02-14", value: 0.1, low: -0.1, high: 0.3 },
        { day: 40, date: "2026-03-14", value: 0.4, low: 0.1, high: 0.7 },
      ],
      events: [
        { day: 10, kind: "move", words: "belt clamp, right, 0.70 to the rear" },
        { day: 30, kind: "knock", words: "gantry" },
      ],
    }),
  shares: () =>
    sharesPlot("What carries it", [
      { words: "Gap under the beam", share: 0.18 },
      { words: "Upright gap, station 7", share: 0.71 },
      { words: "What is usual", share: 0.11 },
    ]),
};
