import { describe, expect, test } from "vitest";
import { randomState } from "../../../tests/simulation/random-state.ts";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { simulatedInstruments } from "../../../tests/simulation/workshop.ts";
import { diagonalsOfSkewedRectangle } from "../geometry/skewed-rectangle.ts";
import type { Instrument } from "../instruments/instrument.ts";
import type { LayoutId } from "../machine/description.ts";
import { poseAt } from "../machine/joint.ts";
import { bedHeight, type Scene, tip, valuesOnly } from "../machine/kinematics.ts";
import { type Machine, nominalState } from "../machine/machine.ts";
import { createRandom } from "../numerics/random.ts";
import { touchHeight } from "./bed-touch.ts";
import { checkById } from "./catalogue.ts";
import type { GeometricCheck, Setup } from "./check.ts";

const gantry = workedMachine("moving-gantry");
const bridge = workedMachine("fixed-bridge");
const layouts: readonly LayoutId[] = ["moving-gantry", "fixed-bridge"];

// Modes of a hundredth of their usual size: what is left over of second order is below 10⁻⁵ mm.
describe("gap-under-beam, on a machine that is out by one thing", () => {
  test("grows with the right seat in proportion to the place between the seats", () => {
    const { W, xL, zu } = gantry.dimensions;
    const gaps = read(gantry, "gap-under-beam", { "beam.right": 0.1 });
    for (const { station, value } of gaps) expect(value - zu).toBeCloseTo((0.1 * (station.at[0] - xL)) / W, 4);
  });

  test("shrinks by what the bed rises to", () => {
    const { Lx, zu } = gantry.dimensions;
    for (const { station, value } of read(gantry, "gap-under-beam", { "bed.tilt.x": 1 })) {
      expect(value - zu).toBeCloseTo(-(station.at[0] - Lx / 2) / 1000, 4);
    }
  });

  test("shows the crown of the beam at each place by its parabola", () => {
    const { W, xL, zu } = gantry.dimensions;
    for (const { station, value } of read(gantry, "gap-under-beam", { "beam.crown": 0.1 })) {
      const u = (station.at[0] - xL) / W;
      expect(value - zu).toBeCloseTo(0.1 * 4 * u * (1 - u), 4);
    }
  });

  test("less by the height of the block", () => {
    const { zu } = gantry.dimensions;
    for (const { value } of read(gantry, "gap-under-beam", {}, {}, { block: zu - 0.7 }))
      expect(value).toBeCloseTo(0.7, 9);
  });
});

describe("bed-touch", () => {
  test.each(layouts)("finds the z at which the tip stands on the surface, on a %s as it comes", (layout) => {
    const machine = workedMachine(layout);
    const random = createRandom(61);
    for (let trial = 0; trial < 30; trial++) {
      const scene = valuesOnly(machine, randomState(machine, random, random.pick([1, 3])));
      const x = random.uniform() * machine.dimensions.Lx;
      const y = random.uniform() * machine.dimensions.Ly;
      const at = tip(scene, poseAt(x, y, touchHeight(scene, x, y).value));
      expect(Math.abs(at.z.value - bedHeight(scene, at.x, at.y).value)).toBeLessThan(1e-11);
    }
  });

  test("is the bed's height on a machine whose motion is true, and minus the tip's where only that is high", () => {
    for (const { value } of read(gantry, "bed-touch", { "bed.height": 0.4 })) expect(value).toBeCloseTo(0.4, 10);
    const seats = read(gantry, "bed-touch", { "beam.left": 0.4, "beam.right": 0.4 });
    for (const { value } of seats) expect(value).toBeCloseTo(-0.4, 10);
  });

  test("comes down from above, so that half of the play of Z leaves the tip high", () => {
    for (const { value } of read(gantry, "bed-touch", { "backlash.z": 0.2 })) expect(value).toBeCloseTo(-0.1, 10);
  });
});

