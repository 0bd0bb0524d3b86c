import { type Outcome, succeed } from "../base/outcome.ts";
import { type CircleSizes, circlePicture } from "../work/pictures/circle.ts";
import { type DepthMapSizes, depthMapPicture } from "../work/pictures/depth-map.ts";
import { type DimensionSizes, dimensionPicture } from "../work/pictures/dimension.ts";
import { type HolesAndWallsSizes, holesAndWallsPicture } from "../work/pictures/holes-and-walls.ts";
import { type RectangleSizes, rectanglePicture } from "../work/pictures/rectangle.ts";
import { type StrokeSizes, strokePicture } from "../work/pictures/stroke.ts";
import { type SurfacingSizes, surfacingPicture } from "../work/pictures/surfacing.ts";
import type { WorkState } from "../work/work-state.ts";
import type { FigureUse } from "./figure.ts";
import type { Svg } from "./svg.ts";
import { circleDrawing, circleRows, circleTitle } from "./work-circle.ts";
import { depthMapDrawing, depthMapRows, depthMapTitle } from "./work-depth-map.ts";
import { dimensionDrawing, dimensionRows, dimensionTitle } from "./work-dimension.ts";
import type { WorkShape } from "./work-figure.ts";
import { holesAndWallsDrawing, holesAndWallsRows, holesAndWallsTitle } from "./work-holes-and-walls.ts";
import { type Compared, picturesOf, type WorkRow } from "./work-rows.ts";
import { squareDrawing, squareRows, squareTitle } from "./work-square.ts";
import { strokeDrawing, strokeRows, strokeTitle } from "./work-stroke.ts";
import { surfacingDrawing, surfacingRows, surfacingTitle } from "./work-surfacing.ts";

export type WorkPictureId =
  | "square"
  | "circle"
  | "depth-map"
  | "stroke"
  | "surfacing"
  | "holes-and-walls"
  | "dimension";

/** Sizes by picture; what is left out is the usual on this machine. */
export interface WorkSizes {
  readonly square?: RectangleSizes;
  readonly circle?: CircleSizes;
  readonly "depth-map"?: DepthMapSizes;
  readonly stroke?: StrokeSizes;
  readonly surfacing?: SurfacingSizes;
  readonly "holes-and-walls"?: HolesAndWallsSizes;
  readonly dimension?: DimensionSizes;
}

/** One picture with its numbers, ready to be drawn at any width. */
export interface WorkDrawing {
  /** Sizes included: "Square of 300". */
  readonly title: string;
  /** All its numbers, for a table that can be read out; the sheet shows those that are not lesser. */
  readonly rows: readonly WorkRow[];
  draw(shape: WorkShape, use: FigureUse): Svg;
}

export interface WorkSheetEntry {
  readonly id: WorkPictureId;
  /** What it is of, without sizes: for a list to choose from. */
  readonly words: string;
  /** Refused where a size cannot be had on this machine. */
  readonly drawing: Outcome<WorkDrawing>;
}

/** Every picture there is, in the order in which they are shown. */
export const workPictures: readonly { readonly id: WorkPictureId; readonly words: string }[] = [
  { id: "square", words: "a square" },
  { id: "circle", words: "a circle" },
  { id: "depth-map", words: "depth over the bed" },
  { id: "stroke", words: "a stroke of lettering" },
  { id: "surfacing", words: "surfacing" },
  { id: "holes-and-walls", words: "holes and walls" },
  { id: "dimension", words: "a piece and its pocket" },
];

/** Every picture of what the work comes out like: as things stand and, where there is one, after the plan. */
export function workSheetDrawings(
  state: WorkState,
  after: WorkState | null = null,
  sizes: WorkSizes = {},
): readonly WorkSheetEntry[] {
  return workPictures.map(({ id, words }) => ({ id, words, drawing: workDrawing(id, state, after, sizes) }));
}

/** One of them alone. */
export function workDrawing(
  id: WorkPictureId,
  state: WorkState,
  after: WorkState | null = null,
  sizes: WorkSizes = {},
): Outcome<WorkDrawing> {
  const states = { now: state, after };
  switch (id) {
    case "square":
      return drawn(
        compare(states, (at) => rectanglePicture(at, sizes.square)),
        { title: squareTitle, rows: squareRows, draw: squareDrawing },
      );
    case "circle":
      return drawn(
        compare(states, (at) => circlePicture(at, sizes.circle)),
        { title: circleTitle, rows: circleRows, draw: circleDrawing },
      );
    case "depth-map":
      return drawn(compareMaps(states, depthMapPicture, sizes["depth-map"]), {
        title: depthMapTitle,
        rows: depthMapRows,
        draw: depthMapDrawing,
      });
    case "stroke":
      return drawn(compareMaps(states, strokePicture, sizes.stroke), {
        title: strokeTitle,
        rows: strokeRows,
        draw: strokeDrawing,
      });
    case "surfacing":
      return drawn(
        compare(states, (at) => surfacingPicture(at, sizes.surfacing)),
        { title: surfacingTitle, rows: surfacingRows, draw: surfacingDrawing },
      );
    case "holes-and-walls":
      return drawn(
        compare(states, (at) => holesAndWallsPicture(at, sizes["holes-and-walls"])),
        { title: holesAndWallsTitle, rows: holesAndWallsRows, draw: holesAndWallsDrawing },
      );
    case "dimension":
      return drawn(
        compare(states, (at) => dimensionPicture(at, sizes.dimension)),
        { title: dimensionTitle, rows: dimensionRows, draw: dimensionDrawing },
      );
  }
}

interface Drawn<T> {
  title(picture: T): string;
  rows(pictures: Compared<T>): readonly WorkRow[];
  draw(pictures: Compared<T>, shape: WorkShape, use: FigureUse): Svg;
}

function drawn<T>(pictures: Outcome<Compared<T>>, { title, rows, draw }: Drawn<T>): Outcome<WorkDrawing> {
  if (!pictures.ok) return pictures;
  const { value } = pictures;
  return succeed({
    title: title(value.now),
    rows: rows(value),
    draw: (shape, use) => draw(value, shape, use),
  });
}

function compare<T>(
  { now, after }: Compared<WorkState>,
  picture: (state: WorkState) => Outcome<T>,
): Outcome<Compared<T>> {
  const first = picture(now);
  if (!first.ok) return first;
  if (after === null) return succeed({ now: first.value, after: null });
  const second = picture(after);
  return second.ok ? succeed({ now: first.value, after: second.value }) : second;
}

/** Maps that are compared have the same step, the coarser of both. */
function compareMaps<T extends { readonly map: { readonly step: number } }, S extends object>(
  states: Compared<WorkState>,
  picture: (state: WorkState, sizes: S & { readonly step?: number }) => Outcome<T>,
  sizes: S = {} as S,
): Outcome<Compared<T>> {
  const pictures = compare(states, (state) => picture(state, sizes));
  if (!pictures.ok || pictures.value.after === null) return pictures;
  const steps = picturesOf(pictures.value).map(({ map }) => map.step);
  const step = Math.max(...steps);
  return steps.every((size) => size === step)
    ? pictures
    : compare(states, (state) => picture(state, { ...sizes, step }));
}
