import { formatTrimmed } from "../base/number-format.ts";
import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import { type Pose, poseAt } from "../machine/joint.ts";
import { type Machine, nominalState } from "../machine/machine.ts";
import { lettersInView } from "./adjuster-letters.ts";
import {
  chooseExaggeration,
  type Displacement,
  displacementsAt,
  type Exaggeration,
  exaggerated,
  gridDisplacement,
} from "./exaggeration.ts";
import { type FigureUse, figure } from "./figure.ts";
import { type KeyRow, keyHeight, lineKey } from "./line-key.ts";
import { circle, dimension, line, outline, type Point, rectangle } from "./lines.ts";
import { type Part, type Place, partsOfMachine } from "./machine-parts.ts";
import { machineView } from "./machine-view.ts";
import { type Box, stationMarks } from "./mark-places.ts";
import { frontOfMachine, type ProjectionAngle, type StationState } from "./marks.ts";
import { type Extent, extentOf, type Frame, faceOf, inView, onSheet, type ViewName } from "./projection.ts";
import { type ShownRow, sheetTable } from "./sheet-table.ts";
import type { Svg } from "./svg.ts";
import { titleBlock, titleBlockSize } from "./title-block.ts";

/** A station as the sheet shows it: its number is the one that tables and sentences use. Place in mm. */
export interface SheetStation {
  readonly number: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly state: StationState;
}

/** What a sheet is drawn from. */
export interface MachineSheet {
  readonly machine: Machine;
  /** The estimate, mm and mm/m by parameter; null: the machine as it should be. */
  readonly state: Float64Array | null;
  readonly projection?: ProjectionAngle;
  /** At most so many times too large, that two drawings can be held against each other; as large as it can be when left out. */
  readonly mostFactor?: number;
  /** Where the machine stands on the drawing. */
  readonly pose?: Pose;
  readonly stations?: readonly SheetStation[];
  /** Where it can be changed: joints whose screws are seen get their letters, in plan or in front view. */
  readonly adjusters?: readonly Adjuster[];
  readonly shown?: readonly ShownRow[];
  /** How many readings, in words: "31 in 5 checks". */
  readonly readings: string;
  /** ISO 8601. */
  readonly date: string;
}

export const sheetSize = { width: 900, height: 820 } as const;
export const planSize = { width: 390 } as const;

const EDGE = 8;
const TABLE_LEFT = 516;
const TABLE_WIDTH = 352;

/** The whole sheet: plan, front and side, what they show in numbers, key and title block. */
export function machineSheet(sheet: MachineSheet, use: FigureUse = "file"): Svg {
  const third = (sheet.projection ?? "third") === "third";
  const side: ViewName = third ? "right" : "left";
  const model = modelOf(sheet, ["plan", "front", side]);
  const frames = layOut(model, side, third);
  const { plan, front } = frames;
  const bottomEdge = sheetSize.height - EDGE;
  const rightEdge = sheetSize.width - EDGE;
  const titleTop = bottomEdge - titleBlockSize.height;
  const sideExtent = model.extents[side];
  const sideTop = frames.side.origin[1] - frames.side.scale * sideExtent.high[1];
  const sideBottom = frames.side.origin[1] - frames.side.scale * sideExtent.low[1];
  const tableTop = third ? EDGE + 22 : sideBottom + 40;
  const tableBottom = third ? sideTop - 34 : titleTop - 16;
  const { details } = sheet.machine.dimensions;
  const body = [
    outline("wide", rectangle(EDGE, EDGE, rightEdge, bottomEdge)),
    centreLines(frames, model),
    planView(plan, model),
    elevation(front, model),
    elevation(frames.side, model),
    dimensions(frames, model, third),
    frontOfMachine([middleOf(plan, model), bottomOf(plan, model) + 8]),
    sheet.shown ? sheetTable(sheet.shown, [TABLE_LEFT, tableTop], TABLE_WIDTH, tableBottom - tableTop) : "",
    sheetStations(plan, model, { left: EDGE + 4, right: TABLE_LEFT - 8, top: EDGE + 4, bottom: titleTop - 4 }),
    sheetLetters(frames, model, { left: EDGE + 4, right: TABLE_LEFT - 8, top: EDGE + 4, bottom: titleTop - 4 }),
    lineKey(keyRows(model, details.gridPitchMm !== null), [EDGE + 16, titleTop + 4]),
    titleBlock(
      {
        machine: sheet.machine.description.name,
        travel: travelText(sheet.machine),
        readings: sheet.readings,
        drawing: drawingName(model),
        date: sheet.date,
        sizesIn: "mm, mm/m",
        projection: third ? "third" : "first",
      },
      rightEdge,
      bottomEdge,
    ),
  ].join("");
  return figure(sheetSize.width, sheetSize.height, wordsFor(sheet, model, third), body, use);
}