describe("tram-sweep, the axis tilted alone", () => {
  test.each([
    ["spindle.tilt.side", "right", "left"],
    ["spindle.tilt.fore", "rear", "front"],
  ] as const)("by %s of θ reads +R·tan θ at the %s and −R·tan θ at the %s", (mode, high, low) => {
    for (const { station, value } of read(gantry, "tram-sweep", { [mode]: 2 })) {
      const side = station.key.split(", ")[1];
      const expected = side === high ? 1 : side === low ? -1 : 0;
      // The tip itself rises by zm(1 − cos θ), which the zero takes.
      const lift = 90 * (1 - Math.cos(2e-3));
      expect(value + lift).toBeCloseTo(expected * 100 * Math.tan(2e-3), 9);
    }
  });

  test("reads the bed's slope times R where the bed alone is tilted", () => {
    for (const { station, value } of read(gantry, "tram-sweep", { "bed.tilt.x": 2 })) {
      const [place, side] = station.key.split(", ");
      const expected = side === "right" ? 0.2 : side === "left" ? -0.2 : 0;
      const centre = (2 * (station.at[0] - 300)) / 1000;
      expect(value - centre, place).toBeCloseTo(expected, 9);
    }
  });
});

describe("hole-rectangle", () => {
  test("on a racked beam has the diagonals of a sheared rectangle", () => {
    const rack = 2;
    const lengths = new Map(
      read(gantry, "hole-rectangle", { "gantry.rack": rack }, { marks: "pricks" }).map(({ station, value }) => [
        station.key,
        { value, station },
      ]),
    );
    const [a, b] = [480, 400];
    // The X path turns by the rack, the Y path does not: the corner at the front left closes by it.
    const closed = diagonalsOfSkewedRectangle(a, b, rack / 1000);
    const found = (key: string) => lengths.get(key)?.value as number;
    const nominal = Math.hypot(a, b);
    expect(found("rising")).toBeCloseTo(closed.fromOrigin - nominal, 3);
    expect(found("falling")).toBeCloseTo(closed.across - nominal, 3);
    expect(found("rising")).toBeGreaterThan(0.5);
    expect(found("left")).toBeCloseTo(0, 9);
    expect(found("front")).toBeCloseTo(0, 9);
  });

  test("with play of its own reads nothing of it, since all marks are reached from the same side", () => {
    const found = read(gantry, "hole-rectangle", { "backlash.x": 0.3, "backlash.y": 0.2 }, { marks: "pricks" });
    for (const { value } of found) expect(value).toBeCloseTo(0, 9);
  });

  test("grows by the scale along each axis, and by the hole between far edges and less it between near", () => {
    for (const { station, value } of read(
      gantry,
      "hole-rectangle",
      { "scale.x": 1, "scale.y": 2 },
      {},
      { hole: 0.05 },
    )) {
      const to = station.to as readonly number[];
      const [a, b] = [to[0] - station.at[0], to[1] - station.at[1]];
      const expected = Math.hypot(a * 1.001, b * 1.002) - Math.hypot(a, b);
      expect(value).toBeCloseTo(expected + (station.key.endsWith("far") ? 0.05 : -0.05), 9);
      expect(station.nominal).toBeCloseTo(Math.hypot(a, b) + (station.key.endsWith("far") ? 6 : -6), 9);
    }
  });
});

describe("ring-diameters of a path of radius 60", () => {
  const radians = (f: number) => (f * Math.PI) / 180;
  const rings = (modes: Readonly<Record<string, number>>, options: Setup["options"] = {}, unknowns = {}) =>
    read(gantry, "ring-diameters", modes, options, unknowns).map(
      ({ station, value }) => [radians(station.figures?.f as number), value] as const,
    );

  test("skewed by a rack of γ: 2r·γ·sin f·cos f, the same both ways round", () => {
    for (const direction of ["clockwise", "counter-clockwise"]) {
      for (const [f, value] of rings({ "gantry.rack": 1 }, { direction })) {
        expect(value).toBeCloseTo(120 * 1e-3 * Math.sin(f) * Math.cos(f), 3);
      }
    }
  });

  test("out of scale: 2r·(s_x cos² f + s_y sin² f)", () => {
    for (const [f, value] of rings({ "scale.x": 2, "scale.y": -1 })) {
      expect(value).toBeCloseTo(120 * (2e-3 * Math.cos(f) ** 2 - 1e-3 * Math.sin(f) ** 2), 9);
    }
  });

  test("with play: B_x·cos f along X less B_y·sin f along Y between 0° and 90°, and the other way round when cut the other way round", () => {
    const [bx, by] = [0.2, 0.1];
    // Counter-clockwise the tool goes to the left where it is at the rear: there it stands half of the play to the right.
    for (const [direction, way] of [
      ["counter-clockwise", 1],
      ["clockwise", -1],
    ] as const) {
      for (const [f, value] of rings({ "backlash.x": bx, "backlash.y": by }, { direction })) {
        const atRear = way * Math.sign(Math.sin(f));
        const atRight = way * Math.sign(Math.cos(f));
        expect(value).toBeCloseTo(bx * atRear * Math.cos(f) - by * atRight * Math.sin(f), 9);
      }
    }
  });

  test("less the cutter's extra size for a disc, and more for a pocket", () => {
    for (const [, value] of rings({}, { piece: "disc" }, { cutter: 0.1 })) expect(value).toBeCloseTo(-0.1, 9);
    for (const [, value] of rings({}, { piece: "pocket" }, { cutter: 0.1 })) expect(value).toBeCloseTo(0.1, 9);
  });
});

