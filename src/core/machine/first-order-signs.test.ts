import { describe, expect, test } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { dimensionsFromDescription } from "./dimensions.ts";
import { type Pose, poseAt } from "./joint.ts";
import { bedHeightAt, gridCrossing, type Scene, spindleAxis, tip, valuesOnly } from "./kinematics.ts";
import { type Machine, nominalState } from "./machine.ts";

/**
 * What one small unit of each mode does to the tip, worked out on paper from what plus means and from levers, not from
 * the table of joints. Pose: right rear quarter of the travel, Z up by 30. mm per mm, or mm per mm/m.
 */
describe.each(["moving-gantry", "fixed-bridge"] as const)("to first order, on a %s, the tip goes", (layout) => {
  const machine = workedMachine(layout);
  const { Lx, Ly, Lz, W, xL, xm, b, zb, zr, zs, zm, ty, railSpan } = machine.dimensions;
  const gantry = layout === "moving-gantry";
  const pose = poseAt(0.75 * Lx, 0.75 * Ly, 30);
  const u = (pose.x - xL) / W;
  const v = 0.75;
  // Lever arms of the tip from the beam's centre and from the rails.
  const overBeam = pose.z - zb;
  const overRails = pose.z - zr;
  const share = (pose.x - xm) / W;
  // On a bridge the rails carry the table: it rises instead of the tool, and its middle stands at Lx/2 under Ly/2.
  const side = gantry ? 1 : -1;
  const railMiddle = gantry ? xm : Lx / 2;
  const fromRailMiddleX = pose.x - railMiddle;
  const fromRailMiddleY = gantry ? ty : pose.y - Ly / 2;
  const at = gantry ? v : 1 - v;

  /** Rail heights of both sides and what they do: mean height, roll about the middle, pitch over the travel. */
  const railEffect = (leftHeight: number, rightHeight: number, slopeLeft: number, slopeRight: number) => {
    const mean = (leftHeight + rightHeight) / 2;
    const roll = (rightHeight - leftHeight) / railSpan;
    const pitch = (slopeLeft + slopeRight) / 2;
    // Rolling the right up carries what stands high to the left; pitching the rear up carries it to the front.
    return [
      side * -roll * overRails,
      side * -pitch * overRails,
      side * (mean + roll * fromRailMiddleX + pitch * fromRailMiddleY),
    ];
  };
  const half = b / (2 * Ly);
  const hump = (t: number) => 4 * t * (1 - t);
  const crownHeight = (hump(at - half) + hump(at + half)) / 2;
  const crownSlope = (hump(at + half) - hump(at - half)) / b;
  const tipFromMount = pose.z - zs;

  const expected: Readonly<Record<string, readonly number[]>> = {
    "rail.left.front": railEffect(1 - at, 0, -1 / Ly, 0),
    "rail.left.rear": railEffect(at, 0, 1 / Ly, 0),
    "rail.right.front": railEffect(0, 1 - at, 0, -1 / Ly),
    "rail.right.rear": railEffect(0, at, 0, 1 / Ly),
    "rail.left.crown": railEffect(crownHeight, 0, crownSlope, 0),
    "rail.right.crown": railEffect(0, crownHeight, 0, crownSlope),
    // The tool, or else the table, goes to the right in the middle.
    "rail.wander": [side * hump(v), 0, 0],
    "rail.toe": [0, 0, 0],
    "rail.belly": [0, 0, 0],
    // One end of the beam up: the beam rolls by 1/W, and what hangs under it swings.
    "beam.left": [overBeam / W, 0, 0.5 - share],
    "beam.right": [-overBeam / W, 0, 0.5 + share],
    // Top of the face to the rear: what hangs below goes to the front, what stands before it up.
    "beam.roll": [0, overBeam / 1000, -ty / 1000],
    // Height at the carriage, and the tangent of the beam there turns it.
    "beam.crown": [(-overBeam * 4 * (1 - 2 * u)) / W, 0, hump(u)],
    "beam.bow": [(-ty * 4 * (1 - 2 * u)) / W, hump(u), 0],
    "beam.twist": [0, (overBeam * (u - 0.5)) / 1000, (-ty * (u - 0.5)) / 1000],
    // Going up by 1 m carries the tool by this much; the slide is fixed at zs, below which the tip swings the other way.
    "slide.lean.side": [tipFromMount / 1000, 0, 0],
    "slide.lean.fore": [0, tipFromMount / 1000, 0],
    // The upper end of the axis to + takes the tip, which hangs zm below its mount, to −.
    "spindle.tilt.side": [-zm / 1000, 0, 0],
    "spindle.tilt.fore": [0, -zm / 1000, 0],
    "scale.x": [pose.x / 1000, 0, 0],
    "scale.y": [0, pose.y / 1000, 0],
    "scale.z": [0, 0, pose.z / 1000],
    // Play stops the tool short on the side it came from: up in X and Y, down in Z.
    "backlash.x": [-0.5, 0, 0],
    "backlash.y": [0, -0.5, 0],
    "backlash.z": [0, 0, 0.5],
    ...(gantry
      ? {
          "frame.stagger": [0, 0, 0],
          // The right end to the rear, and the tool, which stands before the beam, to the right.
          "gantry.rack": [-ty / 1000, (pose.x - xm) / 1000, 0],
          "gantry.rack.home": [-ty / 1000, (pose.x - xm) / 1000, 0],
          "gantry.rack.change": [(-ty * 0.25) / 1000, ((pose.x - xm) * 0.25) / 1000, 0],
        }
      : {
          "bridge.yaw": [-ty / 1000, (pose.x - xm) / 1000, 0],
          // The table turned counter-clockwise: the tool goes round the table's middle the other way.
          "table.yaw.change": [(0.25 * (pose.y - Ly / 2)) / 1000, (-0.25 * (pose.x - Lx / 2)) / 1000, 0],
          "gantry.rack.home": [0, 0, 0],
        }),
  };
  const bed = ["bed.", "grid.", "spindle.runout"];

  test.each(machine.parameters.filter((id) => !bed.some((start) => id.startsWith(start))))(
    "as paper says for %s",
    (id) => {
      const found = slope(machine, id, pose);
      found.forEach((value, i) => {
        expect(value).toBeCloseTo(expected[id][i], 8);
      });
    },
  );

  test.each(machine.parameters.filter((id) => bed.some((start) => id.startsWith(start))))("nowhere for %s", (id) => {
    expect(slope(machine, id, pose)).toEqual([0, 0, 0]);
  });

  test("down alike, but for one and the same shift to the side, with both right rail ends and with the beam's right seat", () => {
    if (!gantry) return;
    for (const other of [pose, poseAt(0, 0, 0), poseAt(Lx, Ly, Lz), poseAt(100, 400, 10)]) {
      const rails = sum(slope(machine, "rail.right.front", other), slope(machine, "rail.right.rear", other));
      const seat = slope(machine, "beam.right", other);
      expect(rails[2]).toBeCloseTo(seat[2], 12);
      expect(rails[1]).toBeCloseTo(seat[1], 12);
      // The two roll about rail and beam centre.
      expect(rails[0] - seat[0]).toBeCloseTo((zr - zb) / W, 12);
    }
  });

  test("with an axis whose upper end goes to plus as spindle and slide lean to plus", () => {
    for (const [mode, axis] of [
      ["spindle.tilt.side", "x"],
      ["slide.lean.side", "x"],
      ["spindle.tilt.fore", "y"],
      ["slide.lean.fore", "y"],
    ] as const) {
      const scene = valuesOnly(machine, single(machine, mode, 1e-3));
      expect(spindleAxis(scene, pose)[axis].value).toBeCloseTo(1e-6, 12);
    }
  });

  test("to the right by a metre's worth of lean when it is raised by a metre, and to the rear", () => {
    for (const [mode, axis] of [
      ["slide.lean.side", "x"],
      ["slide.lean.fore", "y"],
    ] as const) {
      const scene = valuesOnly(machine, single(machine, mode, 1e-3));
      const climb =
        tip(scene, poseAt(pose.x, pose.y, Lz))[axis].value - tip(scene, poseAt(pose.x, pose.y, 0))[axis].value;
      expect(climb).toBeCloseTo((Lz / 1000) * 1e-3, 10);
    }
  });
});

