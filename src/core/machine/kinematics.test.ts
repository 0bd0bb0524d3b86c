import { describe, expect, test } from "vitest";
import { centralDifferences, disagreement, randomState } from "../../../tests/simulation/random-state.ts";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { createRandom, type Random } from "../numerics/random.ts";
import type { LayoutId } from "./description.ts";
import { type Pose, poseAt } from "./joint.ts";
import {
  bedDirections,
  bedHeightAt,
  gridCrossing,
  placeOnMember,
  placeOverFloor,
  type Scene,
  spindleAxis,
  tip,
  valuesOnly,
} from "./kinematics.ts";
import type { Machine } from "./machine.ts";
import type { Member } from "./modes.ts";

const layouts: readonly LayoutId[] = ["moving-gantry", "fixed-bridge"];
const toolMembers: Readonly<Record<LayoutId, readonly Member[]>> = {
  "moving-gantry": ["rails", "beam", "carriage", "slide", "spindle"],
  "fixed-bridge": ["bridge", "beam", "carriage", "slide", "spindle"],
};

describe.each(layouts)("the kinematics of a %s", (layout) => {
  const machine = workedMachine(layout);
  const random = createRandom(layout === "moving-gantry" ? 11 : 12);

  test("put every point of every member where a chain of plain rotation matrices puts it", () => {
    for (let trial = 0; trial < 200; trial++) {
      const state = randomState(machine, random, random.pick([1, 5]));
      const pose = randomPose(machine, random);
      for (const member of toolMembers[layout]) {
        const p: Place = [
          pose.x + 200 * (random.uniform() - 0.5),
          pose.y + 200 * (random.uniform() - 0.5),
          250 * random.uniform(),
        ];
        const found = placeOnMember(valuesOnly(machine, state), member, p, pose);
        const expected = referencePlace(machine, state, member, p, pose);
        expect(Math.abs(found.x.value - expected[0])).toBeLessThan(3e-12);
        expect(Math.abs(found.y.value - expected[1])).toBeLessThan(3e-12);
        expect(Math.abs(found.z.value - expected[2])).toBeLessThan(3e-12);
      }
    }
  });

  test("put everything at its nominal place on a machine without slips", () => {
    const scene = valuesOnly(machine, new Float64Array(machine.parameters.length));
    for (let trial = 0; trial < 20; trial++) {
      const pose = { ...randomPose(machine, random), arrivedX: 0, arrivedY: 0, arrivedZ: 0 } as const;
      for (const member of [...toolMembers[layout], "bed"] as const) {
        const p: Place = [pose.x + 10, pose.y - 20, 30];
        const found = placeOnMember(scene, member, p, pose);
        expect([found.x.value, found.y.value, found.z.value].map(rounded)).toEqual(p.map(rounded));
      }
    }
  });

  test("leave what lies on the bed where it lies, whatever the machine does", () => {
    const scene = valuesOnly(machine, randomState(machine, random));
    const pose = randomPose(machine, random);
    for (const member of layout === "fixed-bridge" ? (["bed", "table"] as const) : (["bed"] as const)) {
      const found = placeOnMember(scene, member, [10, 20, 3], pose);
      expect([found.x.value, found.y.value, found.z.value]).toEqual([10, 20, 3]);
    }
  });

  test.each([...toolMembers[layout]])("have the gradient of central differences for points of the %s", (member) => {
    for (let trial = 0; trial < 5; trial++) {
      const state = randomState(machine, random);
      const pose = randomPose(machine, random);
      const p: Place = [pose.x + 30, pose.y - 40, 60];
      const found = placeOnMember(gradientScene(machine, state), member, p, pose);
      for (const axis of ["x", "y", "z"] as const) {
        const f = (at: Float64Array) => placeOnMember(valuesOnly(machine, at), member, p, pose)[axis].value;
        expect(disagreement(found[axis].gradient, centralDifferences(f, state))).toBeLessThan(1e-7);
      }
    }
  });

  test("have the gradient of central differences for tip, axis, places over the floor, bed and print", () => {
    for (let trial = 0; trial < 5; trial++) {
      const state = randomState(machine, random);
      const pose = randomPose(machine, random);
      const [x, y] = [pose.x, pose.y];
      const directions = (scene: Scene) =>
        bedDirections(scene, { ...bedHeightAt(scene, 0, 0), value: x }, { ...bedHeightAt(scene, 0, 0), value: y });
      const asked: readonly ((scene: Scene) => { value: number; gradient: Float64Array })[] = [
        ...(["x", "y", "z"] as const).flatMap((axis) => [
          (scene: Scene) => tip(scene, pose)[axis],
          (scene: Scene) => spindleAxis(scene, pose)[axis],
          (scene: Scene) => placeOverFloor(scene, "carriage", [x, y, 90], pose)[axis],
          (scene: Scene) => placeOverFloor(scene, layout === "fixed-bridge" ? "table" : "rails", [x, y, 5], pose)[axis],
        ]),
        (scene) => bedHeightAt(scene, x, y),
        (scene) => gridCrossing(scene, x, y).x,
        (scene) => gridCrossing(scene, x, y).y,
      ];
      for (const ask of asked) {
        const differences = centralDifferences((at) => ask(valuesOnly(machine, at)).value, state);
        expect(disagreement(ask(gradientScene(machine, state)).gradient, differences)).toBeLessThan(1e-7);
      }
      // The place itself may depend on the state: here it moves with the bed's height at the corner.
      for (const which of ["normal", "alongX", "alongY"] as const) {
        for (const axis of ["x", "y", "z"] as const) {
          const moving = (at: Float64Array) => {
            const scene = valuesOnly(machine, at);
            const shift = bedHeightAt(scene, 0, 0).value - bedHeightAt(valuesOnly(machine, state), 0, 0).value;
            const none = new Float64Array(0);
            return bedDirections(scene, { value: x + shift, gradient: none }, { value: y + shift, gradient: none })[
              which
            ][axis].value;
          };
          const found = directions(gradientScene(machine, state))[which][axis];
          expect(disagreement(found.gradient, centralDifferences(moving, state))).toBeLessThan(1e-7);
        }
      }
    }
  });

  test("take the surface of motion for the bed once it has been skimmed", () => {
    for (let trial = 0; trial < 20; trial++) {
      const then = randomState(machine, random);
      const now = new Float64Array(machine.parameters.length);
      const [x, y] = [random.uniform() * machine.dimensions.Lx, random.uniform() * machine.dimensions.Ly];
      // The place commanded at z = 0 that brings the tip over x, y: by ten corrections instead of one.
      let [cx, cy] = [x, y];
      for (let i = 0; i < 10; i++) {
        const at = referencePlace(machine, then, "spindle", [cx, cy, 0], poseAt(cx, cy, 0));
        cx += x - at[0];
        cy += y - at[1];
      }
      const cut = referencePlace(machine, then, "spindle", [cx, cy, 0], poseAt(cx, cy, 0));
      const found = bedHeightAt(valuesOnly(machine, now, then), x, y).value;
      expect(Math.abs(found - cut[2])).toBeLessThan(1e-6);
    }
  });

  test("add to a skimmed bed what its own modes have become since", () => {
    const then = randomState(machine, random);
    const now = new Float64Array(machine.parameters.length);
    const before = bedHeightAt(valuesOnly(machine, now, then), 100, 100).value;
    now[machine.parameterIndex.get("bed.height") as number] = 0.3;
    expect(bedHeightAt(valuesOnly(machine, now, then), 100, 100).value - before).toBeCloseTo(0.3, 12);
  });

  test("have the gradient of central differences for a skimmed bed, over the state now and the state then", () => {
    const count = machine.parameters.length;
    for (let trial = 0; trial < 5; trial++) {
      const both = Float64Array.of(...randomState(machine, random), ...randomState(machine, random));
      const pose = randomPose(machine, random);
      const at = (values: Float64Array, size: number): Scene => ({
        machine,
        state: values.subarray(0, count),
        size,
        skim: { state: values.subarray(count), column: size > 0 ? count : 0 },
      });
      const asked: readonly ((scene: Scene) => { value: number; gradient: Float64Array })[] = [
        (scene) => bedHeightAt(scene, pose.x, pose.y),
        (scene) => {
          const { x, y } = tip(scene, pose);
          return bedDirections(scene, x, y).normal.x;
        },
        (scene) => {
          const { x, y } = tip(scene, pose);
          return bedDirections(scene, x, y).alongY.z;
        },
      ];
      for (const ask of asked) {
        const differences = centralDifferences((values) => ask(at(values, 0)).value, both);
        const { gradient } = ask(at(both, 2 * count + 3));
        // The surface is taken at a fixed place to first order; what is left is of the size of a slope times a slope.
        expect(disagreement(gradient.subarray(0, 2 * count), differences)).toBeLessThan(2e-4);
        expect(Math.max(...gradient.subarray(2 * count).map(Math.abs))).toBe(0);
      }
    }
  });
});

