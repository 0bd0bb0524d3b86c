import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Outcome } from "../../src/core/base/outcome.ts";
import { circleDrawing, circleMagnification } from "../../src/core/drawing/work-circle.ts";
import { depthMapDrawing } from "../../src/core/drawing/work-depth-map.ts";
import { dimensionDrawing, fitMagnification } from "../../src/core/drawing/work-dimension.ts";
import { holesAndWallsDrawing } from "../../src/core/drawing/work-holes-and-walls.ts";
import { squareDrawing, squareMagnification } from "../../src/core/drawing/work-square.ts";
import { strokeDrawing, strokeScale } from "../../src/core/drawing/work-stroke.ts";
import { surfacingDrawing } from "../../src/core/drawing/work-surfacing.ts";
import type { Machine } from "../../src/core/machine/machine.ts";
import { createRandom } from "../../src/core/numerics/random.ts";
import { circlePicture } from "../../src/core/work/pictures/circle.ts";
import { depthMapPicture } from "../../src/core/work/pictures/depth-map.ts";
import { dimensionPicture } from "../../src/core/work/pictures/dimension.ts";
import { holesAndWallsPicture } from "../../src/core/work/pictures/holes-and-walls.ts";
import { rectanglePicture } from "../../src/core/work/pictures/rectangle.ts";
import { strokePicture } from "../../src/core/work/pictures/stroke.ts";
import { surfacingPicture } from "../../src/core/work/pictures/surfacing.ts";
import type { WorkState } from "../../src/core/work/work-state.ts";
import { randomState } from "../simulation/random-state.ts";
import { workStateWith } from "../simulation/work-state-with.ts";
import { bridge, gantry } from "./drawings.ts";

/** Seeds of machines, from nearly true to badly built; every drawing is made at both widths. */
const anyMachine = fc.record({
  seed: fc.integer({ min: 0, max: 1e6 }),
  size: fc.constantFrom(0.02, 0.3, 1, 3),
  shape: fc.constantFrom("wide" as const, "narrow" as const),
});

const always = { seed: 12, numRuns: 40 };

type XY = readonly [number, number];

