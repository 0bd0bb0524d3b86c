import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { randomState } from "../../../../tests/simulation/random-state.ts";
import { workedMachine } from "../../../../tests/simulation/simulate.ts";
import { workStateWith } from "../../../../tests/simulation/work-state-with.ts";
import { wordsForDiagnostic } from "../../base/diagnostic-words.ts";
import type { Outcome } from "../../base/outcome.ts";
import { spread } from "../../findings/over-bed.ts";
import { heightsOverBed } from "../../findings/paths.ts";
import { squareness } from "../../findings/squareness.ts";
import { diagonalsOfSkewedRectangle } from "../../geometry/skewed-rectangle.ts";
import { machineFromDescription } from "../../machine/machine.ts";
import { createRandom } from "../../numerics/random.ts";
import { circlePicture } from "./circle.ts";
import { depthMapPicture } from "./depth-map.ts";
import { dimensionPicture } from "./dimension.ts";
import { holesAndWallsPicture } from "./holes-and-walls.ts";
import { ringFactor } from "./known-value.ts";
import { rectanglePicture } from "./rectangle.ts";
import { strokePicture } from "./stroke.ts";
import { floorAcross, surfacingPicture } from "./surfacing.ts";

/** The mode that turns the X path alone: the right end of the beam to the rear. */
const yaw = { "moving-gantry": "gantry.rack", "fixed-bridge": "bridge.yaw" } as const;

function pictured<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

