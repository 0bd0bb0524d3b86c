import { describe, expect, test } from "vitest";
import { randomState } from "../../../tests/simulation/random-state.ts";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { simulatedInstruments } from "../../../tests/simulation/workshop.ts";
import type { Instrument } from "../instruments/instrument.ts";
import { poseAt } from "../machine/joint.ts";
import { bedHeightAt, placeOnMember, type Scene, tip, valuesOnly } from "../machine/kinematics.ts";
import type { Machine } from "../machine/machine.ts";
import type { DualVector } from "../numerics/dual.ts";
import { createRandom } from "../numerics/random.ts";
import { checkById } from "./catalogue.ts";
import type { GeometricCheck, Setup, Station } from "./check.ts";

/*
 * What is turned over is built here as a body of points with its own error, set down so that it touches, and read as a
 * dial reads (stem pushed in is plus) or as leaves do. Nothing of the formulas is used. The machines are a thousandth as
 * far out as real ones, so that only first order remains: readings of about 10⁻⁴ mm have to agree to 2·10⁻⁸.
 */
const SMALL = 1e-3;
const AGREE = 2e-8;
const layouts = ["moving-gantry", "fixed-bridge"] as const;

type Vector = readonly [number, number, number];

/**
 * A square in its own plane: the corner at 0, the stock along +x, the upright edge at 90° + s, where s per 100 mm is by
 * how much it is wider. A wide one leans away from its stock.
 */
function uprightEdgeOfSquare(wider: number, up: number): readonly [x: number, y: number] {
  const angle = Math.PI / 2 + Math.atan(wider / 100);
  const along = up / Math.sin(angle);
  return [Math.cos(angle) * along, up];
}

/** Directions of the bed at a place, from heights around it. */
function bedAt(scene: Scene, x: number, y: number) {
  const h = (dx: number, dy: number) => bedHeightAt(scene, x + dx, y + dy).value;
  const sx = h(1, 0) - h(0, 0) - (h(1, 0) + h(-1, 0) - 2 * h(0, 0)) / 2;
  const sy = h(0, 1) - h(0, 0) - (h(0, 1) + h(0, -1) - 2 * h(0, 0)) / 2;
  return {
    foot: [x, y, h(0, 0)] as Vector,
    up: unit([-sx, -sy, 1]),
    side: unit([1, 0, sx]),
    fore: unit([0, 1, sy]),
  };
}