/** The plan alone, for a screen 390 px wide. */
export function machinePlan(sheet: MachineSheet, use: FigureUse = "file"): Svg {
  const model = modelOf(sheet, ["plan"]);
  const { low, high } = model.extents.plan;
  const scale = Math.min(300 / (high[0] - low[0]), 420 / (high[1] - low[1]));
  const left = (planSize.width - scale * (high[0] - low[0])) / 2 - 10;
  const top = 42;
  const frame: Frame = { view: "plan", scale, origin: [left - scale * low[0], top + scale * high[1]] };
  const bottom = top + scale * (high[1] - low[1]);
  const rows = keyRows(model, sheet.machine.dimensions.details.gridPitchMm !== null);
  const keyTop = bottom + 42;
  const body = [
    planView(frame, model),
    planDimensions(frame, model),
    frontOfMachine([left + (scale * (high[0] - low[0])) / 2, bottom + 8]),
    sheetStations(frame, model, { left: 2, right: planSize.width - 2, top: 2, bottom: bottom + 6 }),
    lineKey(rows, [16, keyTop]),
  ].join("");
  return figure(planSize.width, keyTop + keyHeight(rows) + 8, wordsFor(sheet, model, null), body, use);
}

/** One view with its dimensions, low enough to stay in sight over the fields of a phone; no key. */
export function machineStrip(sheet: MachineSheet, view: "plan" | "front", use: FigureUse = "file"): Svg {
  const model = modelOf(sheet, [view]);
  const { low, high } = model.extents[view];
  const [across, up] = [high[0] - low[0], high[1] - low[1]];
  const scale = Math.min((planSize.width - 150) / across, STRIP_ROOM / up);
  const left = (planSize.width - scale * across) / 2;
  const frame: Frame = { view, scale, origin: [left - scale * low[0], STRIP_TOP + scale * high[1]] };
  const bottom = STRIP_TOP + scale * up;
  const body =
    view === "plan"
      ? planView(frame, model) + planDimensions(frame, model) + frontOfMachine([planSize.width / 2 - 60, bottom + 8])
      : elevation(frame, model) + heights(frame, model);
  const words = {
    title: `${sheet.machine.description.name}, ${view === "plan" ? "seen from above" : "seen from the front"}`,
    description: "As it should be.",
  };
  return figure(planSize.width, bottom + 34, words, body, use);
}

const STRIP_TOP = 34;
const STRIP_ROOM = 130;

/** By how much the errors of this machine are drawn too large on the whole sheet. */
export function sheetExaggeration(sheet: MachineSheet): Exaggeration {
  return modelOf(sheet, ["plan", "front", sheet.projection === "first" ? "left" : "right"]).exaggeration;
}

/** The same of the plan alone. */
export function planExaggeration(sheet: MachineSheet): Exaggeration {
  return modelOf(sheet, ["plan"]).exaggeration;
}

/** Where the machine stands unless a sheet says otherwise: off the middle, so that no part lies on a centre line. */
export function sheetPose(machine: Machine): Pose {
  const { Lx, Ly, Lz } = machine.dimensions;
  return poseAt(0.32 * Lx, 0.6 * Ly, 0.35 * Lz);
}

interface Model {
  readonly sheet: MachineSheet;
  readonly pose: Pose;
  readonly parts: readonly Part[];
  readonly displacement: Displacement;
  readonly exaggeration: Exaggeration;
  /** What each view covers with the exaggerated machine in it, mm. */
  readonly extents: Readonly<Record<ViewName, Extent>>;
}

function modelOf(sheet: MachineSheet, views: readonly ViewName[]): Model {
  const pose = sheet.pose ?? sheetPose(sheet.machine);
  const parts = partsOfMachine(sheet.machine.dimensions, pose);
  const displacement = displacementsAt(sheet.machine, sheet.state ?? nominalState(sheet.machine), pose);
  const chosen = chooseExaggeration(parts, displacement, views);
  const exaggeration = { ...chosen, factor: Math.min(chosen.factor, sheet.mostFactor ?? chosen.factor) };
  const factor = sheet.state ? exaggeration.factor : 0;
  const extents = Object.fromEntries(
    (["plan", "front", "right", "left"] as const).map((view) => [view, drawnExtent(view, parts, displacement, factor)]),
  ) as Record<ViewName, Extent>;
  return { sheet, pose, parts, displacement, exaggeration, extents };
}