describe("the bed's and the print's modes", () => {
  const machine = workedMachine("moving-gantry");
  const { Lx, Ly } = machine.dimensions;
  const height = (id: string, x: number, y: number) =>
    bedHeightAt(valuesOnly(machine, single(machine, id, 1)), x, y).value;

  test.each([
    ["bed.height", Lx / 2, Ly / 2, 1],
    ["bed.tilt.x", Lx, Ly / 2, Lx / 2000],
    ["bed.tilt.y", Lx / 2, Ly, Ly / 2000],
    ["bed.twist", Lx, Ly, 1],
    ["bed.twist", 0, 0, 1],
    ["bed.twist", Lx, 0, -1],
    ["bed.dome.x", Lx / 2, 0, 1],
    ["bed.dome.x", 0, 0, 0],
    ["bed.dome.y", 0, Ly / 2, 1],
  ] as const)("%s of one unit lifts the bed at X %d, Y %d by %d", (id, x, y, expected) => {
    expect(height(id, x, y)).toBeCloseTo(expected, 12);
  });

  test("a print that is turned counter-clockwise has its right side to the rear and its rear side to the left", () => {
    const scene = valuesOnly(machine, single(machine, "grid.yaw", 1));
    expect(gridCrossing(scene, Lx, Ly / 2).y.value - Ly / 2).toBeCloseTo((Lx / 2) * Math.sin(1e-3), 12);
    expect(gridCrossing(scene, Lx / 2, Ly).x.value - Lx / 2).toBeCloseTo((-Ly / 2) * Math.sin(1e-3), 12);
  });

  test("a corner wider than 90° leans the lines along Y to the left and leaves those along X", () => {
    const scene = valuesOnly(machine, single(machine, "grid.skew", 1));
    expect(gridCrossing(scene, Lx, Ly / 2).y.value).toBe(Ly / 2);
    expect(gridCrossing(scene, Lx / 2, Ly).x.value - Lx / 2).toBeCloseTo((-Ly / 2) * Math.sin(1e-3), 12);
  });

  test("a print that is too large carries its crossings outwards from the middle", () => {
    const alongX = valuesOnly(machine, single(machine, "grid.scale.x", 1));
    expect(gridCrossing(alongX, Lx, Ly).x.value - Lx).toBeCloseTo(Lx / 2000, 12);
    expect(gridCrossing(alongX, Lx, Ly).y.value).toBe(Ly);
    const alongY = valuesOnly(machine, single(machine, "grid.scale.y", 1));
    expect(gridCrossing(alongY, 0, 0).y.value).toBeCloseTo(-Ly / 2000, 12);
  });
});