describe.each(layouts)("on a %s, what two bodies do is what is predicted for", (layout) => {
  const machine = workedMachine(layout);
  const { Lx, Ly } = machine.dimensions;
  const random = createRandom(51).fork(layout);
  const draw = (size: number) => SMALL * size * random.normal();
  const scenes = Array.from({ length: 5 }, () => valuesOnly(machine, randomState(machine, random, SMALL)));

  describe.each(["side", "fore"] as const)("a square at a flank, read to the %s", (towards) => {
    test.each([
      ["left or in front", 1, "spindle"],
      ["right or behind", -1, "spindle"],
      ["left or in front", 1, "slide"],
      ["right or behind", -1, "slide"],
    ] as const)("from %s", (square, flankLiesTowards, flank) => {
      const options = { towards, square, flank };
      for (const scene of scenes) {
        const [wider, own] = [draw(0.2), flank === "spindle" ? draw(0.5) : 0];
        const { check, setup, station } = stationOf(machine, "upright-gap", options);
        const [x, y, z] = station.at;
        const H = 80;
        const pose = poseAt(x, y, z);
        const at = tip(scene, pose);
        const bed = bedAt(scene, at.x.value, at.y.value);
        const e = bed[towards];
        // The flank leans by its own error against the axis of the spindle that carries it.
        const off = (own / 1000) * H;
        const low: Vector = [x, y, z + machine.dimensions.zm];
        const high: Vector = [x + (towards === "side" ? off : 0), y + (towards === "fore" ? off : 0), low[2] + H];
        const face = [low, high].map((p) => vector(placeOnMember(scene, flank, p, pose)));
        const reading = gapsToSquare(bed, e, face, wider, flankLiesTowards);
        agree(check, scene, station, setup, { square: wider, [`flank.${towards}`]: own }, reading);
      }
    });
  });

  test.each([
    ["in front", 1],
    ["behind", -1],
  ] as const)("a square %s of the beam's face", (square, faceLiesTowards) => {
    for (const scene of scenes) {
      const wider = draw(0.2);
      for (const { check, setup, station } of stationsOf(machine, "beam-upright", { square })) {
        const [x, y] = station.at;
        const { zu, ty, yf } = machine.dimensions;
        const pose = poseAt(x, y + ty - yf, 0);
        const face = [zu + 5, zu + 45].map((z) => vector(placeOnMember(scene, "beam", [x, y, z], pose)));
        const bed = bedAt(scene, face[0][0], face[0][1]);
        const reading = gapsToSquare(bed, bed.fore, face, wider, faceLiesTowards);
        agree(check, scene, station, setup, { square: wider }, reading);
      }
    }
  });

  describe.each(["side", "fore"] as const)("a stem along an upright square, read to the %s", (towards) => {
    test.each([
      ["right or rear", "right or rear", 1, 1],
      ["left or front", "left or front", -1, -1],
      ["right or rear", "left or front", 1, -1],
      ["left or front", "right or rear", -1, 1],
    ] as const)("pointing %s, the body on the %s", (stem, square, points, stockLiesTowards) => {
      for (const scene of scenes) {
        const wider = draw(0.2);
        const readings = stationsOf(machine, "upright-sweep", { towards, stem, square }).map((known) => {
          const [x, y, z] = known.station.at;
          const start = vector(tip(scene, poseAt(x, y, 0, { arrivedZ: 1 })));
          const now = vector(tip(scene, poseAt(x, y, z, { arrivedZ: 1 })));
          const bed = bedAt(scene, start[0], start[1]);
          const e = bed[towards];
          // The edge passes through where the tip began; the stem is pushed in as the tool goes where it points.
          const edge = (up: number) => stockLiesTowards * uprightEdgeOfSquare(wider, up)[0];
          const climbed = dot(minus(now, start), bed.up);
          return { known, reading: points * (dot(minus(now, start), e) - edge(climbed)) };
        });
        for (const { known, reading } of readings) {
          agree(known.check, scene, known.station, known.setup, { square: wider, zero: 0 }, reading);
        }
      }
    });
  });

  test.each([
    ["corner front left", 1],
    ["turned over, corner front right", -1],
  ] as const)("a square that lies flat, %s", (lies, page) => {
    for (const scene of scenes) {
      const [wider, yaw, posX, posY] = [draw(0.2), draw(3), draw(10), draw(10)];
      const known = stationsOf(machine, "square-sweep", { lies });
      // The corner: the blade's stations have its x, the stock's its y.
      const cx = (known.find(({ station }) => station.key.startsWith("blade")) as Known).station.at[0];
      const cy = (known.find(({ station }) => station.key.startsWith("stock")) as Known).station.at[1];
      const laid = ([x, y]: readonly [number, number]): readonly [number, number] => {
        const turned = page * x;
        const angle = yaw / 1000;
        return [
          cx + posX + Math.cos(angle) * turned - Math.sin(angle) * y,
          cy + posY + Math.sin(angle) * turned + Math.cos(angle) * y,
        ];
      };
      for (const { check, setup, station } of known) {
        const [tx, ty] = vector(tip(scene, poseAt(...station.at)));
        let reading: number;
        if (station.key.startsWith("stock")) {
          // The stem goes to the rear against the stock's long outside.
          reading = ty - crossing(laid([0, 0]), laid([300, 0]), 0, tx);
        } else {
          const blade = [laid([0, 0]), laid(uprightEdgeOfSquare(wider, 300))] as const;
          // Against the outside of the blade: to the right as it lies first, to the left once turned over.
          reading = page * (tx - crossing(...blade, 1, ty));
        }
        // Where the square was laid, times how it was turned, is of second order and not small here.
        const unknowns = { yaw, square: wider, "position x": posX, "position y": posY };
        agree(check, scene, station, setup, unknowns, reading, 2e-7);
      }
    }
  });

  describe.each([
    ["along the beam", "in plan"],
    ["along the beam", "upright"],
    ["front to rear", "in plan"],
    ["front to rear", "upright"],
  ] as const)("a straightedge %s, read %s", (along, across) => {
    test.each([
      ["rear, right or up", 1],
      ["front, left or down", -1],
    ] as const)("with the stem to the %s", (stem, points) => {
      for (const scene of scenes) {
        const [bow, zero, slope] = [draw(0.1), draw(10), draw(3)];
        const known = stationsOf(machine, "edge-traverse", { along, across, stem });
        const a = along === "along the beam" ? 0 : 1;
        const c = across === "upright" ? 2 : 1 - a;
        const start = known[0].station.at[a];
        const length = known[known.length - 1].station.at[a] - start;
        // The body: a long edge that bulges outwards by `bow` in its middle, at 101 places along it.
        const body = Array.from({ length: 101 }, (_, i) => {
          const t = (i / 100) * 1.4 - 0.2;
          return [t * length, bow * 4 * t * (1 - t)] as const;
        });
        // It looks towards where the stem comes from; turning it over about its length turns that side about.
        const outwards = -points;
        const edge = body.map(([t, out]): readonly [number, number] => [
          start + t,
          known[0].station.at[c] + zero + (slope / 1000) * t + outwards * out,
        ]);
        for (const { check, setup, station } of known) {
          const at = vector(tip(scene, poseAt(...station.at)));
          const reading = points * (at[c] - onCurve(edge, at[a]));
          agree(check, scene, station, setup, { bow, zero, slope }, reading, 1e-7);
        }
      }
    });
  });

  test.each(["X", "Y"] as const)("a groove in a strip along %s, as laid and turned end for end", (along) => {
    for (const scene of scenes) {
      const [wedge, zero, turnedZero, angleOff] = [draw(0.5), draw(0.5), draw(0.5), draw(0.5)];
      const a = along === "X" ? 0 : 1;
      const middle = [Lx / 2, Ly / 2][a];
      for (const { check, setup, station } of stationsOf(machine, "groove-widths", { along })) {
        const turned = station.key.startsWith("turned");
        const at = vector(tip(scene, poseAt(...station.at)));
        // The strip, 2 mm higher than the tip is commanded, and thicker towards the end that carries the mark.
        const fromMark = (turned ? -1 : 1) * (station.at[a] - middle);
        const top =
          bedHeightAt(scene, at[0], at[1]).value +
          station.at[2] +
          2 +
          (turned ? turnedZero : zero) +
          (wedge / 1000) * fromMark;
        const half = ((90 + angleOff) / 2) * (Math.PI / 180);
        // A cone that stands on its tip cuts the surface in a circle as wide as the groove.
        const width = 2 * (top - at[2]) * Math.tan(half);
        const unknowns = { wedge, angle: angleOff, "depth zero": zero, "depth zero, turned": turnedZero };
        agree(check, scene, station, setup, unknowns, width - (station.nominal as number));
      }
    }
  });

  test.each([
    ["as first", 1],
    ["turned half round", -1],
  ] as const)("a block that stands %s", (block, stands) => {
    for (const scene of scenes) {
      const overhang = { side: draw(0.03), fore: draw(0.03) };
      for (const heightMm of [30, 50]) {
        for (const { check, setup, station } of stationsOf(machine, "two-level-marks", { block, heightMm })) {
          const [x, y, h] = station.at;
          expect(h).toBe(heightMm);
          const which = station.key as "side" | "fore";
          const low = vector(tip(scene, poseAt(x, y, 0)));
          const high = vector(tip(scene, poseAt(x, y, h)));
          const bed = bedAt(scene, low[0], low[1]);
          const e = bed[which];
          // The face stands on the fence 40 mm before the mark; its top overhangs to the side it was turned to.
          const foot = plus(bed.foot, e, -40);
          const topOfFace = plus(plus(foot, bed.up, h), e, stands * (overhang[which] / 100) * h);
          const reading = dot(minus(high, topOfFace), e) - dot(minus(low, foot), e);
          agree(
            check,
            scene,
            station,
            setup,
            { "overhang side": overhang.side, "overhang fore": overhang.fore },
            reading,
          );
        }
      }
    }
  });

  test("a square against itself on a straight edge of a board", () => {
    for (const scene of scenes) {
      const wider = draw(0.2);
      for (const lengthMm of [100, 250]) {
        const { check, setup, station } = stationOf(machine, "square-flip", { lengthMm });
        // Stock to the left: the square is seen in a mirror. Then turned over, the stock to the right.
        const leftStock = -uprightEdgeOfSquare(wider, lengthMm)[0];
        const rightStock = uprightEdgeOfSquare(wider, lengthMm)[0];
        // Each line of a wide square leans away from its stock, the first to the right of the second.
        expect(Math.sign(leftStock - rightStock)).toBe(Math.sign(wider));
        agree(check, scene, station, setup, { square: wider }, leftStock - rightStock);
      }
    }
  });

  test.each([
    ["dial", -1],
    ["feeler", 1],
  ] as const)("an arm that is swung over the bed and read by %s", (family, farther) => {
    const instrument = simulatedInstruments[family] as Instrument;
    for (const scene of scenes) {
      for (const { check, setup, station } of stationsOf(machine, "tram-sweep", {}, instrument)) {
        const [x, y, z] = station.at;
        const f = ((station.figures?.f as number) * Math.PI) / 180;
        // The end of the arm rides on the spindle; a wider gap lets the stem out and takes thicker leaves.
        const end = vector(
          placeOnMember(scene, "spindle", [x + 100 * Math.cos(f), y + 100 * Math.sin(f), z], poseAt(x, y, z)),
        );
        const gap = end[2] - bedHeightAt(scene, end[0], end[1]).value;
        agree(check, scene, station, setup, {}, farther * (gap - z));
      }
    }
  });

  test.each([
    ["X", "nose"],
    ["Y", "nose"],
    ["Z", "nose"],
    ["X", "plate"],
  ] as const)("leaves before a clamped block, and a dial, when %s turns round at the %s", (axis, key) => {
    for (const scene of scenes) {
      const known = stationsOf(machine, "turnaround", { axis }).find(({ station }) => station.key === key) as Known;
      const i = ["X", "Y", "Z"].indexOf(axis);
      const arrived = (way: 1 | -1) => {
        const pose = poseAt(...known.station.at, [{ arrivedX: way }, { arrivedY: way }, { arrivedZ: way }][i]);
        return vector(placeOnMember(scene, key === "plate" ? "carriage" : "spindle", known.station.at, pose))[i];
      };
      // A block on the plus side, 6 mm away, is fixed to the bed; so is a dial, whose stem plus pushes in.
      const block = known.station.at[i] + 6;
      const [goingUp, goingDown] = [block - arrived(1), block - arrived(-1)];
      agree(known.check, scene, known.station, known.setup, {}, goingUp - goingDown);
      agree(known.check, scene, known.station, known.setup, {}, arrived(-1) - arrived(1));
      expect(goingUp).toBeGreaterThan(goingDown);
    }
  });
});