function drawnExtent(view: ViewName, parts: readonly Part[], displacement: Displacement, factor: number): Extent {
  const nominal = extentOf(view, parts);
  const drawn = parts.flatMap((part) =>
    faceOf(view, part).map((place) => inView(view, exaggerated(place, displacement(part.carriedBy, place), factor))),
  );
  const across = drawn.map(([a]) => a);
  const up = drawn.map(([, b]) => b);
  return {
    low: [Math.min(nominal.low[0], ...across), Math.min(nominal.low[1], ...up)],
    high: [Math.max(nominal.high[0], ...across), Math.max(nominal.high[1], ...up)],
  };
}

interface Frames {
  readonly plan: Frame;
  readonly front: Frame;
  readonly side: Frame;
}

// Room in px round the views: for the dimensions over, beside and under them, and for the person at the front.
const MARGIN = { left: 56, top: 52, overFront: 54, underFront: 44, betweenFrontAndSide: 78, right: 24 } as const;

function layOut(model: Model, side: ViewName, third: boolean): Frames {
  const { plan, front } = model.extents;
  const beside = model.extents[side];
  const low = Math.min(plan.low[0], front.low[0]);
  const wide = Math.max(plan.high[0], front.high[0]) - low;
  const deep = plan.high[1] - plan.low[1];
  const tall = Math.max(front.high[1], beside.high[1]) - Math.min(front.low[1], beside.low[1]);
  const room = sheetSize.height - EDGE - titleBlockSize.height - EDGE;
  const free = room - MARGIN.top - MARGIN.overFront - MARGIN.underFront;
  const scale = Math.min(
    (sheetSize.width - 2 * EDGE - MARGIN.left - MARGIN.betweenFrontAndSide - MARGIN.right) /
      (wide + beside.high[0] - beside.low[0]),
    (free - 14) / (deep + tall),
    (TABLE_LEFT - 62 - MARGIN.left) / wide,
  );
  const spare = free - scale * (deep + tall);
  const left = EDGE + MARGIN.left;
  const x0 = left - scale * low;
  const highest = Math.max(front.high[1], beside.high[1]);
  const upper = EDGE + MARGIN.top + spare * 0.3;
  const gap = MARGIN.overFront + spare * 0.35;
  const planTop = third ? upper : upper + scale * tall + gap;
  const frontTop = third ? upper + scale * deep + gap : upper;
  const y = frontTop + scale * highest;
  const sideLeft = left + scale * wide + MARGIN.betweenFrontAndSide;
  return {
    plan: { view: "plan", scale, origin: [x0, planTop + scale * plan.high[1]] },
    front: { view: "front", scale, origin: [x0, y] },
    side: { view: side, scale, origin: [sideLeft - scale * beside.low[0], y] },
  };
}

function styleOf({ sheet, displacement, exaggeration }: Model) {
  return { estimate: sheet.state ? { displacement, factor: exaggeration.factor } : null };
}

function planView(frame: Frame, model: Model): Svg {
  const { Lx, Ly } = model.sheet.machine.dimensions;
  const corners: Place[] = [
    [0, 0, 0],
    [Lx, 0, 0],
    [Lx, Ly, 0],
    [0, Ly, 0],
  ];
  const travel = outline(
    "limit",
    corners.map((place) => onSheet(frame, place)),
  );
  const view = machineView(frame, model.parts, { ...styleOf(model), onBed: printedGrid(frame, model) + travel });
  return view + toolAxis(frame, model);
}

/** Where the tip stands, in plan: a cross as commanded, a dot as estimated. */
function toolAxis(frame: Frame, { sheet, pose, displacement, exaggeration }: Model): Svg {
  const place: Place = [pose.x, pose.y, pose.z];
  const [x, y] = onSheet(frame, place);
  const cross = line("thin", [x - 6, y], [x + 6, y]) + line("thin", [x, y - 6], [x, y + 6]);
  if (!sheet.state) return cross;
  const tipAt = onSheet(frame, exaggerated(place, displacement("spindle", place), exaggeration.factor));
  return circle("wide", tipAt, 2.5, "solid") + cross;
}