describe.each([gantry, bridge])("what is drawn of the work of $description.layout", (machine) => {
  it("puts every corner of a square as far to that side, times the stated factor, as it is", () => {
    fc.assert(
      fc.property(anyMachine, ({ seed, size, shape }) => {
        const now = pictured(rectanglePicture(stateOf(machine, seed, size)));
        const pictures = { now, after: null };
        const svg = squareDrawing(pictures, shape);
        const nominal = pathsOf(svg, "thin").find((path) => path.length === 4) as readonly XY[];
        const drawn = pathsOf(svg, "wide").find((path) => path.length === 48) as readonly XY[];
        const scale = (nominal[1][0] - nominal[0][0]) / now.alongX;
        const factor = statedFactor(svg, "errors");
        expect(factor).toBe(squareMagnification(pictures).factor);
        now.corners.forEach(({ off }, i) => {
          const [x, y] = drawn[12 * i];
          // Two decimals are written down; up the sheet is to the rear.
          expect(Math.abs(x - nominal[i][0] - factor * scale * off[0].value)).toBeLessThan(0.03);
          expect(Math.abs(nominal[i][1] - y - factor * scale * off[1].value)).toBeLessThan(0.03);
        });
      }),
      always,
    );
  });

  it("draws the front right corner further to the rear where the beam is racked that way, and to the front where not", () => {
    const yaw = machine === gantry ? "gantry.rack" : "bridge.yaw";
    for (const sign of [1, -1]) {
      const now = pictured(rectanglePicture(workStateWith(machine, { [yaw]: sign })));
      const svg = squareDrawing({ now, after: null });
      const nominal = pathsOf(svg, "thin").find((path) => path.length === 4) as readonly XY[];
      const drawn = pathsOf(svg, "wide").find((path) => path.length === 48) as readonly XY[];
      expect(Math.sign(nominal[1][1] - drawn[12][1])).toBe(sign);
    }
  });

  it("draws a path outside the true circle where it is outside, and inside where it is inside", () => {
    fc.assert(
      fc.property(anyMachine, ({ seed, size, shape }) => {
        const now = pictured(circlePicture(stateOf(machine, seed, size)));
        const pictures = { now, after: null };
        const svg = circleDrawing(pictures, shape);
        const [, cx, cy, r] = /<circle class="thin" cx="([^"]+)" cy="([^"]+)" r="([^"]+)"/.exec(svg)!.map(Number);
        const { factor } = circleMagnification(pictures);
        const ways = { "counter-clockwise": pathsOf(svg, "wide"), clockwise: pathsOf(svg, "hidden") } as const;
        for (const way of ["counter-clockwise", "clockwise"] as const) {
          const path = now.turns[way].path;
          const drawn = ways[way].find(({ length }) => length === path.length) as readonly XY[];
          path.forEach(({ angleDegrees, deviation }, i) => {
            const [x, y] = drawn[i];
            const out = Math.hypot(x - cx, y - cy) - r;
            expect(Math.abs(out - (factor * r * deviation.value) / now.radius)).toBeLessThan(0.05);
            const angle = (Math.atan2(cy - y, x - cx) * 180) / Math.PI;
            expect(Math.abs(((angle - angleDegrees + 540) % 360) - 180)).toBeLessThan(0.05);
          });
        }
      }),
      always,
    );
  });

  it("marks the deepest place of a map where it is, with more ink than the shallowest", () => {
    fc.assert(
      fc.property(anyMachine, ({ seed, size, shape }) => {
        const now = pictured(depthMapPicture(stateOf(machine, seed, size)));
        const svg = depthMapDrawing({ now, after: null }, shape);
        const frame = pathsOf(svg, "wide").find(isFrame) as readonly XY[];
        const [left, right] = [frame[0][0], frame[1][0]];
        const [top, bottom] = [frame[0][1], frame[2][1]];
        const rings = [...svg.matchAll(/<circle class="wide solid" cx="([^"]+)" cy="([^"]+)" r="5"/g)].map(
          ([, x, y]): XY => [Number(x), Number(y)],
        );
        [now.shallowest, now.deepest].forEach(({ place }, i) => {
          const u = (place.x - now.place.x) / now.alongX + 0.5;
          const v = (place.y - now.place.y) / now.alongY + 0.5;
          expect(Math.abs(rings[i][0] - (left + u * (right - left)))).toBeLessThan(0.02);
          expect(Math.abs(rings[i][1] - (bottom - v * (bottom - top)))).toBeLessThan(0.02);
        });
        // Counted a little inside the frame, where the contours are.
        const middle: XY = [(left + right) / 2, (top + bottom) / 2];
        const [shallow, deep] = rings.map((at) => inkAt(svg, [toward(at[0], middle[0]), toward(at[1], middle[1])]));
        if (now.map.levels.length > 2) expect(deep).toBeGreaterThan(shallow);
      }),
      always,
    );
  });

  it("draws a groove wider than commanded where the stroke comes out wider, and its thick end at the place that is deeper", () => {
    fc.assert(
      fc.property(anyMachine, ({ seed, size, shape }) => {
        const now = pictured(strokePicture(stateOf(machine, seed, size)));
        const svg = strokeDrawing({ now, after: null }, shape);
        const { pxPerMm, errorFactor } = strokeScale({ now, after: null });
        const grooves = pathsOf(svg, "wide").filter(({ length }) => length === 5);
        [now.thin, now.thick].forEach(({ depth }, i) => {
          const deep = pxPerMm * (now.depth + errorFactor * (depth.value - now.depth));
          expect(Math.abs(grooves[i][2][1] - grooves[i][1][1] - Math.max(0, deep))).toBeLessThan(0.03);
        });
        const rings = [...svg.matchAll(/<circle class="wide solid" cx="([^"]+)" cy="([^"]+)" r="4"/g)];
        const across = Math.sign(now.thick.place.x - now.thin.place.x);
        expect(Math.sign(Number(rings[1][1]) - Number(rings[0][1]))).toBe(across);
        expect(Math.sign(Number(rings[0][2]) - Number(rings[1][2]))).toBe(
          Math.sign(now.thick.place.y - now.thin.place.y),
        );
      }),
      always,
    );
  });

  it("lets passes come down to the side that is said to be low", () => {
    fc.assert(
      fc.property(anyMachine, ({ seed, size, shape }) => {
        const now = pictured(surfacingPicture(stateOf(machine, seed, size)));
        const floors = pathsOf(surfacingDrawing({ now, after: null }, shape), "wide").filter(
          ({ length }) => length > 100,
        );
        [now.alongX, now.alongY].forEach(({ lowSide, ridge, hollow }, i) => {
          // Where the hollow is all there is to see, passes meet in a crest and not in a step.
          if (Math.abs(ridge.value) < Math.max(0.002, 6 * hollow.value)) return;
          const floor = floors[i];
          // Going across, the floor comes down gently to the low side and jumps up again.
          const steps = floor.slice(1).map(([x, y], k) => ({ across: x - floor[k][0], down: y - floor[k][1] }));
          const jumps = steps.filter(({ across }) => across < 0.02).map(({ down }) => down);
          const jump = jumps.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
          const upwards = lowSide === "rear" || lowSide === "right";
          expect(Math.sign(-jump)).toBe(upwards ? 1 : -1);
        });
      }),
      always,
    );
  });

  it("lets holes and walls lean the way they lean", () => {
    fc.assert(
      fc.property(anyMachine, ({ seed, size, shape }) => {
        const now = pictured(holesAndWallsPicture(stateOf(machine, seed, size)));
        const svg = holesAndWallsDrawing({ now, after: null }, shape);
        const factor = statedFactor(svg, "leans");
        const uprights = pathsOf(svg, "wide").filter(
          (path) => path.length === 2 && Math.abs(path[1][1] - path[0][1]) > 50,
        );
        expect(uprights).toHaveLength(8);
        const leans = [now.hole.side, now.hole.side, now.wall.side, now.wall.side].concat([
          now.hole.fore,
          now.hole.fore,
          now.wall.fore,
          now.wall.fore,
        ]);
        uprights.forEach(([[x0, y0], [x1, y1]], i) => {
          expect(Math.abs(x1 - x0 - (factor * leans[i].value * (y1 - y0)) / now.depth)).toBeLessThan(0.03);
        });
      }),
      always,
    );
  });

  it("draws a piece and its pocket longer or shorter by what they are, times the stated factor", () => {
    fc.assert(
      fc.property(anyMachine, ({ seed, size, shape }) => {
        const now = pictured(dimensionPicture(stateOf(machine, seed, size)));
        const pictures = { now, after: null };
        const svg = dimensionDrawing(pictures, shape);
        const { factor } = fitMagnification(pictures);
        const pieces = [...svg.matchAll(/<path class="wide tint" d="([^"]+)"/g)].map(([, d]) => pointsOf(d));
        const pockets = pathsOf(svg, "wide").filter(({ length }) => length === 6);
        const scale = (0.72 * (shape === "wide" ? 360 : 358)) / now.length;
        [now.alongX, now.alongY].forEach(({ piece, pocket }, i) => {
          const drawn = [pieces[i][1][0] - pieces[i][0][0], pockets[i][3][0] - pockets[i][2][0]];
          [piece, pocket].forEach(({ value }, k) => {
            const expected = scale * (now.length + factor * (value - now.length));
            expect(Math.abs(drawn[k] - expected)).toBeLessThan(0.05);
          });
        });
      }),
      always,
    );
  });
});