describe("pass-ridges", () => {
  test("of an axis that leans by θ are the stepover times tan θ, up towards the side to which the axis leans", () => {
    for (const { station, value } of read(gantry, "pass-ridges", { "spindle.tilt.side": 2, "spindle.tilt.fore": -3 })) {
      const expected = station.key.endsWith("X") ? -15 * Math.tan(3e-3) : 15 * Math.tan(2e-3);
      expect(value).toBeCloseTo(expected, 6);
    }
  });

  test("vanish where axis and path roll together, whatever way the beam lies", () => {
    for (const { station, value } of read(gantry, "pass-ridges", { "beam.right": 0.1 })) {
      expect(value, station.key).toBeCloseTo(0, 6);
    }
  });
});

describe("level-ride", () => {
  test("on a table shows the table's own pitch along Y, and nothing of the carriage", () => {
    const { Ly } = bridge.dimensions;
    const rails = { "rail.left.rear": 0.35, "rail.right.rear": 0.35 };
    const found = read(bridge, "level-ride", rails, { lies: "fore" });
    for (const { station, value } of found) {
      const pitch = (0.35 / Ly) * 1000;
      expect(value).toBeCloseTo(station.key.startsWith("along y") ? pitch : 0, 4);
    }
    for (const { value } of read(bridge, "level-ride", { "beam.roll": 2 }, { lies: "fore" }).slice(5)) {
      expect(value).toBeCloseTo(0, 9);
    }
  });

  test("on a table shows the roll of the rails that carry it where it stands: at the rear while Y is at its front", () => {
    const found = read(bridge, "level-ride", { "rail.right.rear": 0.28 }, { lies: "side" });
    const { Ly, railSpan } = bridge.dimensions;
    for (const { station, value } of found.filter(({ station: { key } }) => key.startsWith("along y"))) {
      expect(value).toBeCloseTo((1 - station.at[1] / Ly) * (0.28 / railSpan) * 1000, 4);
    }
  });

  test("on a gantry shows the slope of the beam with its crown, + where the right end is high", () => {
    const { W, xL } = gantry.dimensions;
    for (const { station, value } of read(gantry, "level-ride", { "beam.right": 0.2, "beam.crown": 0.1 }).slice(0, 5)) {
      const u = (station.at[0] - xL) / W;
      expect(value).toBeCloseTo(((0.2 + 0.4 * (1 - 2 * u)) / W) * 1000, 4);
    }
  });

  test("read fore, shows the roll of the beam with its sign turned: the top to the rear lowers the rear end", () => {
    for (const { value } of read(gantry, "level-ride", { "beam.roll": 2 }, { lies: "fore" }))
      expect(value).toBeCloseTo(-2, 4);
  });
});

