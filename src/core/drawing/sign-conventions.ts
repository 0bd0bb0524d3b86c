import { checkById } from "../checks/catalogue.ts";
import { type Pose, poseAt } from "../machine/joint.ts";
import { tip, valuesOnly } from "../machine/kinematics.ts";
import { type Machine, nominalState } from "../machine/machine.ts";
import { dialNose } from "./details/dial-nose.ts";
import { plusArrow } from "./details/shop-tools.ts";
import { type Displacement, displacementsAt, exaggerated } from "./exaggeration.ts";
import { type FigureWords, figure } from "./figure.ts";
import { lettering, letteringLines, wrappedText } from "./lettering.ts";
import { arc, line, outline, type Point, wayArrow } from "./lines.ts";
import { type CarriedBy, type Part, type Place, partsOfMachine } from "./machine-parts.ts";
import { machineView } from "./machine-view.ts";
import { frontOfMachine } from "./marks.ts";
import { extentOf, type Frame, inView, onSheet, type ViewName } from "./projection.ts";
import { moved, type Svg } from "./svg.ts";

/** A picture of one sign. `arrow` is what it draws, on the sheet; null where the picture shows more than one. */
export interface SignPicture {
  /** Name of its file, without the ending. */
  readonly name: string;
  readonly svg: Svg;
  readonly arrow: { readonly from: Point; readonly to: Point } | null;
}

/** One mode, out by plus: which view shows it, and the place whose way the arrow follows. */
export interface SignOfMode {
  readonly name: string;
  readonly mode: string;
  readonly view: ViewName;
  readonly carriedBy: CarriedBy;
  /** Place that is watched, mm. */
  at(machine: Machine, pose: Pose): Place;
}

const WIDTH = 380;

export const signsOfModes: readonly SignOfMode[] = [
  {
    name: "yaw-of-the-beam",
    mode: "gantry.rack",
    view: "plan",
    carriedBy: "rails",
    at: ({ dimensions: d }, { y }) => [d.xR, y - d.ty, d.zr],
  },
  {
    name: "bow-of-the-beam",
    mode: "beam.bow",
    view: "plan",
    carriedBy: "beam",
    at: ({ dimensions: d }, { y }) => [d.xm, y - d.ty, d.zb],
  },
  {
    name: "beam-high-at-the-right",
    mode: "beam.right",
    view: "front",
    carriedBy: "beam",
    at: ({ dimensions: d }, { y }) => [d.xR, y - d.ty, d.zb],
  },
  {
    name: "crown-of-the-beam",
    mode: "beam.crown",
    view: "front",
    carriedBy: "beam",
    at: ({ dimensions: d }, { y }) => [d.xm, y - d.ty, d.zb],
  },
  {
    name: "roll-of-the-beam",
    mode: "beam.roll",
    view: "right",
    carriedBy: "beam",
    at: ({ dimensions: d }, { y }) => [d.xR, y - d.ty, 2 * d.zb - d.zu],
  },
  {
    name: "plunge-leans-to-the-right",
    mode: "slide.lean.side",
    view: "front",
    carriedBy: "slide",
    at: ({ dimensions: d }, { x, y, z }) => [x, y, z + d.zm + 80],
  },
  {
    name: "plunge-leans-to-the-rear",
    mode: "slide.lean.fore",
    view: "right",
    carriedBy: "slide",
    at: ({ dimensions: d }, { x, y, z }) => [x, y, z + d.zm + 80],
  },
  {
    name: "axis-leans-to-the-right",
    mode: "spindle.tilt.side",
    view: "front",
    carriedBy: "spindle",
    at: ({ dimensions: d }, { x, y, z }) => [x, y, z + d.zm + 80],
  },
  {
    name: "axis-leans-to-the-rear",
    mode: "spindle.tilt.fore",
    view: "right",
    carriedBy: "spindle",
    at: ({ dimensions: d }, { x, y, z }) => [x, y, z + d.zm + 80],
  },
  {
    name: "right-rail-high-at-the-rear",
    mode: "rail.right.rear",
    view: "right",
    carriedBy: "right rail",
    at: ({ dimensions: d }) => [d.xR, d.Ly - d.ty, d.zr],
  },
  {
    name: "bed-rises-to-the-right",
    mode: "bed.tilt.x",
    view: "front",
    carriedBy: "bed",
    at: ({ dimensions: d }) => [d.Lx, d.Ly / 2, 0],
  },
  {
    name: "bed-rises-to-the-rear",
    mode: "bed.tilt.y",
    view: "right",
    carriedBy: "bed",
    at: ({ dimensions: d }) => [d.Lx / 2, d.Ly, 0],
  },
];

