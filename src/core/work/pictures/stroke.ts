import { type Outcome, refuse, succeed } from "../../base/outcome.ts";
import { type Dual, scale, subtract } from "../../numerics/dual.ts";
import type { WorkState } from "../work-state.ts";
import {
  areaProblems,
  boardProblems,
  extremes,
  fivePlaces,
  gridOver,
  type StepMap,
  stepMap,
  usualThickness,
  type WorkArea,
} from "./depth-map.ts";
import { depthOfCut, type TouchedOff } from "./depth-of-cut.ts";
import { type KnownValue, knownValue, withoutGradients } from "./known-value.ts";
import { middleOfTravel, type PlanPlace, reachProblems, roomAbout, sizeProblems, usualWithin } from "./work-place.ts";

/**
 * What is left out is the usual: a cutter of 60° set 1.2 deep, lettering over 400 × 150 or what fits, touched off in its
 * middle, one stroke from where it comes out thinnest to where it comes out thickest. Lengths in mm.
 */
export interface StrokeSizes {
  readonly angleDegrees?: number;
  readonly depth?: number;
  readonly alongX?: number;
  readonly alongY?: number;
  readonly place?: PlanPlace;
  readonly touchOff?: PlanPlace;
  readonly thickness?: number;
  readonly from?: PlanPlace;
  readonly to?: PlanPlace;
  /** Difference of two neighbouring contours of the width; chosen by the range when left out. */
  readonly step?: number;
}

export interface StrokeEnd {
  readonly place: PlanPlace;
  readonly depth: KnownValue;
  readonly width: KnownValue;
}

/** A stroke of V lettering as it comes out. */
export interface StrokePicture extends WorkArea {
  readonly angleDegrees: number;
  readonly depth: number;
  /** 2·depth·tan(α/2), mm. */
  readonly width: number;
  readonly touchOff: PlanPlace;
  readonly thin: StrokeEnd;
  readonly thick: StrokeEnd;
  /** Width at the thick end less width at the thin one. */
  readonly spread: KnownValue;
  /** Width less the commanded one, over the area. */
  readonly map: StepMap;
  /** Width at equal steps from the thin end to the thick one, mm. */
  readonly along: readonly number[];
}

/**
 * Width of a groove by its depth: w = 2·d·tan(α/2), the cutter of exactly the angle α. Closed form; that the axis leans
 * by θ changes it by θ² only.
 */
export function strokePicture(state: WorkState, sizes: StrokeSizes = {}): Outcome<StrokePicture> {
  const { dimensions: d } = state.scene.machine;
  const place = sizes.place ?? middleOfTravel(d);
  const room = roomAbout(d, place);
  const area: WorkArea = {
    place,
    alongX: sizes.alongX ?? usualWithin(400, room.alongX),
    alongY: sizes.alongY ?? usualWithin(150, room.alongY),
  };
  const board: TouchedOff = { at: sizes.touchOff ?? place, thickness: sizes.thickness ?? usualThickness(d) };
  const angleDegrees = sizes.angleDegrees ?? 60;
  const depth = sizes.depth ?? Math.min(1.2, board.thickness);
  const problems = [
    ...areaProblems(d, area),
    ...boardProblems(d, board),
    ...sizeProblems([
      { field: "angleDegrees", value: angleDegrees, from: 10, to: 150, unit: "°" },
      { field: "depth", value: depth, from: 0.05, to: board.thickness, unit: "mm" },
      ...(sizes.step === undefined
        ? []
        : [{ field: "step", value: sizes.step, from: 0.001, to: 100, unit: "mm" } as const]),
    ]),
    ...[sizes.from, sizes.to].flatMap((end) => (end ? reachProblems(d, end, 0, 0) : [])),
  ];
  if (problems.length > 0) return refuse(...problems);
  const slope = 2 * Math.tan((angleDegrees * Math.PI) / 360);
  // A cutter that stays above the work leaves no stroke.
  const widthOf = (deep: Dual): Dual => ({ ...scale(slope, deep), value: Math.max(0, slope * deep.value) });
  const cut = depthOfCut(state.scene, board);
  const depthAt = (at: PlanPlace) => cut(at, depth);
  const [from, to] = endsOf(sizes, area, fivePlaces(area).map(depthAt));
  const ends = [from, to].map((at) => ({ at, deep: depthAt(at) }));
  ends.sort((a, b) => a.deep.value - b.deep.value);
  const [thin, thick] = ends.map(
    ({ at, deep }): StrokeEnd => ({
      place: at,
      depth: knownValue(state, deep),
      width: knownValue(state, scale(slope, deep)),
    }),
  );
  const bareCut = depthOfCut(withoutGradients(state), board);
  const widthAt = (at: PlanPlace) => widthOf(bareCut(at, depth)).value;
  return succeed({
    ...area,
    angleDegrees,
    depth,
    width: slope * depth,
    touchOff: board.at,
    thin,
    thick,
    spread: knownValue(state, subtract(widthOf(ends[1].deep), widthOf(ends[0].deep))),
    map: stepMap(
      area,
      gridOver(area, (at) => widthAt(at) - slope * depth),
      sizes.step,
    ),
    along: Array.from({ length: 25 }, (_, k) => {
      const t = k / 24;
      const [a, b] = [thin.place, thick.place];
      return widthAt({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) });
    }),
  });
}

/** The stroke that was asked for, or the one that shows the most. */
function endsOf(
  { from, to }: StrokeSizes,
  area: WorkArea,
  depths: Parameters<typeof extremes>[0],
): readonly [PlanPlace, PlanPlace] {
  const places = fivePlaces(area);
  const [low, high] = extremes(depths);
  // On a machine without any slip every stroke is the same: one across the area.
  const isFlat = depths[high].value - depths[low].value < 1e-9;
  return [from ?? places[isFlat ? 10 : low], to ?? places[isFlat ? 14 : high]];
}
