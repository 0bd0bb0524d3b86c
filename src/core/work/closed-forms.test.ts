import { describe, expect, test } from "vitest";
import { randomState } from "../../../tests/simulation/random-state.ts";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { poseAt } from "../machine/joint.ts";
import { type Scene, tip, valuesOnly } from "../machine/kinematics.ts";
import type { Machine } from "../machine/machine.ts";
import { createRandom } from "../numerics/random.ts";
import { circularDeviation } from "../standards/iso230-4.ts";
import { demandFromWish } from "./catalogue.ts";
import { type Demand, type DemandKindId, type DemandSizes, reduceSamples } from "./demand.ts";
import { placesRound } from "./round-path.ts";

/** The mode that turns the X path alone. */
const yawOf = { "moving-gantry": "gantry.rack", "fixed-bridge": "bridge.yaw" } as const;

function made(machine: Machine, kind: DemandKindId, sizes: DemandSizes = {}, place?: { x: number; y: number }): Demand {
  const outcome = demandFromWish(machine, { kind, sizes, limit: 1, ...(place && { place }) });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

function sceneWith(machine: Machine, modes: Readonly<Record<string, number>>): Scene {
  const state = Float64Array.from(machine.parameters, (id) => modes[id] ?? 0);
  return valuesOnly(machine, state);
}

function valuesOf(demand: Demand, scene: Scene): readonly number[] {
  return demand.samples(scene).map(({ value }) => value);
}

describe.each(["moving-gantry", "fixed-bridge"] as const)("on a %s", (layout) => {
  const machine = workedMachine(layout);
  const { Lx, Ly, Lz, railSpan } = machine.dimensions;
  const yaw = yawOf[layout];
  const numberOf = (modes: Readonly<Record<string, number>>, kind: DemandKindId, sizes: DemandSizes = {}) => {
    const demand = made(machine, kind, sizes);
    return reduceSamples(demand, valuesOf(demand, sceneWith(machine, modes)));
  };
  const signed = (modes: Readonly<Record<string, number>>, kind: DemandKindId, sizes: DemandSizes = {}) =>
    valuesOf(made(machine, kind, sizes), sceneWith(machine, modes));

  describe("pure skew γ", () => {
    const gamma = 2;

    test("makes the diagonals of a b-square differ by √2·b·γ/1000, those of a rectangle by 2ab·γ/1000 over its diagonal", () => {
      for (const b of [100, 250, 300]) {
        const difference = numberOf({ [yaw]: gamma }, "diagonals", { widthMm: b, heightMm: b });
        expect(difference / ((Math.SQRT2 * b * gamma) / 1000)).toBeCloseTo(1, 4);
      }
      const long = numberOf({ [yaw]: gamma }, "diagonals", { widthMm: 300, heightMm: 200 });
      expect(long / ((2 * 300 * 200 * gamma) / 1000 / Math.hypot(300, 200))).toBeCloseTo(1, 4);
    });

    test("makes every corner narrower or wider by γ, whatever the size", () => {
      for (const overMm of [20, 100, 300]) {
        const corners = signed({ [yaw]: gamma }, "squareness", { overMm });
        [gamma, -gamma, gamma, -gamma].forEach((expected, i) => {
          expect(corners[i]).toBeCloseTo(expected, 4);
        });
      }
    });

    test("makes an oval with the half axes r·(1 ± γ/2000) at 45°, both ways round", () => {
      const r = 75;
      const demand = made(machine, "circle", { radiusMm: r });
      const values = valuesOf(demand, sceneWith(machine, { [yaw]: gamma }));
      for (const [turn, [from]] of (["counter-clockwise", "clockwise"] as const).map(
        (turn, i) => [turn, demand.groups?.[i] ?? [0, 0]] as const,
      )) {
        placesRound(turn).forEach(({ angle }, i) => {
          const expected = ((r * gamma) / 2000) * Math.sin((2 * angle * Math.PI) / 180);
          expect(Math.abs(values[from + i] - expected)).toBeLessThan(1e-4 * r * gamma * 1e-3 + 1e-4);
        });
      }
      expect(reduceSamples(demand, values) / ((r * gamma) / 1000)).toBeCloseTo(1, 3);
    });

    test("leaves the lengths along X and Y, the depth and the plunge alone to first order", () => {
      expect(numberOf({ [yaw]: gamma }, "sides")).toBeLessThan(2e-3);
      expect(numberOf({ [yaw]: gamma }, "size")).toBeLessThan(1e-3);
      for (const kind of ["depth-spread", "plunge-lean", "tram", "flatness"] as const)
        expect(numberOf({ [yaw]: gamma }, kind)).toBeLessThan(1e-9);
    });
  });

  describe("scale s of X", () => {
    const s = 3;

    test("makes sides along X longer by s of their length and leaves those along Y", () => {
      const [front, rear, left, right] = signed({ "scale.x": s }, "sides", { widthMm: 300, heightMm: 200 });
      for (const side of [front, rear]) expect(side).toBeCloseTo((300 * s) / 1000, 9);
      for (const side of [left, right]) expect(side).toBeCloseTo(0, 9);
      const [alongX, alongY] = signed({ "scale.x": s }, "size", { lengthMm: 120 });
      expect([alongX, alongY].map((value) => Number(value.toFixed(9)))).toEqual([0.36, 0]);
    });

    test("makes an oval along the axes, r·s/1000 from its longest to its shortest radius", () => {
      expect(numberOf({ "scale.x": s }, "circle", { radiusMm: 80 }) / ((80 * s) / 1000)).toBeCloseTo(1, 4);
      expect(numberOf({ "scale.x": s, "scale.y": s }, "circle", { radiusMm: 80 })).toBeLessThan(1e-9);
    });

    test("shows in a pattern of holes along X whole and along its diagonals by 1/√2", () => {
      const lengths = signed({ "scale.x": s }, "hole-pattern", { sizeMm: 200 });
      expect(lengths.slice(0, 4).map((value) => Number(value.toFixed(9)))).toEqual([0.6, 0.6, 0, 0]);
      for (const diagonal of lengths.slice(4)) expect(diagonal / (0.6 / Math.SQRT2)).toBeCloseTo(1, 2);
    });

    test("is the demand on scale itself, with its sign", () => {
      expect(signed({ "scale.x": -s }, "scale", { axis: "x" })[0]).toBeCloseTo(-s, 9);
      expect(signed({ "scale.x": -s }, "scale", { axis: "y" })[0]).toBeCloseTo(0, 9);
    });
  });

  describe("play and runout", () => {
    const play = 0.2;

    test("play steps at the quadrants: the radius changes by the play where its axis turns round, nowhere else", () => {
      const demand = made(machine, "circle");
      const values = valuesOf(demand, sceneWith(machine, { "backlash.x": play }));
      (["counter-clockwise", "clockwise"] as const).forEach((turn, way) => {
        const places = placesRound(turn);
        const from = demand.groups?.[way][0] ?? 0;
        const stepAt = (angle: number) => {
          const [before, after] = places.flatMap((place, i) => (place.angle === angle ? [values[from + i]] : []));
          return after - before;
        };
        const sign = turn === "clockwise" ? -1 : 1;
        // X turns round at the right and the left. Lagging behind on its way, the tool is outside after turning at the right.
        expect(stepAt(0) * sign).toBeCloseTo(play, 4);
        expect(stepAt(180) * sign).toBeCloseTo(play, 4);
        expect(stepAt(90)).toBeCloseTo(0, 4);
        expect(stepAt(270)).toBeCloseTo(0, 4);
      });
      expect(reduceSamples(demand, values)).toBeCloseTo(play, 4);
    });

    test("play makes an oval whose long diagonal changes with the way round, as skew does not", () => {
      const demand = made(machine, "circle");
      const at45 = (modes: Readonly<Record<string, number>>) =>
        (["counter-clockwise", "clockwise"] as const).map((turn, way) => {
          const i = placesRound(turn).findIndex(({ angle }) => angle === 45);
          return Math.sign(valuesOf(demand, sceneWith(machine, modes))[(demand.groups?.[way][0] ?? 0) + i]);
        });
      expect(at45({ "backlash.x": play })).toEqual([1, -1]);
      expect(at45({ "backlash.y": play })).toEqual([-1, 1]);
      expect(at45({ [yaw]: 2 })).toEqual([1, 1]);
    });

    test("play makes a piece and a pocket smaller, runout a piece smaller and a pocket larger", () => {
      const both = (modes: Readonly<Record<string, number>>) =>
        signed(modes, "size", { lengthMm: 100, cut: "both" }).map((value) => Number(value.toFixed(9)));
      expect(both({ "backlash.x": play })).toEqual([-play, -play, 0, 0]);
      expect(both({ "backlash.y": play })).toEqual([0, 0, -play, -play]);
      expect(both({ "spindle.runout": 0.05 })).toEqual([-0.05, 0.05, -0.05, 0.05]);
      for (const [cut, expected] of [
        ["piece", -0.05],
        ["pocket", 0.05],
      ] as const)
        expect(signed({ "spindle.runout": 0.05 }, "size", { cut })[1]).toBeCloseTo(expected, 9);
    });

    test("play moves no hole against another that is reached from the same side, and no depth", () => {
      const all = { "backlash.x": play, "backlash.y": play, "backlash.z": play };
      for (const kind of ["sides", "diagonals", "hole-pattern", "squareness", "depth-spread", "plunge-lean"] as const)
        expect(numberOf(all, kind), kind).toBeLessThan(1e-9);
    });

    test("play and runout are demands themselves", () => {
      expect(numberOf({ "backlash.z": play }, "play", { axis: "z" })).toBeCloseTo(play, 9);
      expect(numberOf({ "spindle.runout": 0.07 }, "runout")).toBe(0.07);
    });
  });

  describe("a bed that slopes by τ to the right", () => {
    const tau = 1.5;

    test("spreads the depth by τ times the width, and a stroke by 2·tan(α/2) times that", () => {
      const field = { widthMm: 200, depthMm: 100 };
      const depth = (200 * tau) / 1000;
      expect(numberOf({ "bed.tilt.x": tau }, "depth-spread", field)).toBeCloseTo(depth, 9);
      expect(numberOf({ "bed.tilt.x": tau }, "through-cut", field)).toBeCloseTo(depth, 9);
      const stroke = (angleDegrees: number) =>
        numberOf({ "bed.tilt.x": tau }, "stroke-spread", { ...field, angleDegrees });
      expect(stroke(90)).toBeCloseTo(2 * depth, 9);
      expect(stroke(60)).toBeCloseTo((2 / Math.sqrt(3)) * depth, 9);
    });

    test("shows in the tram by τ times the swing, in a plunge and a wall by τ times their depth", () => {
      expect(numberOf({ "bed.tilt.x": tau }, "tram", { overMm: 150 })).toBeCloseTo((150 * tau) / 1000, 6);
      expect(numberOf({ "bed.tilt.x": tau }, "plunge-lean", { depthMm: 30 })).toBeCloseTo((30 * tau) / 1000, 6);
      expect(numberOf({ "bed.tilt.x": tau }, "wall-lean", { depthMm: 12 })).toBeCloseTo((12 * tau) / 1000, 6);
    });

    test("is nothing to a face that the cutter makes flat, nor to the ridges on it", () => {
      expect(numberOf({ "bed.tilt.x": tau, "bed.dome.y": 1 }, "flatness")).toBeLessThan(1e-9);
      expect(numberOf({ "bed.tilt.x": tau }, "ridge")).toBeLessThan(1e-9);
    });
  });

  test("a domed bed spreads the depth from 5 to 95 % by 0.81 of its dome", () => {
    expect(numberOf({ "bed.dome.x": 0.4 }, "depth-spread")).toBeCloseTo(0.81 * 0.4, 9);
  });

  describe("an axis that is tilted by θ to the side", () => {
    const theta = 4;
    const angle = theta / 1000;

    test("leaves ridges of stepover·tan θ between passes that step to the side, none between those that step back", () => {
      const ridges = signed({ "spindle.tilt.side": theta }, "ridge", { cutterMm: 25, stepoverMm: 15 });
      ridges.forEach((ridge, i) => {
        expect(ridge).toBeCloseTo(i % 2 === 0 ? 15 * Math.tan(angle) : 0, 9);
      });
    });

    test("shows in the tram by the swing times tan θ, in a wall by its depth times tan θ, not in a plunge", () => {
      expect(numberOf({ "spindle.tilt.side": theta }, "tram")).toBeCloseTo(200 * Math.tan(angle), 9);
      expect(numberOf({ "spindle.tilt.side": theta }, "wall-lean", { depthMm: 18 })).toBeCloseTo(
        18 * Math.tan(angle),
        9,
      );
      expect(numberOf({ "spindle.tilt.side": theta }, "plunge-lean")).toBeLessThan(1e-9);
    });
  });

  test("a slide that leans carries a plunge away by its lean times the depth", () => {
    const depthMm = Math.min(40, Lz);
    const leans = signed({ "slide.lean.fore": 5 }, "plunge-lean", { depthMm });
    leans.forEach((lean, i) => {
      expect(lean).toBeCloseTo(i % 2 === 0 ? 0 : (5 * depthMm) / 1000, 4);
    });
  });

  test("a wind of the rails by t leaves a face that is t·w·d/(2·span·travel) from flat, to first order", () => {
    const t = 0.02;
    const found = numberOf({ "rail.left.rear": t }, "flatness", { widthMm: 300, depthMm: 200 });
    expect(found / ((t * 300 * 200) / (2 * railSpan * Ly))).toBeCloseTo(1, 2);
  });

  test("a machine without slips keeps every demand to rounding, wherever it is asked", () => {
    const place = { x: 0.4 * Lx, y: 0.55 * Ly };
    const nominal = sceneWith(machine, {});
    const small: readonly (readonly [DemandKindId, DemandSizes])[] = [
      ["size", { lengthMm: 50 }],
      ["squareness", { overMm: 60 }],
      ["circle", { radiusMm: 20 }],
      ["hole-pattern", { sizeMm: 70 }],
      ["sides", { widthMm: 80, heightMm: 60 }],
      ["diagonals", { widthMm: 80, heightMm: 60 }],
      ["depth-spread", { widthMm: 80, depthMm: 60 }],
      ["flatness", { widthMm: 80, depthMm: 60 }],
      ["tram", {}],
      ["ridge", {}],
      ["wall-lean", {}],
      ["plunge-lean", {}],
    ];
    for (const [kind, sizes] of small) {
      const demand = made(machine, kind, sizes, place);
      expect(reduceSamples(demand, valuesOf(demand, nominal)), kind).toBeLessThan(1e-9);
    }
  });

  describe("the circular deviation", () => {
    /** The path of one way round, finely stepped or at the demand's own places. */
    const pathOf = (scene: Scene, r: number, turn: "counter-clockwise" | "clockwise", degrees: number) => {
      const sign = turn === "clockwise" ? -1 : 1;
      const points = Array.from({ length: 360 / degrees }, (_, i) => {
        const f = ((i + 0.5) * degrees * Math.PI) / 180;
        const [c, s] = [Math.cos(f), Math.sin(f)];
        const arrivedX = s * sign > 0 ? -1 : 1;
        const arrivedY = c * sign > 0 ? 1 : -1;
        return tip(scene, poseAt(Lx / 2 + r * c, Ly / 2 + r * s, 0, { arrivedX, arrivedY }));
      });
      return { xMm: points.map(({ x }) => x.value), yMm: points.map(({ y }) => y.value) };
    };

    test("is that of a finely stepped path about its least-squares circle, and hardly more than the minimum zone", () => {
      const random = createRandom(layout === "moving-gantry" ? 41 : 42);
      for (let trial = 0; trial < 30; trial++) {
        const scene = valuesOnly(machine, randomState(machine, random));
        const r = 40 + 80 * random.uniform();
        const demand = made(machine, "circle", { radiusMm: r });
        const values = valuesOf(demand, scene);
        (["counter-clockwise", "clockwise"] as const).forEach((turn, way) => {
          const [from, to] = demand.groups?.[way] ?? [0, 0];
          const own = reduceSamples({ form: "spread" }, values.slice(from, to));
          const fine = circularDeviation(pathOf(scene, r, turn, 0.5));
          if (!fine) throw new Error("points of a circle settle it");
          expect(own / fine.leastSquaresMm).toBeGreaterThan(0.98);
          expect(own / fine.leastSquaresMm).toBeLessThan(1.005);
          expect(own).toBeGreaterThan(0.98 * fine.minimumZoneMm);
          expect(own).toBeLessThan(1.25 * fine.minimumZoneMm);
        });
      }
    });

    test("is the larger of the two ways round, not that of both together", () => {
      const modes = { "backlash.x": 0.1, [yaw]: 2 };
      const demand = made(machine, "circle");
      const values = valuesOf(demand, sceneWith(machine, modes));
      const spreads = (demand.groups ?? []).map(([from, to]) =>
        reduceSamples({ form: "spread" }, values.slice(from, to)),
      );
      expect(spreads).toHaveLength(2);
      expect(reduceSamples(demand, values)).toBe(Math.max(...spreads));
      expect(Math.abs(spreads[0] - spreads[1])).toBeGreaterThan(0.01);
    });
  });
});