/** All pictures of frames and signs, drawn from the machine's own model. */
export function signPictures(machine: Machine): readonly SignPicture[] {
  return [
    framePicture(machine),
    squarenessPicture(machine),
    ...signsOfModes.filter(({ mode }) => machine.parameterIndex.has(mode)).map((sign) => modePicture(machine, sign)),
    twistPicture(machine),
    dialPicture(machine),
    squarePicture(),
  ];
}

/** X to the right, Y from front to rear, Z up, after [ISO 841]: in plan and from the front. */
function framePicture(machine: Machine): SignPicture {
  const pose = standing(machine);
  const parts = partsOfMachine(machine.dimensions, pose);
  const plan = frameFor("plan", parts, WIDTH - 80, 40, 18);
  const planBottom = bottomOf(plan, parts);
  const front = frameFor("front", parts, WIDTH - 80, 40, planBottom + 62);
  const { Lx, Ly } = machine.dimensions;
  const axis = (frame: Frame, from: Place, to: Place, name: string, away: Point): Svg => {
    const [a, b] = [onSheet(frame, from), onSheet(frame, to)];
    return (
      wayArrow(a, b) +
      lettering(name, [b[0] + away[0], b[1] + away[1]], { size: 17, weight: "strong", anchor: "middle" })
    );
  };
  const body = [
    machineView(plan, parts, { estimate: null }),
    axis(plan, [0, 0, 0], [0.45 * Lx, 0, 0], "X", [12, 6]),
    axis(plan, [0, 0, 0], [0, 0.45 * Ly, 0], "Y", [14, 4]),
    frontOfMachine([WIDTH / 2, planBottom + 8]),
    machineView(front, parts, { estimate: null }),
    axis(front, [0, 0, 0], [0.45 * Lx, 0, 0], "X", [12, -6]),
    axis(front, [0, 0, 0], [0, 0, 150], "Z", [14, 4]),
  ].join("");
  const words = {
    title: "Axes and sides",
    description:
      "Plan over front view. A person stands at the front and faces the machine. X points to the person's right, Y from front to rear, Z up. They begin at the front left corner of the travel, on the bed.",
  };
  return { name: "axes-and-sides", svg: figure(WIDTH, bottomOf(front, parts) + 16, words, body), arrow: null };
}

/** The paths of the tool along X and along Y, in plan: plus when the corner from +X to +Y is wider than 90°. */
function squarenessPicture(machine: Machine): SignPicture {
  const { Lx, Ly } = machine.dimensions;
  const state = withMode(machine, yawMode(machine), -1);
  const pose = standing(machine);
  const parts = partsOfMachine(machine.dimensions, pose);
  const frame = frameFor("plan", parts, WIDTH - 80, 40, 18);
  const scene = valuesOnly(machine, state);
  const factor = 120;
  const at = (x: number, y: number): Point => {
    const real = tip(scene, poseAt(x, y, 0));
    return onSheet(frame, exaggerated([x, y, 0], [real.x.value - x, real.y.value - y, 0], factor));
  };
  const from = at(0.1 * Lx, 0.1 * Ly);
  const alongX = at(0.9 * Lx, 0.1 * Ly);
  const alongY = at(0.1 * Lx, 0.9 * Ly);
  const angle = (to: Point) => (Math.atan2(from[1] - to[1], to[0] - from[0]) * 180) / Math.PI;
  const base = partsOfMachine(machine.dimensions, pose).filter(
    ({ stage, name }) => stage === "bare frame" || name === "bed" || name === "table",
  );
  const corner = onSheet(frame, [0.1 * Lx, 0.1 * Ly, 0]);
  const words = wrappedText("Plus: the corner from the X travel to the Y travel is wider than 90°.", WIDTH - 32);
  const bottom = bottomOf(frame, parts);
  const body = [
    machineView(frame, base, { estimate: null }),
    line("thin", corner, onSheet(frame, [0.9 * Lx, 0.1 * Ly, 0])),
    line("thin", corner, onSheet(frame, [0.1 * Lx, 0.9 * Ly, 0])),
    wayArrow(from, alongX),
    wayArrow(from, alongY),
    arc("wide", from, 56, angle(alongX), angle(alongY)),
    lettering("over 90°", [from[0] + 50, from[1] - 46]),
    lettering("X", [alongX[0] + 12, alongX[1] + 6], { weight: "strong" }),
    lettering("Y", [alongY[0] + 8, alongY[1] + 2], { weight: "strong" }),
    frontOfMachine([WIDTH / 2, bottom + 8]),
    letteringLines(words, [16, bottom + 58]),
  ].join("");
  return {
    name: "squareness-of-y-to-x",
    svg: figure(
      WIDTH,
      bottom + 58 + 17 * words.length,
      { title: "Squareness of Y to X", description: words.join(" ") },
      body,
    ),
    arrow: { from, to: alongX },
  };
}

