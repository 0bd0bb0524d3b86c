import { stepForUncertainty } from "../../base/number-format.ts";
import { type Outcome, refuse, succeed } from "../../base/outcome.ts";
import type { Dimensions } from "../../machine/dimensions.ts";
import type { Dual } from "../../numerics/dual.ts";
import type { WorkState } from "../work-state.ts";
import { type Contour, contourAt, type GridPlace, type HeightGrid, sharesBetween } from "./contour-bands.ts";
import { depthOfCut, type TouchedOff } from "./depth-of-cut.ts";
import { knownFromDraws, spreadOf } from "./known-from-draws.ts";
import { type KnownValue, knownValue, withoutGradients } from "./known-value.ts";
import { middleOfTravel, type PlanPlace, reachProblems, roomAbout, sizeProblems } from "./work-place.ts";

/**
 * What is left out is the usual: from 5 to 95 % of the travel, touched off in the middle of the area, a board of 18 or
 * as thick as the travel lets it be. Lengths in mm.
 */
export interface DepthMapSizes {
  readonly alongX?: number;
  readonly alongY?: number;
  readonly place?: PlanPlace;
  readonly touchOff?: PlanPlace;
  readonly thickness?: number;
  /** Difference of two neighbouring contours; chosen by the range when left out. */
  readonly step?: number;
}

/** A depth at one place, mm, + deeper than commanded. */
export interface DepthAt {
  readonly place: PlanPlace;
  readonly depth: KnownValue;
}

/** A surface over the area in equal steps. */
export interface StepMap {
  readonly step: number;
  readonly levels: readonly ContourLine[];
  /** From shallow to deep; `index` counts steps from nothing, so that two maps of one step can be laid side by side. */
  readonly bands: readonly {
    readonly index: number;
    readonly from: number;
    readonly to: number;
    readonly share: number;
  }[];
  readonly lowest: number;
  readonly highest: number;
}

/** A contour with its region in mm of the work frame. */
export interface ContourLine {
  readonly level: number;
  readonly regions: readonly (readonly PlanPlace[])[];
  readonly lines: readonly (readonly PlanPlace[])[];
}

/** How deep a cut of one commanded depth comes out over an area. */
export interface DepthMapPicture extends WorkArea {
  readonly touchOff: PlanPlace;
  readonly thickness: number;
  /** Five by five places from edge to edge, row by row from the front. */
  readonly places: readonly DepthAt[];
  readonly shallowest: DepthAt;
  readonly deepest: DepthAt;
  /** Deepest less shallowest of the five by five. */
  readonly spread: KnownValue;
  readonly map: StepMap;
  readonly throughCut: {
    /** How much deeper than the board is thick it has to be commanded, so that it parts everywhere. */
    readonly deeperBy: KnownValue;
    /** How far it then goes into the bed where it goes deepest. */
    readonly bite: KnownValue;
  };
}

/** A rectangle of the bed about its middle, mm. */
export interface WorkArea {
  readonly alongX: number;
  readonly alongY: number;
  readonly place: PlanPlace;
}

export function depthMapPicture(state: WorkState, sizes: DepthMapSizes = {}): Outcome<DepthMapPicture> {
  const { dimensions: d } = state.scene.machine;
  const place = sizes.place ?? middleOfTravel(d);
  const room = roomAbout(d, place);
  const area: WorkArea = {
    place,
    alongX: sizes.alongX ?? 0.9 * room.alongX,
    alongY: sizes.alongY ?? 0.9 * room.alongY,
  };
  const board: TouchedOff = { at: sizes.touchOff ?? place, thickness: sizes.thickness ?? usualThickness(d) };
  const problems = [
    ...areaProblems(d, area),
    ...boardProblems(d, board),
    ...(sizes.step === undefined
      ? []
      : sizeProblems([{ field: "step", value: sizes.step, from: 0.001, to: 100, unit: "mm" }])),
  ];
  if (problems.length > 0) return refuse(...problems);
  const places = fivePlaces(area);
  const depthAt = depthOfCut(state.scene, board);
  const depths = places.map((at) => depthAt(at, 0));
  const told = places.map((at, i): DepthAt => ({ place: at, depth: knownValue(state, depths[i]) }));
  const [low, high] = extremes(depths);
  const through = places.map((at) => depthAt(at, board.thickness));
  const spread = knownFromDraws(state, depths, spreadOf);
  const bareDepth = depthOfCut(withoutGradients(state), board);
  const grid = gridOver(area, (at) => bareDepth(at, 0).value);
  return succeed({
    ...area,
    touchOff: board.at,
    thickness: board.thickness,
    places: told,
    shallowest: told[low],
    deepest: told[high],
    spread,
    map: stepMap(area, grid, sizes.step),
    throughCut: {
      deeperBy: knownFromDraws(state, through, (deep) => board.thickness - Math.min(...deep)),
      bite: spread,
    },
  });
}