/** Top gap less bottom gap when the square is slid along e until it touches the face that lies towards ±e of it. */
function gapsToSquare(
  bed: ReturnType<typeof bedAt>,
  e: Vector,
  face: readonly Vector[],
  wider: number,
  faceLies: 1 | -1,
): number {
  const gaps = face.map((point) => {
    const height = dot(minus(point, bed.foot), bed.up);
    // The stock lies away from the face, so the square's own x is turned about for a face to the plus side.
    const edge = -faceLies * uprightEdgeOfSquare(wider, height)[0];
    return faceLies * (dot(minus(point, bed.foot), e) - edge);
  });
  const slid = Math.min(...gaps);
  const [bottom, top] = gaps.map((gap) => gap - slid);
  expect(Math.min(bottom, top)).toBe(0);
  return top - bottom;
}

interface Known {
  readonly check: GeometricCheck;
  readonly setup: Setup;
  readonly station: Station;
}

function stationsOf(
  machine: Machine,
  id: string,
  options: Setup["options"],
  instrument: Instrument | null = null,
): readonly Known[] {
  const check = checkById(id) as GeometricCheck;
  const setup: Setup = { machine, options, instrument };
  return check.stations(setup).map((station) => ({ check, setup, station }));
}

function stationOf(machine: Machine, id: string, options: Setup["options"]): Known {
  return stationsOf(machine, id, options)[0];
}