/** Nominal in thin line, out by plus in wide line, and an arrow that follows one place as the model moves it. */
export function modePicture(machine: Machine, sign: SignOfMode): SignPicture {
  const mode = machine.modes.find(({ id }) => id === sign.mode) as Machine["modes"][number];
  const pose = standing(machine);
  const parts = partsOfMachine(machine.dimensions, pose);
  const displacement = displacementsAt(machine, withMode(machine, sign.mode, 1), pose);
  const place = sign.at(machine, pose);
  const frame = frameFor(sign.view, parts, WIDTH - 80, 40, 40);
  const off = inView(sign.view, displacement(sign.carriedBy, place));
  // As large as the eye needs: the place that is watched goes 34 px.
  const factor = 34 / (frame.scale * Math.hypot(...off));
  const legible = Math.min(factor, largestTurn(parts, displacement, sign.view));
  const from = onSheet(frame, place);
  const to = onSheet(frame, exaggerated(place, displacement(sign.carriedBy, place), legible));
  const bottom = bottomOf(frame, parts) + 20;
  const plan = sign.view === "plan";
  const text = wrappedText(`${mode.words}. Plus: ${mode.plus}.`, WIDTH - 32);
  const textTop = bottom + (plan ? 58 : 40);
  const sides = sign.view === "front" ? (["left", "right"] as const) : (["front", "rear"] as const);
  const body = [
    machineView(frame, parts, { estimate: { displacement, factor: legible } }),
    plusArrow(from, extended(from, to)),
    plan ? frontOfMachine([WIDTH / 2, bottom + 8]) : "",
    plan ? "" : lettering(sides[0], [16, bottom + 12], { second: true }),
    plan ? "" : lettering(sides[1], [WIDTH - 16, bottom + 12], { second: true, anchor: "end" }),
    letteringLines([capitalised(text[0]), ...text.slice(1)], [16, textTop]),
  ].join("");
  const words: FigureWords = {
    title: capitalised(mode.words),
    description: `Seen ${viewWords[sign.view]}. Thin lines: as it should be. Wide lines: out by plus, drawn far too large. Plus: ${mode.plus}.`,
  };
  return { name: sign.name, svg: figure(WIDTH, textTop + 17 * text.length, words, body), arrow: { from, to } };
}

/** Twist is roll that grows from left to right: both ends of the beam from the right. */
function twistPicture(machine: Machine): SignPicture {
  const { zb, zu, yf, xL, xR, ty } = machine.dimensions;
  const pose = standing(machine);
  const scene = displacementsAt(machine, withMode(machine, "beam.twist", 1), pose);
  const yb = pose.y - ty;
  const ends = (
    [
      ["left end", xL],
      ["right end", xR],
    ] as const
  ).map(([name, x], i) => {
    const corners: Place[] = [
      [x, yb + yf, zu],
      [x, yb - yf, zu],
      [x, yb - yf, 2 * zb - zu],
      [x, yb + yf, 2 * zb - zu],
    ];
    const frame: Frame = { view: "right", scale: 1.5, origin: [100 + i * 180 - 1.5 * yb, 90 + 1.5 * zb] };
    const drawn = corners.map((place) => onSheet(frame, exaggerated(place, scene("beam", place), 400)));
    return [
      outline(
        "thin",
        corners.map((place) => onSheet(frame, place)),
      ),
      outline("wide", drawn),
      lettering(name, [100 + i * 180, 164], { anchor: "middle" }),
    ].join("");
  });
  const text = wrappedText("Twist of the beam. Plus: right end rolled further to the rear.", WIDTH - 32);
  const body = [
    ...ends,
    lettering("front", [16, 24], { second: true }),
    lettering("rear", [WIDTH - 16, 24], { second: true, anchor: "end" }),
    letteringLines(text, [16, 194]),
  ].join("");
  return {
    name: "twist-of-the-beam",
    svg: figure(
      WIDTH,
      194 + 17 * text.length,
      { title: "Twist of the beam", description: `Both ends of the beam seen from the right. ${text.join(" ")}` },
      body,
    ),
    arrow: null,
  };
}