describe("the bare frame", () => {
  test("frame-diagonals: a stagger shears the rectangle of the rails, and toe alone leaves both diagonals equal", () => {
    const { W, Ly } = gantry.dimensions;
    const length = 1.36 * Ly;
    const [{ value }] = read(gantry, "frame-diagonals", { "frame.stagger": 2 });
    expect(value).toBeCloseTo(Math.hypot(W, length + 2) - Math.hypot(W, length - 2), 9);
    expect(value).toBeGreaterThan(0);
    expect(read(gantry, "frame-diagonals", { "rail.toe": 2 })[0].value).toBeCloseTo(0, 9);
  });

  test("rail-spacing: toe is the rear less the front, belly the middle less the mean of the ends", () => {
    const toe = read(gantry, "rail-spacing", { "rail.toe": 0.6 }).map(({ value }) => value);
    expect(toe[2] - toe[0]).toBeCloseTo(0.6, 12);
    const belly = read(gantry, "rail-spacing", { "rail.belly": 0.3 }).map(({ value }) => value);
    expect(belly[1] - (belly[0] + belly[2]) / 2).toBeCloseTo(0.3, 12);
  });

  test.each(layouts)("rail-wind on a %s: the height of the right rail over the left by their distance", (layout) => {
    const machine = workedMachine(layout);
    const wind = read(machine, "rail-wind", { "rail.right.front": 0.5, "rail.left.rear": 0.2 }).map(
      ({ value }) => value,
    );
    expect(wind[0]).toBeCloseTo((0.5 / machine.dimensions.railSpan) * 1000, 12);
    expect(wind[4]).toBeCloseTo((-0.2 / machine.dimensions.railSpan) * 1000, 12);
  });

  test("stop-gaps: the right end to the rear opens the right gap, a right rail to the rear closes it", () => {
    const { W } = gantry.dimensions;
    for (const { value } of read(gantry, "stop-gaps", { "gantry.rack": 1, "gantry.rack.change": 0.4 })) {
      expect(value).toBeCloseTo(W * Math.tan(0.8e-3), 9);
    }
    for (const { value } of read(gantry, "stop-gaps", { "frame.stagger": 0.7 })) expect(value).toBeCloseTo(-0.7, 12);
  });
});

describe("lines, lengths and play", () => {
  test("line-along-x slopes by the rack, and line-along-y by the print's own turn", () => {
    const alongX = read(gantry, "line-along-x", { "gantry.rack": 2 });
    const rise = alongX[4].value - alongX[0].value;
    expect(rise / (alongX[4].station.at[0] - alongX[0].station.at[0])).toBeCloseTo(Math.sin(2e-3), 9);
    const alongY = read(gantry, "line-along-y", { "grid.yaw": 2 });
    const drift = alongY[4].value - alongY[0].value;
    expect(drift / (alongY[4].station.at[1] - alongY[0].station.at[1])).toBeCloseTo(Math.sin(2e-3), 9);
  });

  test("beam-to-line: the right end of the beam to the rear reads more on the right", () => {
    const found = read(gantry, "beam-to-line", { "gantry.rack": 2 });
    expect(found[2].value - found[0].value).toBeCloseTo(540 * Math.sin(2e-3), 3);
  });

  test("travel reads the scale times the length along each axis, with no play in it", () => {
    for (const axis of ["X", "Y", "Z"]) {
      const id = axis.toLowerCase();
      for (const { station, value } of read(
        gantry,
        "travel",
        { [`scale.${id}`]: 2, [`backlash.${id}`]: 0.3 },
        { axis },
      )) {
        expect(value).toBeCloseTo(2e-3 * (station.nominal as number), 9);
      }
    }
  });

  test("turnaround reads the play of its axis, plus, and position-runs half of it on either side", () => {
    for (const axis of ["X", "Y", "Z"]) {
      const modes = { [`backlash.${axis.toLowerCase()}`]: 0.2 };
      for (const { value } of read(gantry, "turnaround", modes, { axis })) expect(value).toBeCloseTo(0.2, 9);
      for (const { station, value } of read(gantry, "position-runs", modes, { axis })) {
        expect(value).toBeCloseTo(station.key.endsWith("up") ? -0.1 : 0.1, 9);
      }
    }
  });

  test("grid-diagonals: a corner wider than 90° makes the diagonal from the front right the longer", () => {
    const found = new Map(
      read(gantry, "grid-diagonals", { "grid.skew": 1 }).map(({ station, value }) => [station.key, value]),
    );
    expect(found.get("falling") as number).toBeGreaterThan(0.3);
    expect(found.get("rising") as number).toBeCloseTo(-(found.get("falling") as number), 3);
  });

  test("home-repeat: what homing leaves shows at the right end by its lever from the middle", () => {
    for (const { station, value } of read(gantry, "home-repeat", { "gantry.rack.home": 0.5 })) {
      expect(value).toBeCloseTo(Math.sin(0.5e-3) * (station.at[0] - 300), 4);
    }
  });
});