function agree(
  check: GeometricCheck,
  scene: Scene,
  station: Station,
  setup: Setup,
  unknowns: Readonly<Record<string, number>>,
  reading: number,
  within = AGREE,
): void {
  const none = new Float64Array(0);
  const { value } = check.predict(scene, station, setup, (key) => ({ value: unknowns[key] ?? 0, gradient: none }));
  expect(Math.abs(value - reading), `${check.id}, ${station.key}: ${value} for ${reading}`).toBeLessThan(within);
}

function vector({ x, y, z }: DualVector): Vector {
  return [x.value, y.value, z.value];
}

function minus(a: Vector, b: Vector): Vector {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function plus(a: Vector, direction: Vector, by: number): Vector {
  return [a[0] + by * direction[0], a[1] + by * direction[1], a[2] + by * direction[2]];
}

function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function unit(a: Vector): Vector {
  return plus([0, 0, 0], a, 1 / Math.hypot(...a));
}

/** Where the straight line through two points has the coordinate `given` along one axis: the other coordinate. */
function crossing(a: readonly [number, number], b: readonly [number, number], along: 0 | 1, given: number): number {
  const share = (given - a[along]) / (b[along] - a[along]);
  return a[1 - along] + share * (b[1 - along] - a[1 - along]);
}

/** The second coordinate of a curve of points where its first is `given`, by the parabola through the nearest three. */
function onCurve(curve: readonly (readonly [number, number])[], given: number): number {
  const i = Math.min(
    Math.max(
      1,
      curve.findIndex(([t]) => t > given),
    ),
    curve.length - 2,
  );
  let value = 0;
  for (let j = i - 1; j <= i + 1; j++) {
    let weight = 1;
    for (let k = i - 1; k <= i + 1; k++) if (k !== j) weight *= (given - curve[k][0]) / (curve[j][0] - curve[k][0]);
    value += weight * curve[j][1];
  }
  return value;
}