/** A stem pushed in makes the reading grow; the dial stands where the tool goes in plus. */
function dialPicture(machine: Machine): SignPicture {
  const check = checkById("there-and-back") as NonNullable<ReturnType<typeof checkById>>;
  const { body, plus } = dialNose({ check, setup: { machine, options: {}, instrument: null }, stations: [] });
  const text = wrappedText(
    "A stem that is pushed in reads plus. The dial stands on the side to which the tool goes in plus.",
    WIDTH - 32,
  );
  return {
    name: "dial-and-stem",
    svg: figure(
      WIDTH,
      244 + 17 * text.length,
      { title: "Which way the dial counts", description: text.join(" ") },
      moved(30, 0, body) + letteringLines(text, [16, 244]),
    ),
    arrow: plus,
  };
}

/** A square that is wider than 90° is plus, one that is narrower minus. */
function squarePicture(): SignPicture {
  const square = (x: number, lean: number, words: string, sign: string): Svg => {
    const top = x + lean;
    return [
      outline(
        "wide",
        [
          [x, 150],
          [top, 34],
          [top + 18, 34],
          [x + 15, 130],
          [x + 104, 130],
          [x + 104, 150],
        ],
        "tint",
      ),
      line("centre", [x, 158], [x, 24]),
      lettering(sign, [x + 60, 100], { size: 17, weight: "strong", anchor: "middle" }),
      lettering(words, [x + 52, 174], { anchor: "middle" }),
    ].join("");
  };
  const text = wrappedText("The square's own angle, in mm over 100 mm of its blade. Plus: wider than 90°.", WIDTH - 32);
  return {
    name: "square-wider-and-narrower",
    svg: figure(
      WIDTH,
      204 + 17 * text.length,
      { title: "A square's own angle", description: text.join(" ") },
      square(50, -12, "wider", "plus") + square(230, 12, "narrower", "minus") + letteringLines(text, [16, 204]),
    ),
    arrow: null,
  };
}

const viewWords: Readonly<Record<ViewName, string>> = {
  plan: "from above",
  front: "from the front",
  right: "from the right, front at the left",
  left: "from the left, front at the right",
};

function standing(machine: Machine): Pose {
  const { Lx, Ly, Lz } = machine.dimensions;
  return poseAt(0.4 * Lx, 0.5 * Ly, 0.5 * Lz);
}

function yawMode(machine: Machine): string {
  return machine.parameterIndex.has("gantry.rack") ? "gantry.rack" : "bridge.yaw";
}

function withMode(machine: Machine, mode: string, value: number): Float64Array {
  const state = nominalState(machine);
  state[machine.parameterIndex.get(mode) as number] = value;
  return state;
}

function frameFor(view: ViewName, parts: readonly Part[], width: number, left: number, top: number): Frame {
  const { low, high } = extentOf(view, parts);
  const scale = width / (high[0] - low[0]);
  return { view, scale, origin: [left - scale * low[0], top + scale * high[1]] };
}

function bottomOf(frame: Frame, parts: readonly Part[]): number {
  return frame.origin[1] - frame.scale * extentOf(frame.view, parts).low[1];
}

/** No part is drawn turned by more than about a sixth of its length. */
function largestTurn(parts: readonly Part[], displacement: Displacement, view: ViewName): number {
  const { low, high } = extentOf(view, parts);
  const most = 0.2 * Math.min(high[0] - low[0], high[1] - low[1]);
  const farthest = Math.max(
    ...parts.flatMap((part) =>
      [part.low, part.high].map((place) => Math.hypot(...inView(view, displacement(part.carriedBy, place)))),
    ),
  );
  return most / farthest;
}

/** Long enough to be seen as an arrow. */
function extended(from: Point, to: Point): Point {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const wanted = Math.max(length, 34);
  return [from[0] + ((to[0] - from[0]) / length) * wanted, from[1] + ((to[1] - from[1]) / length) * wanted];
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