type Place = readonly [number, number, number];
type Matrix = readonly [Place, Place, Place];

/** Written from the table of joints alone, joint by joint, values only, without any of the code under test. */
function referencePlace(machine: Machine, state: Float64Array, member: Member, p: Place, pose: Pose): Place {
  const d = machine.dimensions;
  const mode = (id: string) => state[machine.parameterIndex.get(id) ?? -1] ?? 0;
  const rad = (id: string) => mode(id) / 1000;
  const gantry = d.layout === "moving-gantry";
  const toolY = gantry ? pose.y : 0;
  const yb = toolY - d.ty;
  const humped = (t: number) => 4 * t * (1 - t);
  const v = pose.y / d.Ly;

  const bending = (x: number) => {
    const u = (x - d.xL) / d.W;
    const fall = (4 * (1 - 2 * u)) / d.W;
    return {
      w: [-rad("beam.twist") * (u - 0.5), -mode("beam.crown") * fall, mode("beam.bow") * fall] as Place,
      t: [0, mode("beam.bow") * humped(u), mode("beam.crown") * humped(u)] as Place,
      o: [x, yb, d.zb] as Place,
    };
  };
  const feet = (middle: number) => {
    const half = d.b / (2 * d.Ly);
    const rail = (side: string, at: number) =>
      mode(`rail.${side}.front`) * (1 - at) + mode(`rail.${side}.rear`) * at + mode(`rail.${side}.crown`) * humped(at);
    const foot = (side: string) => ({ front: rail(side, middle - half), rear: rail(side, middle + half) });
    const [left, right] = [foot("left"), foot("right")];
    return {
      hL: (left.front + left.rear) / 2,
      hR: (right.front + right.rear) / 2,
      pitch: ((left.rear - left.front) / d.b + (right.rear - right.front) / d.b) / 2,
    };
  };

  // A member's own joint and all outside it carry a point of it.
  const order: readonly Member[] = ["spindle", "slide", "carriage", "beam", gantry ? "rails" : "bridge"];
  let at: Place = gantry ? p : [p[0], p[1] - pose.y, p[2]];
  if (member === "beam") {
    const own = bending(p[0]);
    at = moved(at, own.w, own.o, own.t);
  }
  for (const joint of order.slice(order.indexOf(member))) {
    if (joint === "spindle") {
      at = moved(
        at,
        [-rad("spindle.tilt.fore"), rad("spindle.tilt.side"), 0],
        [pose.x, toolY, pose.z + d.zm],
        [0, 0, 0],
      );
    } else if (joint === "slide") {
      // First t, then w.
      const pushed: Place = [at[0], at[1], at[2] + rad("scale.z") * pose.z - (pose.arrivedZ * mode("backlash.z")) / 2];
      at = moved(pushed, [-rad("slide.lean.fore"), rad("slide.lean.side"), 0], [pose.x, toolY, d.zs], [0, 0, 0]);
    } else if (joint === "carriage") {
      const own = bending(pose.x);
      const way = rad("scale.x") * pose.x - (pose.arrivedX * mode("backlash.x")) / 2;
      at = moved(at, own.w, own.o, [way, own.t[1], own.t[2]]);
    } else if (joint === "beam") {
      const [left, right] = [mode("beam.left"), mode("beam.right")];
      at = moved(at, [-rad("beam.roll"), -(right - left) / d.W, 0], [d.xm, yb, d.zb], [0, 0, (left + right) / 2]);
    } else if (joint === "rails") {
      const { hL, hR, pitch } = feet(v);
      const yaw = rad("gantry.rack") + rad("gantry.rack.home") + rad("gantry.rack.change") * (v - 0.5);
      const way = rad("scale.y") * pose.y - (pose.arrivedY * mode("backlash.y")) / 2;
      at = moved(
        at,
        [pitch, -(hR - hL) / d.W, yaw],
        [d.xm, yb, d.zr],
        [mode("rail.wander") * humped(v), way, (hL + hR) / 2],
      );
    } else {
      at = moved(at, [0, 0, rad("bridge.yaw")], [d.xm, -d.ty, d.zr], [0, 0, 0]);
    }
  }
  if (gantry) return at;
  // What the table has done to the work is undone: p = o + Rᵀ(p' − t − o).
  const span = d.details.tableRailsMm.right - d.details.tableRailsMm.left;
  const { hL, hR, pitch } = feet(1 - v);
  const w: Place = [pitch, -(hR - hL) / span, rad("table.yaw.change") * (v - 0.5)];
  const o: Place = [d.Lx / 2, d.Ly / 2 - pose.y, d.zr];
  const t: Place = [
    mode("rail.wander") * humped(1 - v),
    -(rad("scale.y") * pose.y - (pose.arrivedY * mode("backlash.y")) / 2),
    (hL + hR) / 2,
  ];
  const r = axisAngle(w);
  const q: Place = [at[0] - t[0] - o[0], at[1] - t[1] - o[1], at[2] - t[2] - o[2]];
  const back = [0, 1, 2].map((i) => o[i] + r[0][i] * q[0] + r[1][i] * q[1] + r[2][i] * q[2]);
  return [back[0], back[1] + pose.y, back[2]];
}