describe.each(["moving-gantry", "fixed-bridge"] as const)("on a %s", (layout) => {
  const machine = workedMachine(layout);
  const { Lx, Ly } = machine.dimensions;
  const perfect = workStateWith(machine, {});

  describe("a square", () => {
    test("without any slip comes out as it was commanded", () => {
      const square = pictured(rectanglePicture(perfect));
      expect([square.alongX, square.alongY]).toEqual([300, 300]);
      for (const { off, angle } of square.corners) {
        for (const { value } of [...off, angle]) expect(Math.abs(value)).toBeLessThan(1e-9);
      }
      expect(square.diagonals.difference.value).toBeCloseTo(0, 9);
      expect(square.sides.front.value).toBeCloseTo(300, 9);
    });

    test("with a beam racked by 2 mm/m has the diagonals of a skewed rectangle, √2·b·γ apart to first order", () => {
      const square = pictured(rectanglePicture(workStateWith(machine, { [yaw[layout]]: 2 })));
      const { fromOrigin, across } = diagonalsOfSkewedRectangle(300, 300, Math.asin(2e-3));
      // Where the beam turns about lies off its middle by nothing that would change the sides by a thousandth.
      expect(square.diagonals.fromFrontLeft.value).toBeCloseTo(fromOrigin, 2);
      expect(square.diagonals.fromFrontRight.value).toBeCloseTo(across, 2);
      expect(square.diagonals.difference.value).toBeCloseTo(Math.SQRT2 * 300 * 2e-3, 4);
      expect(square.skew.value).toBeCloseTo(-2, 4);
      // The X path runs to the rear on the right; Y runs as it did.
      const off = Object.fromEntries(square.corners.map(({ name, off: [x, y] }) => [name, [x.value, y.value]]));
      expect(off["front right"][1]).toBeCloseTo(0.3, 3);
      expect(off["rear left"][1]).toBeCloseTo(-0.3, 3);
      expect(off["front right"][0] - off["rear right"][0]).toBeCloseTo(0, 6);
    });

    test("with scale alone is longer by the scale, and with play alone shorter by the play", () => {
      const long = pictured(rectanglePicture(workStateWith(machine, { "scale.x": 3, "scale.y": -2 })));
      expect(long.sides.front.value).toBeCloseTo(300.9, 9);
      expect(long.sides.rear.value).toBeCloseTo(300.9, 9);
      expect(long.sides.left.value).toBeCloseTo(299.4, 9);
      const loose = pictured(rectanglePicture(workStateWith(machine, { "backlash.x": 0.2, "backlash.y": 0.1 })));
      expect(loose.sides.front.value).toBeCloseTo(299.8, 9);
      expect(loose.sides.right.value).toBeCloseTo(299.9, 9);
      expect(loose.diagonals.difference.value).toBeCloseTo(0, 9);
    });

    test("has the skew that the finding says, near enough a machine that is nearly true", () => {
      const random = createRandom(5);
      for (let trial = 0; trial < 20; trial++) {
        const modes = Object.fromEntries(
          machine.parameters.map((id, i) => [id, randomState(machine, random, 1e-3)[i]] as const),
        );
        const state = workStateWith(machine, { ...modes, "beam.bow": 0, "rail.wander": 0 });
        const whole = pictured(rectanglePicture(state, { alongX: 0.999 * Lx, alongY: 0.999 * Ly, height: 10 }));
        expect(whole.skew.value).toBeCloseTo(squareness.evaluate(state.scene).value, 4);
      }
    });

    test("goes through its corners with its sides, and bows where the beam bows", () => {
      const square = pictured(rectanglePicture(workStateWith(machine, { "beam.bow": 0.2, "backlash.x": 0.1 })));
      const { outline, corners } = square;
      expect(outline.length % 4).toBe(0);
      corners.forEach(({ off }, i) => {
        const point = outline[(i * outline.length) / 4];
        expect(point.off[0]).toBeCloseTo(off[0].value, 9);
        expect(point.off[1]).toBeCloseTo(off[1].value, 9);
      });
      const middleOfFront = outline[outline.length / 8].off[1];
      expect(middleOfFront - (outline[0].off[1] + outline[outline.length / 4].off[1]) / 2).toBeGreaterThan(0.02);
    });

    test("has rings of √(−2 ln 0.05) standard deviations along the one way in which it is not known", () => {
      const square = pictured(rectanglePicture(workStateWith(machine, {}, { [yaw[layout]]: 1 })));
      const { ring, off } = square.corners[1];
      expect(ring.semiMajor).toBeCloseTo(ringFactor * 0.15, 4);
      expect(ring.semiMinor).toBeCloseTo(0, 4);
      expect(Math.abs(ring.directionDegrees)).toBeCloseTo(90, 1);
      expect(off[1].expandedUncertainty).toBeCloseTo(0.3, 4);
      expect(square.diagonals.difference.expandedUncertainty).toBeCloseTo(2 * Math.SQRT2 * 0.3, 3);
    });

    test("that does not fit is refused in words, and the usual one shrinks to a small machine", () => {
      const refused = rectanglePicture(perfect, { alongX: Lx + 1 });
      expect(refused.ok).toBe(false);
      expect(refused.diagnostics.map(({ code }) => code)).toEqual(["work-size-outside", "work-beyond-travel"]);
      const aside = rectanglePicture(perfect, { alongX: 200, alongY: 200, place: { x: 90, y: Ly / 2 } });
      expect(aside.diagnostics.map(({ code }) => code)).toEqual(["work-beyond-travel"]);
      for (const { code, data } of [...refused.diagnostics, ...aside.diagnostics]) {
        expect(Object.values(wordsForDiagnostic(code, data)).join(" ")).not.toMatch(/undefined|NaN/);
      }
      expect(rectanglePicture(perfect, { alongX: Number.NaN }).ok).toBe(false);
      const small = machineFromDescription({ ...machine.description, travelMm: { x: 187, y: 230, z: 40 } });
      const square = pictured(rectanglePicture(workStateWith(small, {})));
      expect([square.alongX, square.alongY]).toEqual([180, 180]);
    });
  });

  describe("a circle", () => {
    test("with pure skew γ is an oval with the axes r(1 ± γ/2000) at 45°", () => {
      const { oval, turns, radius } = pictured(circlePicture(workStateWith(machine, { [yaw[layout]]: 2 })));
      expect(radius).toBe(75);
      expect(oval.largestDiameter.value).toBeCloseTo(150 * (1 + 2 / 2000), 3);
      expect(oval.smallestDiameter.value).toBeCloseTo(150 * (1 - 2 / 2000), 3);
      expect(oval.directionDegrees).toBeCloseTo(45, 1);
      // G: the difference of the two radii, whichever way round.
      for (const turn of Object.values(turns)) {
        expect(turn.leastSquares.value).toBeCloseTo(0.15, 3);
        expect(turn.minimumZone.value).toBeCloseTo(0.15, 3);
        expect(turn.minimumZone.value).toBeLessThanOrEqual(turn.leastSquares.value + 1e-9);
      }
    });

    test("with scale has its axes along X and Y", () => {
      const { oval } = pictured(circlePicture(workStateWith(machine, { "scale.x": 2, "scale.y": -1 })));
      // The stretch tilts the way to each place by what is left to the second order.
      expect(oval.largestDiameter.value).toBeCloseTo(150.3, 3);
      expect(oval.smallestDiameter.value).toBeCloseTo(149.85, 3);
      expect(Math.abs(((oval.directionDegrees + 90) % 180) - 90)).toBeLessThan(0.01);
      expect(oval.meanDiameter.value).toBeCloseTo(150.075, 3);
    });

    test("with play steps by the play at the four quadrants, the other way round the other way", () => {
      const circle = pictured(circlePicture(workStateWith(machine, { "backlash.x": 0.12, "backlash.y": 0.05 })));
      expect(circle.steps.x.value).toBeCloseTo(0.12, 4);
      expect(circle.steps.y.value).toBeCloseTo(0.05, 4);
      const at = (turn: "counter-clockwise" | "clockwise", degrees: number) =>
        circle.turns[turn].path.filter(({ angleDegrees }) => angleDegrees === degrees).map((p) => p.deviation.value);
      const [before, after] = at("counter-clockwise", 90);
      expect(after - before).toBeCloseTo(0.05, 4);
      const [beforeBack, afterBack] = at("clockwise", 90);
      expect(afterBack - beforeBack).toBeCloseTo(-0.05, 4);
      // Play is the same in both diameters across a quadrant: the oval without play is round.
      expect(circle.oval.largestDiameter.value).toBeCloseTo(150, 4);
      expect(circle.bothWays.minimumZoneMm).toBeGreaterThan(0.1);
    });

    test("has U of its skew from the yaw that is not known", () => {
      const state = workStateWith(machine, { [yaw[layout]]: 2 }, { [yaw[layout]]: 0.5 });
      const { turns, oval } = pictured(circlePicture(state));
      const { expandedUncertainty } = turns["counter-clockwise"].leastSquares;
      expect(Math.abs(expandedUncertainty / (1.96 * 0.5 * 75e-3) - 1)).toBeLessThan(0.08);
      expect(oval.largestDiameter.expandedUncertainty).toBeCloseTo(75e-3, 4);
    });

    test("that does not fit is refused", () => {
      expect(circlePicture(perfect, { radius: Ly / 2 + 1 }).ok).toBe(false);
      expect(circlePicture(perfect, { radius: 60, place: { x: 50, y: 100 } }).ok).toBe(false);
      expect(circlePicture(perfect, { radius: Ly / 2 }).ok).toBe(true);
    });
  });

  describe("a depth map", () => {
    test("of a tilted bed is a ramp: deeper where the bed rises", () => {
      const map = pictured(depthMapPicture(workStateWith(machine, { "bed.tilt.x": 1, "bed.tilt.y": 0.5 })));
      expect([map.alongX, map.alongY]).toEqual([0.9 * Lx, 0.9 * Ly]);
      const expected = 0.9 * Lx * 1e-3 + 0.9 * Ly * 0.5e-3;
      expect(map.spread.value).toBeCloseTo(expected, 5);
      expect(map.deepest.place).toEqual({ x: 0.95 * Lx, y: 0.95 * Ly });
      expect(map.deepest.depth.value).toBeCloseTo(expected / 2, 5);
      expect(map.shallowest.depth.value).toBeCloseTo(-expected / 2, 5);
      expect(map.throughCut.deeperBy.value).toBeCloseTo(expected / 2, 5);
      expect(map.throughCut.bite.value).toBeCloseTo(expected, 5);
    });

    test("touched off where it is shallowest parts everywhere as it is commanded, and one of long Z bites deeper by the scale", () => {
      const tilted = workStateWith(machine, { "bed.tilt.x": 1 });
      const map = pictured(depthMapPicture(tilted, { touchOff: { x: 0.05 * Lx, y: Ly / 2 } }));
      expect(map.throughCut.deeperBy.value).toBeCloseTo(0, 6);
      const long = pictured(depthMapPicture(workStateWith(machine, { "scale.z": 5 }), { thickness: 20 }));
      expect(long.throughCut.deeperBy.value).toBeCloseTo(-0.1, 6);
      expect(long.spread.value).toBeCloseTo(0, 9);
    });

    test("knows a ramp by the tilt that is not known, the place of touching off by nothing", () => {
      const map = pictured(
        depthMapPicture(workStateWith(machine, { "bed.tilt.x": 1 }, { "bed.tilt.x": 0.2, "bed.height": 3 })),
      );
      // Two thousand draws leave three hundredths of the interval open.
      const exact = 0.2 * 1.96 * 0.9 * Lx * 1e-3;
      expect(Math.abs(map.spread.expandedUncertainty / exact - 1)).toBeLessThan(0.08);
      expect(map.deepest.depth.expandedUncertainty).toBeCloseTo(0.2 * 0.9 * Lx * 1e-3, 5);
      expect(map.places[12].depth).toEqual({ value: 0, expandedUncertainty: 0 });
    });

    test("spreads over the usual area as the finding says it does over the bed", () => {
      const random = createRandom(9);
      for (let trial = 0; trial < 5; trial++) {
        const values = randomState(machine, random);
        const state = workStateWith(
          machine,
          Object.fromEntries(machine.parameters.map((id, i) => [id, values[i]] as const)),
        );
        const heights = heightsOverBed(state.scene).map(({ value }) => value);
        expect(pictured(depthMapPicture(state, { thickness: 0 })).spread.value).toBeCloseTo(spread(heights), 9);
      }
    });

    test("keeps the step that was asked for unless it would fill the map with lines", () => {
      const tilted = workStateWith(machine, { "bed.tilt.x": 1 });
      const usual = pictured(depthMapPicture(tilted)).map.step;
      expect(pictured(depthMapPicture(tilted, { step: 3 * usual })).map.step).toBe(3 * usual);
      expect(pictured(depthMapPicture(tilted, { step: 0.001 })).map.levels.length).toBeLessThan(50);
      expect(depthMapPicture(tilted, { step: -1 }).ok).toBe(false);
    });

    test("of a machine that nobody has read is flat, and says that the spread may be anything", () => {
      const map = pictured(depthMapPicture(workStateWith(machine, {}, { "bed.tilt.x": 2, "bed.dome.y": 0.3 })));
      expect(map.spread.value).toBeCloseTo(0, 9);
      // |tilt| of up to 2.24 sd in 95 of 100, over the length of the area.
      expect(map.spread.expandedUncertainty).toBeGreaterThan(2 * 2 * 0.9 * Lx * 1e-3);
      expect(map.throughCut.deeperBy.expandedUncertainty).toBeGreaterThan(2 * 0.9 * Lx * 1e-3);
      const circle = pictured(circlePicture(workStateWith(machine, {}, { [yaw[layout]]: 3 })));
      expect(circle.turns.clockwise.leastSquares.expandedUncertainty).toBeGreaterThan(2 * 3 * 75e-3);
    });

    test("has contours in equal steps that lie where the heights are, and shares that make one", () => {
      const { map, alongX, place } = pictured(depthMapPicture(workStateWith(machine, { "bed.tilt.x": 1 })));
      expect(map.levels.length).toBeGreaterThanOrEqual(3);
      for (const { level, lines } of map.levels) {
        expect(lines).toHaveLength(1);
        for (const { x } of lines[0]) expect(x - place.x).toBeCloseTo(level * 1000, 3);
      }
      expect(map.bands.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
      expect(map.bands.map(({ index }) => index)).toEqual(map.bands.map((_, i) => map.bands[0].index + i));
      // Each share is that of its strip, to half a square of the grid.
      for (const { from, to, share } of map.bands) {
        const strip = Math.min(to, alongX / 2000) - Math.max(from, -alongX / 2000);
        expect(Math.abs(share - strip / (alongX / 1000))).toBeLessThan(0.02);
      }
    });
  });

  describe("a stroke", () => {
    test("is 2·tan(α/2) times as wide as it is deep", () => {
      const stroke = pictured(
        strokePicture(workStateWith(machine, { "bed.tilt.x": 1 }), { angleDegrees: 90, depth: 2 }),
      );
      expect(stroke.width).toBeCloseTo(4, 12);
      expect(stroke.spread.value).toBeCloseTo(2 * stroke.alongX * 1e-3, 5);
      expect(stroke.thin.width.value).toBeCloseTo(4 - stroke.alongX * 1e-3, 5);
      expect(stroke.thick.place.x).toBeGreaterThan(stroke.thin.place.x);
      expect(stroke.along[0]).toBeCloseTo(stroke.thin.width.value, 9);
      expect(stroke.along[24]).toBeCloseTo(stroke.thick.width.value, 9);
      expect(stroke.map.highest).toBeCloseTo(stroke.alongX * 1e-3, 5);
    });

    test("of a cutter of 60° takes 1.155 of width for 1 of depth", () => {
      const stroke = pictured(strokePicture(workStateWith(machine, { "bed.tilt.x": 1 }, { "bed.tilt.x": 0.1 })));
      expect(stroke.spread.value).toBeCloseTo(1.1547 * stroke.alongX * 1e-3, 4);
      expect(stroke.spread.expandedUncertainty).toBeCloseTo(0.2 * 1.1547 * stroke.alongX * 1e-3, 4);
      expect(strokePicture(perfect, { angleDegrees: 200 }).ok).toBe(false);
      expect(strokePicture(perfect, { from: { x: -1, y: 0 } }).ok).toBe(false);
    });
  });

  describe("surfacing", () => {
    test("with the axis leaning to the rear leaves steps of stepover × tilt along X, low at the rear, and is hollow along Y", () => {
      const picture = pictured(
        surfacingPicture(workStateWith(machine, { "spindle.tilt.fore": 2 }, { "spindle.tilt.fore": 0.5 })),
      );
      expect(picture.stepover).toBe(15);
      expect(picture.alongX.ridge.value).toBeCloseTo(15 * Math.tan(2e-3), 5);
      expect(picture.alongX.ridge.expandedUncertainty).toBeCloseTo(15e-3, 5);
      expect(picture.alongX.lowSide).toBe("rear");
      expect(picture.alongY.ridge.value).toBeCloseTo(0, 5);
      const hollow = 12.5 * Math.sin(2e-3) * (1 - Math.sqrt(1 - (15 / 25) ** 2));
      expect(picture.alongY.hollow.value).toBeCloseTo(hollow, 6);
      expect(picture.alongY.hollow.value).toBeCloseTo(0.005, 4);
      expect(picture.alongX.hollow.value).toBeCloseTo(0, 5);
    });

    test("with the axis leaning to the left is low at the left of passes along Y", () => {
      const { alongY } = pictured(surfacingPicture(workStateWith(machine, { "spindle.tilt.side": -1 })));
      expect(alongY.ridge.value).toBeCloseTo(-0.015, 5);
      expect(alongY.lowSide).toBe("left");
    });

    test("has a floor that steps by the ridge where two passes meet and dips by the hollow between", () => {
      const picture = pictured(
        surfacingPicture(workStateWith(machine, { "spindle.tilt.fore": 2, "spindle.tilt.side": 1 })),
      );
      const { alongX } = picture;
      // A pass that is low at the rear ends at its rear edge, half a cutter from its middle.
      const edge = 12.5;
      const below = floorAcross(alongX, picture, edge - 1e-6);
      const above = floorAcross(alongX, picture, edge + 1e-6);
      const dipAt = (off: number) => Math.abs(alongX.leanAlong) * (12.5 - Math.sqrt(Math.max(0, 12.5 ** 2 - off ** 2)));
      expect(above - below).toBeCloseTo(alongX.ridge.value + dipAt(15 - 12.5) - dipAt(12.5), 4);
      expect(floorAcross(alongX, picture, 15 + 3)).toBeCloseTo(floorAcross(alongX, picture, 3), 12);
    });
  });

  describe("holes and walls", () => {
    test("lean by the slide's lean and the axis's tilt over the depth", () => {
      const state = workStateWith(
        machine,
        { "slide.lean.side": 2, "spindle.tilt.fore": 3 },
        { "slide.lean.side": 0.5 },
      );
      const { hole, wall, depth } = pictured(holesAndWallsPicture(state));
      expect(depth).toBe(18);
      // Going down by 18 a slide that leans to the right takes the cutter to the left, and so does an axis.
      expect(hole.side.value).toBeCloseTo(-0.036, 5);
      expect(hole.fore.value).toBeCloseTo(0, 5);
      expect(wall.side.value).toBeCloseTo(-0.036, 5);
      expect(wall.fore.value).toBeCloseTo(-0.054, 5);
      expect(hole.side.expandedUncertainty).toBeCloseTo(0.018, 5);
      expect(hole.ring.semiMajor).toBeCloseTo(ringFactor * 0.009, 5);
      expect(hole.ring.directionDegrees).toBeCloseTo(0, 3);
    });

    test("are judged against the board: a bed that rises to the right leans them as much", () => {
      const { hole, wall } = pictured(holesAndWallsPicture(workStateWith(machine, { "bed.tilt.x": 2 })));
      expect(hole.side.value).toBeCloseTo(-0.036, 5);
      expect(wall.side.value).toBeCloseTo(-0.036, 5);
    });
  });

  describe("a piece and its pocket", () => {
    test("are off by scale, play and runout as worked out on paper", () => {
      const state = workStateWith(
        machine,
        { "scale.x": 2, "backlash.x": 0.1, "spindle.runout": 0.04 },
        { "spindle.runout": 0.01 },
      );
      const { alongX, alongY } = pictured(dimensionPicture(state));
      expect(alongX.piece.value).toBeCloseTo(100 + 0.002 * 106 - 0.1 - 0.04, 6);
      expect(alongX.pocket.value).toBeCloseTo(100 + 0.002 * 94 - 0.1 + 0.04, 6);
      expect(alongX.gap.value).toBeCloseTo(0.08 - 2 * 0.002 * 6, 6);
      expect(alongX.gap.expandedUncertainty).toBeCloseTo(0.04, 6);
      expect(alongY.piece.value).toBeCloseTo(99.96, 6);
    });

    test("with the piece turned over have the skew twice", () => {
      const { turnedOver } = pictured(
        dimensionPicture(workStateWith(machine, { [yaw[layout]]: -1 }, { [yaw[layout]]: 0.1 })),
      );
      expect(turnedOver.value).toBeCloseTo(0.2, 4);
      expect(turnedOver.expandedUncertainty).toBeCloseTo(0.04, 4);
    });

    test("that are smaller than their cutter or do not fit are refused", () => {
      expect(dimensionPicture(perfect, { length: 5, cutterDiameter: 6 }).ok).toBe(false);
      expect(dimensionPicture(perfect, { length: Ly }).ok).toBe(false);
      expect(dimensionPicture(perfect, { length: 6, cutterDiameter: 6 }).ok).toBe(true);
    });
  });

  test("every picture can be had of every machine, and U is never negative and is a number", () => {
    const seed = fc.integer({ min: 0, max: 1e6 });
    fc.assert(
      fc.property(seed, fc.integer({ min: 60, max: 1500 }), fc.integer({ min: 60, max: 1500 }), (drawn, x, y) => {
        const random = createRandom(drawn);
        const any = machineFromDescription({
          ...machine.description,
          travelMm: { x, y, z: 50 },
          railPlanesMm: { left: -80, right: x + 80 },
        });
        const values = randomState(any, random);
        const modes = Object.fromEntries(any.parameters.map((id, i) => [id, values[i]] as const));
        const sds = Object.fromEntries(any.modes.map(({ id, priorSd }) => [id, priorSd] as const));
        const state = workStateWith(any, modes, sds);
        const pictures = [
          rectanglePicture,
          circlePicture,
          depthMapPicture,
          strokePicture,
          surfacingPicture,
          holesAndWallsPicture,
          dimensionPicture,
        ].map((of) => of(state));
        for (const picture of pictures) {
          expect(picture.ok).toBe(true);
          expect(JSON.stringify(picture)).not.toMatch(/null|"expandedUncertainty":-/);
        }
      }),
      { seed: 7, numRuns: 25 },
    );
  });
});