describe("eight numbers", () => {
  test("describe the worked gantry with all its defaults", () => {
    const d = workedMachine("moving-gantry").dimensions;
    const { Lx, Ly, Lz, xL, xR, b, zb, ty, zr, zu, yf, zs, zm } = d;
    expect({ Lx, Ly, Lz, xL, xR, b, zb, ty, zr, zu, yf, zs, zm }).toEqual({
      Lx: 600,
      Ly: 500,
      Lz: 70,
      xL: -90,
      xR: 690,
      b: 140,
      zb: 105,
      ty: -75,
      zr: -25,
      zu: 75,
      yf: -20,
      zs: 130,
      zm: 90,
    });
    expect([d.W, d.xm, d.railSpan]).toEqual([780, 300, 780]);
    expect(d.details.bedMm).toEqual({ left: -40, right: 640, front: -40, rear: 540 });
    expect(d.details.packingPlaces).toEqual({ front: -0.18, rear: 1.18 });
  });

  test("describe the worked bridge, whose rails are its table's", () => {
    const d = workedMachine("fixed-bridge").dimensions;
    const { Lx, Ly, Lz, xL, xR, b, zb, ty, zr, zu, yf, zs, zm } = d;
    expect({ Lx, Ly, Lz, xL, xR, b, zb, ty, zr, zu, yf, zs, zm }).toEqual({
      Lx: 400,
      Ly: 350,
      Lz: 80,
      xL: -60,
      xR: 460,
      b: 200,
      zb: 125,
      ty: -75,
      zr: -40,
      zu: 95,
      yf: -20,
      zs: 150,
      zm: 90,
    });
    expect(d.details.tableRailsMm).toEqual({ left: 60, right: 340 });
    expect(d.railSpan).toBe(280);
  });

  test("give way to what the description states", () => {
    const { description } = workedMachine("moving-gantry");
    const own = dimensionsFromDescription({ ...description, details: { beamUndersideMm: 60, spindleMountMm: 80 } });
    expect([own.zu, own.zm, own.zs]).toEqual([60, 80, 130]);
  });
});

function single(machine: Machine, id: string, value: number): Float64Array {
  const state = nominalState(machine);
  state[machine.parameterIndex.get(id) as number] = value;
  return state;
}

/** Change of the tip per unit of one mode at the nominal machine. */
function slope(machine: Machine, id: string, pose: Pose): readonly number[] {
  const scene: Scene = { machine, state: nominalState(machine), size: machine.parameters.length, skim: null };
  const place = tip(scene, pose);
  const index = machine.parameterIndex.get(id) as number;
  return [place.x.gradient[index], place.y.gradient[index], place.z.gradient[index]];
}

function sum(a: readonly number[], b: readonly number[]): readonly number[] {
  return a.map((value, i) => value + b[i]);
}