function printedGrid(frame: Frame, { sheet, pose, exaggeration }: Model): Svg {
  const { Lx, Ly, details } = sheet.machine.dimensions;
  const pitch = details.gridPitchMm;
  if (pitch === null) return "";
  // A line every few px is as much as an eye can tell apart.
  const step = pitch * Math.max(1, Math.ceil(9 / (pitch * frame.scale)));
  const displacement = gridDisplacement(sheet.machine, sheet.state ?? nominalState(sheet.machine), pose);
  const factor = sheet.state ? exaggeration.factor : 0;
  const at = (x: number, y: number) => onSheet(frame, exaggerated([x, y, 0], displacement(x, y), factor));
  const lines: Svg[] = [];
  for (let x = 0; x <= Lx + 1e-9; x += step) lines.push(line("hair", at(x, 0), at(x, Ly / 2), at(x, Ly)));
  for (let y = 0; y <= Ly + 1e-9; y += step) lines.push(line("hair", at(0, y), at(Lx / 2, y), at(Lx, y)));
  return lines.join("");
}

function elevation(frame: Frame, model: Model): Svg {
  const { Lx, Ly, Lz } = model.sheet.machine.dimensions;
  const places: Place[] =
    frame.view === "front"
      ? [
          [0, 0, 0],
          [0, 0, Lz],
          [Lx, 0, Lz],
          [Lx, 0, 0],
        ]
      : [
          [0, 0, 0],
          [0, 0, Lz],
          [0, Ly, Lz],
          [0, Ly, 0],
        ];
  return (
    machineView(frame, model.parts, styleOf(model)) + line("limit", ...places.map((place) => onSheet(frame, place)))
  );
}

function centreLines({ plan, front }: Frames, model: Model): Svg {
  const { xm } = model.sheet.machine.dimensions;
  const [x] = onSheet(plan, [xm, 0, 0]);
  const tops = [topOf(plan, model), topOf(front, model)];
  const bottoms = [bottomOf(plan, model), bottomOf(front, model)];
  return line("centre", [x, Math.min(...tops) - 12], [x, Math.max(...bottoms) + 12]);
}

function dimensions({ plan, front }: Frames, model: Model, third: boolean): Svg {
  const { xL, xR, W, zr, Lx, Lz } = model.sheet.machine.dimensions;
  const bottom = third ? bottomOf(front, model) + 24 : bottomOf(plan, model) + 58;
  const spanFrame = third ? front : plan;
  const spanPlaces: readonly [Place, Place] = third
    ? [
        [xL, 0, zr - 40],
        [xR, 0, zr - 40],
      ]
    : [
        [xL, model.extents.plan.low[1], 0],
        [xR, model.extents.plan.low[1], 0],
      ];
  const right = front.origin[0] + front.scale * model.extents.front.high[0] + 30;
  return [
    planDimensions(plan, model),
    dimension({
      from: onSheet(spanFrame, spanPlaces[0]),
      to: onSheet(spanFrame, spanPlaces[1]),
      along: "x",
      at: bottom,
      text: formatTrimmed(W, 1),
      textAt: 0.36,
    }),
    dimension({
      from: onSheet(front, [Lx, 0, 0]),
      to: onSheet(front, [Lx, 0, Lz]),
      along: "y",
      at: right,
      text: formatTrimmed(Lz, 1),
    }),
  ].join("");
}

function planDimensions(plan: Frame, model: Model): Svg {
  const { Lx, Ly } = model.sheet.machine.dimensions;
  const top = topOf(plan, model) - 20;
  const right = plan.origin[0] + plan.scale * model.extents.plan.high[0] + 30;
  return (
    dimension({
      from: onSheet(plan, [0, Ly, 0]),
      to: onSheet(plan, [Lx, Ly, 0]),
      along: "x",
      at: top,
      text: formatTrimmed(Lx, 1),
      textAt: 0.36,
    }) +
    dimension({
      from: onSheet(plan, [Lx, 0, 0]),
      to: onSheet(plan, [Lx, Ly, 0]),
      along: "y",
      at: right,
      text: formatTrimmed(Ly, 1),
    })
  );
}