function stateOf(machine: Machine, seed: number, size: number): WorkState {
  const values = randomState(machine, createRandom(seed), size);
  return workStateWith(machine, Object.fromEntries(machine.parameters.map((id, i) => [id, values[i]] as const)));
}

function pictured<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

function statedFactor(svg: string, what: string): number {
  return Number(new RegExp(`>${what} (\\d+) : 1`).exec(svg)?.[1]);
}

/** Points of every path of exactly this class. */
function pathsOf(svg: string, name: string): readonly (readonly XY[])[] {
  return [...svg.matchAll(new RegExp(`<path class="${name}" d="([^"]+)"`, "g"))].map(([, d]) => pointsOf(d));
}

function pointsOf(d: string): readonly XY[] {
  return [...d.matchAll(/[ML](\S+) ([^MLz ]+)/g)].map(([, x, y]): XY => [Number(x), Number(y)]);
}

function isFrame(path: readonly XY[]): boolean {
  return path.length === 4 && path[0][1] === path[1][1] && path[1][0] === path[2][0];
}

function toward(from: number, to: number): number {
  return from + 0.02 * (to - from);
}

/** How many regions of ink lie over a place: the even-odd count of every path of ink in steps. */
function inkAt(svg: string, [x, y]: XY): number {
  const regions = [...svg.matchAll(/<path class="ink" fill-opacity="0.08" d="([^"]+)"/g)].map(([, d]) => d);
  return regions.filter((d) => {
    const rings = d
      .split("z")
      .filter((part) => part !== "")
      .map(pointsOf);
    const crossings = rings.flatMap((ring) =>
      ring.filter(([x0, y0], i) => {
        const [x1, y1] = ring[(i + 1) % ring.length];
        return y0 > y !== y1 > y && x < x0 + ((y - y0) * (x1 - x0)) / (y1 - y0);
      }),
    );
    return crossings.length % 2 === 1;
  }).length;
}