function moved(p: Place, w: Place, o: Place, t: Place): Place {
  const q = [p[0] - o[0], p[1] - o[1], p[2] - o[2]];
  const r = axisAngle(w);
  const [x, y, z] = r.map((row, i) => o[i] + row[0] * q[0] + row[1] * q[1] + row[2] * q[2] + t[i]);
  return [x, y, z];
}

/** Textbook form by unit axis n and angle: cos·I + (1 − cos)·nnᵀ + sin·[n]×. */
function axisAngle(w: Place): Matrix {
  const angle = Math.hypot(...w);
  if (angle === 0) {
    return [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
  }
  const [x, y, z] = [w[0] / angle, w[1] / angle, w[2] / angle];
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  // 1 − cos loses its digits for small angles.
  const k = 2 * Math.sin(angle / 2) ** 2;
  return [
    [c + k * x * x, k * x * y - s * z, k * x * z + s * y],
    [k * x * y + s * z, c + k * y * y, k * y * z - s * x],
    [k * x * z - s * y, k * y * z + s * x, c + k * z * z],
  ];
}

function randomPose({ dimensions: { Lx, Ly, Lz } }: Machine, random: Random): Pose {
  const way = () => random.pick([1, -1, 0] as const);
  return poseAt(random.uniform() * Lx, random.uniform() * Ly, random.uniform() * Lz, {
    arrivedX: way(),
    arrivedY: way(),
    arrivedZ: way(),
  });
}

function gradientScene(machine: Machine, state: Float64Array): Scene {
  return { machine, state, size: machine.parameters.length, skim: null };
}

function rounded(value: number): number {
  return Math.round(value * 1e9) / 1e9;
}
