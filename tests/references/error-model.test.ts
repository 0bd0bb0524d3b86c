import { expect, test } from "vitest";
import { type Component, type Joint, type Layout, poseAt } from "../../src/core/machine/joint.ts";
import { placeOnMember, type Scene } from "../../src/core/machine/kinematics.ts";
import { type Machine, machineFromDescription } from "../../src/core/machine/machine.ts";
import published from "./data/error-model.json" with { type: "json" };
import { openReference } from "./reference.ts";

const source = openReference("[MSL error map]");

/**
 * The machine here is a layout of nothing but three slides, Y carrying X carrying Z, each out in six ways. A parameter is
 * the coefficient of one power of one error, named like "EXX 1", in mm or rad for each mm to that power. Each slide turns
 * what it carries about the point where it stands itself, so the arm of Y is what X, Z and the tool add, and that of Z is
 * the tool alone.
 */
const components = { EX: "tx", EY: "ty", EZ: "tz", EA: "wx", EB: "wy", EC: "wz" } as const satisfies Record<
  string,
  Component
>;
const powers = [0, 1, 2] as const;

const slides: Record<"X" | "Y" | "Z", Joint> = {
  Y: {
    carries: "rails",
    origin: (_, { y }) => [0, y, 0],
    terms: (_, { y }) => sixErrors("Y", y),
  },
  X: {
    carries: "carriage",
    origin: (_, { x, y }) => [x, y, 0],
    terms: (_, { x }) => sixErrors("X", x),
  },
  Z: {
    carries: "spindle",
    origin: (_, { x, y, z }) => [x, y, z],
    terms: (_, { z }) => sixErrors("Z", z),
  },
};

function sixErrors(axis: string, coordinate: number) {
  return Object.entries(components).flatMap(([error, component]) =>
    powers.map((power) => [`${error}${axis} ${power}`, component, coordinate ** power] as const),
  );
}

const layout: Layout = {
  id: "moving-gantry",
  words: "three slides",
  toolBranch: [slides.Y, slides.X, slides.Z],
  workBranch: [],
};

const parameters = ["X", "Y", "Z"].flatMap((axis) => sixErrors(axis, 1).map(([name]) => name));

/** Only the joints count here; the dimensions are those of any machine. */
const machine: Machine = {
  ...machineFromDescription({
    name: "three slides",
    layout: "moving-gantry",
    travelMm: { x: 600, y: 400, z: 100 },
    railPlanesMm: { left: -80, right: 680 },
    wheelbaseMm: 200,
    beamCentreMm: 150,
    toolFromBeamMm: -70,
  }),
  layout,
  modes: [],
  parameters,
  parameterIndex: new Map(parameters.map((name, index) => [name, index])),
};

type Errors = Readonly<Record<string, readonly number[]>>;
type Place = readonly [number, number, number];

const [toolX, toolY, toolZ] = published.toolMm as unknown as Place;
const points = published.pointsMm as unknown as readonly Place[];

function stateOf(errors: Errors): Float64Array {
  const state = new Float64Array(parameters.length);
  for (const [error, coefficients] of Object.entries(errors)) {
    coefficients.forEach((coefficient, power) => {
      const index = machine.parameterIndex.get(`${error} ${power}`);
      expect(index, `the layout has no ${error}`).toBeDefined();
      state[index!] = coefficient;
    });
  }
  return state;
}

function toolPoint(state: Float64Array, size: number, [x, y, z]: Place) {
  const scene: Scene = { machine, state, size, skim: null };
  return placeOnMember(scene, "spindle", [x + toolX, y + toolY, z + toolZ], poseAt(x, y, z));
}

/** Actual less nominal place of the tool point, by the exact chain. */
function exactDeviation(state: Float64Array, point: Place): Place {
  const { x, y, z } = toolPoint(state, 0, point);
  return [x.value - point[0] - toolX, y.value - point[1] - toolY, z.value - point[2] - toolZ];
}

/** The same to first order: the gradient at no errors times the errors. */
function firstOrderDeviation(state: Float64Array, point: Place): readonly number[] {
  const { x, y, z } = toolPoint(new Float64Array(parameters.length), parameters.length, point);
  return [x, y, z].map(({ gradient }) => gradient.reduce((sum, slope, i) => sum + slope * state[i]!, 0));
}

function furthestApart(
  deviations: readonly (readonly number[])[],
  of: (state: Float64Array, point: Place) => readonly number[],
  state: Float64Array,
): number {
  return Math.max(
    ...points.flatMap((point, i) => of(state, point).map((got, axis) => Math.abs(got - deviations[i]![axis]!))),
  );
}

/** θ²/2 times the arm, at the point where it is most: by so much an exact turn differs from one by the small angle θ. */
function turnedFurther(error: string, coefficients: readonly number[]): number {
  if (!components[error.slice(0, 2) as keyof typeof components].startsWith("w")) return 0;
  const axis = error.slice(2) as keyof typeof slides;
  return Math.max(
    ...points.map(([x, y, z]) => {
      const angle = coefficients.reduce(
        (sum, coefficient, power) => sum + coefficient * { X: x, Y: y, Z: z }[axis] ** power,
        0,
      );
      const [ox, oy, oz] = slides[axis].origin(machine.dimensions, poseAt(x, y, z));
      return (angle ** 2 / 2) * Math.hypot(x + toolX - ox, y + toolY - oy, z + toolZ - oz);
    }),
  );
}

const single = published.cases.filter(({ errors }) => Object.keys(errors).length === 1);
const all = published.cases.filter(({ errors }) => Object.keys(errors).length === 18);

test("each of the eighteen errors alone: to first order as published, and by the exact chain but for its exact turns", () => {
  expect(single).toHaveLength(18);
  source.number({
    what: "each of 18 alone at 7 points, first order: largest difference, mm",
    expected: "0e-9",
    got: Math.max(
      ...single.map(({ errors, deviationMm }) =>
        furthestApart(deviationMm, firstOrderDeviation, stateOf(errors as Errors)),
      ),
    ),
    status: "independent program",
    within: 1e-9,
  });
  for (const { errors, deviationMm } of single) {
    const [[error, coefficients]] = Object.entries(errors) as [[string, number[]]];
    const second = turnedFurther(error, coefficients);
    source.number({
      what: `${error} alone at 7 points, exact chain: largest difference, mm`,
      expected: "0e-9",
      got: furthestApart(deviationMm, exactDeviation, stateOf(errors as Errors)),
      status: "independent program",
      within: second + 1e-9,
      ...(second > 0 ? { because: "exact turns, θ²/2 of the arm" } : {}),
    });
  }
});

test("all eighteen errors at once, each with a square", () => {
  expect(all).toHaveLength(1);
  const [{ errors, deviationMm }] = all as unknown as readonly [(typeof all)[number]];
  const state = stateOf(errors as unknown as Errors);
  source.number({
    what: "all 18 at 7 points, exact chain: largest difference, mm",
    expected: "0e-6",
    got: furthestApart(deviationMm, exactDeviation, state),
    status: "independent program",
    within: 1e-5,
    because: "the program's turns are small angles",
  });
  source.number({
    what: "all 18 at 7 points, first order: largest difference, mm",
    expected: "0e-6",
    got: furthestApart(deviationMm, firstOrderDeviation, state),
    status: "independent program",
    within: 1e-5,
    because: "products of two errors are left out",
  });
});