/** A board as sheet work is made of, or as thick as half the travel. */
export function usualThickness({ Lz }: Dimensions): number {
  return Math.min(18, Lz / 2);
}

export function areaProblems(d: Dimensions, { place, alongX, alongY }: WorkArea) {
  return [
    ...sizeProblems([
      { field: "alongX", value: alongX, from: 1, to: d.Lx, unit: "mm" },
      { field: "alongY", value: alongY, from: 1, to: d.Ly, unit: "mm" },
    ]),
    ...reachProblems(d, place, alongX, alongY),
  ];
}

export function boardProblems(d: Dimensions, { at, thickness }: TouchedOff) {
  return [
    ...sizeProblems([{ field: "thickness", value: thickness, from: 0, to: d.Lz, unit: "mm" }]),
    ...reachProblems(d, at, 0, 0),
  ];
}

/** Five by five places from edge to edge, row by row from the front. */
export function fivePlaces({ place, alongX, alongY }: WorkArea): readonly PlanPlace[] {
  const parts = [-0.5, -0.25, 0, 0.25, 0.5];
  return parts.flatMap((v) => parts.map((u) => ({ x: place.x + u * alongX, y: place.y + v * alongY })));
}

/** Where the lowest and the highest value stand. */
export function extremes(values: readonly Dual[]): readonly [lowest: number, highest: number] {
  let low = 0;
  let high = 0;
  values.forEach(({ value }, i) => {
    if (value < values[low].value) low = i;
    if (value > values[high].value) high = i;
  });
  return [low, high];
}

const COLUMNS = 61;
const ROWS = 49;

export function gridOver({ place, alongX, alongY }: WorkArea, heightAt: (at: PlanPlace) => number): HeightGrid {
  const values = Array.from({ length: COLUMNS * ROWS }, (_, i) =>
    heightAt({
      x: place.x + ((i % COLUMNS) / (COLUMNS - 1) - 0.5) * alongX,
      y: place.y + (Math.floor(i / COLUMNS) / (ROWS - 1) - 0.5) * alongY,
    }),
  );
  return { columns: COLUMNS, rows: ROWS, values };
}

/** So many steps that the eye can still tell their inks apart. */
const MOST_STEPS = 8;
/** A finer step would draw what nobody can cut. */
const FINEST_STEP = 0.01;

/** @param step chosen from 1, 2, 5 times a power of ten when left out; never finer than a fifth of that */
export function stepMap(area: WorkArea, grid: HeightGrid, step = 0): StepMap {
  const values = Array.from(grid.values);
  const lowest = Math.min(...values);
  const highest = Math.max(...values);
  const usual = stepForUncertainty((3 * (highest - lowest)) / MOST_STEPS, FINEST_STEP).size;
  const size = step === 0 ? usual : Math.max(step, usual / 5);
  const first = Math.floor(lowest / size + tie);
  const last = Math.ceil(highest / size - tie);
  const inside = Array.from({ length: Math.max(0, last - first - 1) }, (_, i) => (first + 1 + i) * size);
  const shares = sharesBetween(grid, inside);
  const place = toPlace(area, grid);
  return {
    step: size,
    levels: inside.map((level) => {
      const contour: Contour = contourAt(grid, level);
      return {
        level,
        regions: contour.regions.map((region) => region.map(place)),
        lines: contour.lines.map((line) => line.map(place)),
      };
    }),
    bands: shares.map((share, i) => ({
      index: first + i,
      from: (first + i) * size,
      to: (first + i + 1) * size,
      share,
    })),
    lowest,
    highest,
  };
}

// What differs from a whole step by rounding only is on the step.
const tie = 1e-6;

function toPlace({ place, alongX, alongY }: WorkArea, { columns, rows }: HeightGrid) {
  return ([column, row]: GridPlace): PlanPlace => ({
    x: place.x + (column / (columns - 1) - 0.5) * alongX,
    y: place.y + (row / (rows - 1) - 0.5) * alongY,
  });
}