describe("the place whose lasting shape a reading contains", () => {
  test.each([
    ["bed-touch", "dial"],
    ["gap-under-beam", "feeler"],
    ["groove-widths", "loupe"],
    ["tram-sweep", "dial"],
    ["tram-sweep", "feeler"],
  ])("is where %s by %s touches the bed, with the weight that lifting the bed there has", (id, family) => {
    const check = checkById(id) as GeometricCheck;
    const setup: Setup = { machine: gantry, options: {}, instrument: simulatedInstruments[family] ?? null };
    const { parameterIndex, parameters } = gantry;
    const { Lx, Ly } = gantry.dimensions;
    const scene: Scene = { machine: gantry, state: nominalState(gantry), size: parameters.length, skim: null };
    const none = new Float64Array(parameters.length);
    for (const station of check.stations(setup)) {
      const { gradient } = check.predict(scene, station, setup, () => ({ value: 0, gradient: none }));
      const of = (mode: string) => gradient[parameterIndex.get(mode) as number];
      const touches = check.touches?.(setup, station) ?? [];
      expect(touches).toHaveLength(1);
      const [{ surface, x, y, weight }] = touches;
      expect(surface).toBe("bed");
      expect(of("bed.height")).toBeCloseTo(weight, 9);
      expect(of("bed.tilt.x")).toBeCloseTo((weight * (x - Lx / 2)) / 1000, 9);
      expect(of("bed.tilt.y")).toBeCloseTo((weight * (y - Ly / 2)) / 1000, 9);
    }
  });

  test.each([
    ["edge-traverse", { stem: "rear, right or up" }, { stem: "front, left or down" }],
    [
      "upright-sweep",
      { stem: "right or rear", square: "right or rear" },
      { stem: "left or front", square: "left or front" },
    ],
    ["square-sweep", { lies: "corner front left" }, { lies: "turned over, corner front right" }],
  ])("on the edge of %s is the same both ways round, and what bulges there reads plus in both", (id, first, second) => {
    const check = checkById(id) as GeometricCheck;
    const touched = [first, second].map((options: Record<string, string>) => {
      const setup: Setup = { machine: gantry, options, instrument: null };
      return check.stations(setup).map((station) => check.touches?.(setup, station));
    });
    expect(touched[0]).toEqual(touched[1]);
    for (const touch of touched[0].flat()) expect(touch?.weight).toBe(1);
  });
});

describe("how large the rectangle of holes is", () => {
  test.each([
    [300, 210, 190],
    [150, 105, 90],
  ])("with calipers of %d it is %d by %d, and its diagonal still goes between the jaws", (range, a, b) => {
    const calipers = { ...simulatedInstruments.calipers, rangeMm: { from: 0, to: range } } as Instrument;
    const check = checkById("hole-rectangle") as GeometricCheck;
    const stations = check.stations({ machine: gantry, options: {}, instrument: calipers });
    const nominal = (key: string) => stations.find((station) => station.key === key)?.nominal as number;
    expect([nominal("front, near") + 6, nominal("left, near") + 6]).toEqual([a, b]);
    expect(nominal("rising, far")).toBeLessThan(range);
  });

  test("with pricked marks it is 10 % in from the edges of the travel, unless the rule is too short for that", () => {
    const check = checkById("hole-rectangle") as GeometricCheck;
    const options = { marks: "pricks" };
    const free = check.stations({ machine: gantry, options, instrument: null });
    expect(free.map(({ nominal }) => nominal).slice(0, 4)).toEqual([480, 480, 400, 400]);
    const short = { ...simulatedInstruments.rule, rangeMm: { from: 0, to: 500 } } as Instrument;
    for (const { nominal } of check.stations({ machine: gantry, options, instrument: short })) {
      expect(nominal).toBeLessThanOrEqual(490 + 1e-9);
    }
  });
});

function read(
  machine: Machine,
  id: string,
  modes: Readonly<Record<string, number>>,
  options: Setup["options"] = {},
  unknowns: Readonly<Record<string, number>> = {},
) {
  const check = checkById(id) as GeometricCheck;
  const state = nominalState(machine);
  for (const [mode, value] of Object.entries(modes)) state[machine.parameterIndex.get(mode) as number] = value;
  const scene = valuesOnly(machine, state);
  const setup: Setup = { machine, options, instrument: null };
  const none = new Float64Array(0);
  return check.stations(setup).map((station) => ({
    station,
    value: check.predict(scene, station, setup, (key) => ({ value: unknowns[key] ?? 0, gradient: none })).value,
  }));
}
