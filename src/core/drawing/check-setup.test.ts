import { describe, expect, it } from "vitest";
import { checks } from "../checks/catalogue.ts";
import type { Check, GeometricCheck, Setup } from "../checks/check.ts";
import { valuesOnly } from "../machine/kinematics.ts";
import { machineFromDescription, nominalState } from "../machine/machine.ts";
import { constant } from "../numerics/dual.ts";
import { checkSetupDrawing, numberedStations } from "./check-setup.ts";
import { detailOf } from "./details/catalogue.ts";

const gantry = machineFromDescription({
  name: "Worked machine",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 500, z: 70 },
  railPlanesMm: { left: -90, right: 690 },
  wheelbaseMm: 140,
  beamCentreMm: 105,
  toolFromBeamMm: -75,
});
const bridge = machineFromDescription({
  name: "Worked bridge",
  layout: "fixed-bridge",
  travelMm: { x: 400, y: 350, z: 80 },
  railPlanesMm: { left: -60, right: 460 },
  wheelbaseMm: 200,
  beamCentreMm: 125,
  toolFromBeamMm: -75,
});

const cases = [gantry, bridge].flatMap((machine) =>
  checks
    .filter(({ layouts }) => layouts.includes(machine.layout.id))
    .flatMap((check) => setupsOf(check, machine).map((setup) => ({ check, setup, name: nameOf(check, setup) }))),
);

describe("set-up drawings", () => {
  it.each(cases)("$name: every station is marked with its number", ({ check, setup }) => {
    const drawing = checkSetupDrawing({ check, setup });
    const stations = numberedStations({ check, setup });
    expect(stations.length).toBeGreaterThan(0);
    for (const { number } of stations)
      expect(drawing).toMatch(new RegExp(`<g class="mark"><[^>]+/><text[^>]*>${number}</text></g>`));
  });

  it.each(cases)(
    "$name: the plan shows a person at the front, and the figure tells what it shows",
    ({ check, setup }) => {
      const drawing = checkSetupDrawing({ check, setup });
      // A square is flipped on a board at the bench, not on the machine.
      if (check.id !== "square-flip") expect(drawing).toContain(">front</text>");
      expect(drawing).toMatch(/<title>[^<]+<\/title><desc>[^<]+<\/desc>/);
      expect(detailOf({ check, setup, stations: [] })).not.toBeNull();
    },
  );

  it("draws the station to read now and those that have been read as such", () => {
    const check = checks.find(({ id }) => id === "gap-under-beam")!;
    const setup: Setup = { machine: gantry, options: {}, instrument: null };
    const drawing = checkSetupDrawing({ check, setup, read: ["front left"], now: "front middle" });
    expect(drawing.match(/class="mark read"/g)).toHaveLength(1);
    expect(drawing.match(/class="mark now"/g)).toHaveLength(1);
    expect(drawing.match(/class="mark"/g)).toHaveLength(4);
  });
});

/** A change of one mode, and which way the picture shows what it moves: stated by hand. */
interface Proof {
  readonly mode: string;
  readonly way: "right" | "left" | "up" | "down";
  /** Which station is asked; the first where absent. */
  readonly station?: number;
}

const proofs: Readonly<Record<string, (options: Setup["options"]) => Proof>> = {
  "gap-under-beam": () => ({ mode: "beam.left", way: "up" }),
  // A roll of the face to the rear goes to the right in the view from the right.
  "beam-upright": () => ({ mode: "beam.roll", way: "right" }),
  "upright-gap": ({ towards }) => ({ mode: towards === "fore" ? "slide.lean.fore" : "slide.lean.side", way: "right" }),
  "upright-sweep": ({ towards }) => ({
    mode: towards === "fore" ? "slide.lean.fore" : "slide.lean.side",
    way: "right",
    station: 4,
  }),
  // A bed that rises to the right is nearer there.
  "tram-sweep": () => ({ mode: "bed.tilt.x", way: "up" }),
  "bed-touch": () => ({ mode: "bed.height", way: "up" }),
  "line-along-x": () => ({ mode: "gantry.rack", way: "up", station: 4 }),
  "beam-to-line": () => ({ mode: "gantry.rack", way: "right", station: 2 }),
  "level-ride": ({ lies }) => ({
    mode: lies === "fore" ? "beam.roll" : "beam.right",
    way: lies === "fore" ? "down" : "up",
  }),
  "rail-wind": () => ({ mode: "rail.right.front", way: "up" }),
  "rail-spacing": () => ({ mode: "rail.toe", way: "right", station: 2 }),
  "frame-diagonals": () => ({ mode: "frame.stagger", way: "right" }),
  "stop-gaps": () => ({ mode: "gantry.rack", way: "up" }),
  "home-repeat": () => ({ mode: "gantry.rack", way: "right" }),
  "two-level-marks": () => ({ mode: "slide.lean.side", way: "right" }),
  "edge-traverse": ({ along, across }) =>
    across === "upright"
      ? { mode: "beam.right", way: "up", station: 6 }
      : along === "along the beam"
        ? { mode: "gantry.rack", way: "up", station: 6 }
        : { mode: "rail.wander", way: "up", station: 3 },
  "groove-widths": () => ({ mode: "bed.height", way: "right" }),
  "square-sweep": () => ({ mode: "rail.wander", way: "right", station: 4 }),
  // The upper end of the axis to the rear makes the next pass to the rear the higher one.
  "pass-ridges": () => ({ mode: "spindle.tilt.fore", way: "up" }),
};

describe("the arrow that says which way reads plus", () => {
  const proven = checks
    .filter((check): check is GeometricCheck => check.kind === "geometric" && check.id in proofs)
    .flatMap((check) => setupsOf(check, gantry).map((setup) => ({ check, setup, name: nameOf(check, setup) })));

  it.each(proven)("$name: what moves along it makes the reading grow", ({ check, setup }) => {
    const usual = Object.fromEntries(
      check.options.map((option) => [option.key, setup.options[option.key] ?? option.usual]),
    ) as Setup["options"];
    const proof = proofs[check.id](usual);
    const stations = check.stations(setup);
    const station = stations[proof.station ?? 0];
    const state = nominalState(gantry);
    state[gantry.parameterIndex.get(proof.mode)!] = 1;
    const reading = (of: Float64Array) =>
      check.predict(valuesOnly(gantry, of), station, setup, () => constant(0, 0)).value;
    const grows = reading(state) - reading(nominalState(gantry));
    const plus = detailOf({ check, setup, stations: numberedStations({ check, setup }) })!.plus!;
    const towards = { right: [1, 0], left: [-1, 0], up: [0, -1], down: [0, 1] }[proof.way];
    const along = (plus.to[0] - plus.from[0]) * towards[0] + (plus.to[1] - plus.from[1]) * towards[1];
    expect(Math.abs(grows)).toBeGreaterThan(1e-3);
    expect(Math.sign(along)).toBe(Math.sign(grows));
  });
});

/** The usual set-up, and every other answer of every question, one at a time and by pairs. */
function setupsOf(check: Check, machine: Setup["machine"]): readonly Setup[] {
  let answers: Setup["options"][] = [{}];
  for (const { key, answers: texts } of check.options) {
    if (texts) answers = answers.flatMap((given) => texts.map((text) => ({ ...given, [key]: text })));
  }
  return answers.map((options) => ({ machine, options, instrument: null }));
}

function nameOf(check: Check, setup: Setup): string {
  return [check.id, setup.machine.layout.id, ...Object.values(setup.options)].join(", ");
}