/** How far the tool goes up, and how high the beam stands over the bed. */
function heights(front: Frame, model: Model): Svg {
  const { Lx, Lz, zb, xL } = model.sheet.machine.dimensions;
  const { low, high } = model.extents.front;
  const upright = (x: number, top: number, at: number) =>
    dimension({
      from: onSheet(front, [x, 0, 0]),
      to: onSheet(front, [x, 0, top]),
      along: "y",
      at,
      text: formatTrimmed(top, 1),
    });
  return (
    upright(Lx, Lz, front.origin[0] + front.scale * high[0] + 30) +
    upright(xL, zb, front.origin[0] + front.scale * low[0] - 24)
  );
}

function sheetStations(frame: Frame, { sheet }: Model, bounds: Box): Svg {
  const marks = (sheet.stations ?? []).map(({ number, x, y, z, state }) => ({
    at: onSheet(frame, [x, y, z]),
    number,
    state,
  }));
  return stationMarks(marks, bounds);
}

/** Letters of the joints, each view's within what belongs to it. */
function sheetLetters({ plan, front }: Frames, model: Model, bounds: Box): Svg {
  const { machine, adjusters = [] } = model.sheet;
  const joints = { machine, adjusters, pose: model.pose, now: null };
  const within = (frame: Frame): Box => ({
    ...bounds,
    top: Math.max(bounds.top, topOf(frame, model) - 14),
    bottom: Math.min(bounds.bottom, bottomOf(frame, model) + 14),
  });
  return lettersInView(plan, joints, within(plan)) + lettersInView(front, joints, within(front));
}

function keyRows({ sheet, exaggeration }: Model, hasGrid: boolean): readonly KeyRow[] {
  const states = new Set((sheet.stations ?? []).map(({ state }) => state));
  const rows: KeyRow[] = sheet.state
    ? [
        { line: "wide", words: `as estimated, exaggerated ${exaggeration.factor} times` },
        ...(exaggeration.tooFarOut ? [{ line: null, words: "too far out to draw larger" }] : []),
        { line: "thin", words: "as it should be" },
      ]
    : [{ line: "thin", words: "as it should be" }];
  rows.push({ line: "limit", words: hasGrid ? "end of travel; in pale lines the printed grid" : "end of travel" });
  if ((sheet.adjusters ?? []).length > 0) rows.push({ line: null, words: "letters: where it can be changed" });
  const named = stationWords.filter(([state]) => states.has(state));
  if (named.length > 0) {
    rows.push({
      stations: named.map(([state]) => state),
      words: `station: ${named.map(([, words]) => words).join(", ")}`,
    });
  }
  return rows;
}

const stationWords: readonly (readonly [StationState, string])[] = [
  ["read", "read"],
  ["open", "not read yet"],
  ["now", "read now"],
];

function drawingName({ sheet, exaggeration }: Model): string {
  return sheet.state ? `As measured, errors ${exaggeration.factor} : 1` : "As it should be";
}

function travelText({ dimensions: { Lx, Ly, Lz } }: Machine): string {
  return [Lx, Ly, Lz].map((length) => formatTrimmed(length, 1)).join(" × ");
}

function wordsFor(sheet: MachineSheet, { exaggeration }: Model, third: boolean | null) {
  const views =
    third === null
      ? "Plan"
      : third
        ? "Plan over front view, right side beside it, in third-angle projection"
        : "Front view over plan, left side beside it, in first-angle projection";
  const state = sheet.state
    ? `Wide lines: as estimated, exaggerated ${exaggeration.factor} times${exaggeration.tooFarOut ? ", too far out to draw larger" : ""}. Thin lines: as it should be.`
    : "As it should be.";
  const joints = (sheet.adjusters ?? []).filter(({ fasteners }) => fasteners.places.length > 0);
  const rows = (sheet.shown ?? []).map(({ words, value, U }) => `${words}: ${value} ± ${U}.`).join(" ");
  const letters = joints.map(({ letter, words }) => `${letter}: ${words}.`).join(" ");
  return {
    title: `${sheet.machine.description.name}, drawing of the machine`,
    description: `${views}. ${state} ${letters} ${rows}`.replace(/ +/g, " ").trim(),
  };
}

function topOf(frame: Frame, model: Model): number {
  return frame.origin[1] - frame.scale * model.extents[frame.view].high[1];
}

function bottomOf(frame: Frame, model: Model): number {
  return frame.origin[1] - frame.scale * model.extents[frame.view].low[1];
}

function middleOf(frame: Frame, model: Model): number {
  const [x]: Point = onSheet(frame, [model.sheet.machine.dimensions.xm, 0, 0]);
  return x - 60;
}
