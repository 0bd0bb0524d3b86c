import type { Point } from "./lines.ts";
import type { Part, Place } from "./machine-parts.ts";

/** Views after the directions of sight: from above, from the front, from the right, from the left. */
export type ViewName = "plan" | "front" | "right" | "left";

/** A view on the sheet: mm to px, and where its origin is. */
export interface Frame {
  readonly view: ViewName;
  /** px per mm. */
  readonly scale: number;
  /** Where the place with both view coordinates 0 is, px. */
  readonly origin: Point;
}

/** The two coordinates of a place in a view, mm, to the right and up. */
export function inView(view: ViewName, [x, y, z]: Place): readonly [across: number, up: number] {
  switch (view) {
    case "plan":
      return [x, y];
    case "front":
      return [x, z];
    case "right":
      return [y, z];
    case "left":
      return [-y, z];
  }
}

export function onSheet({ view, scale, origin }: Frame, place: Place): Point {
  const [across, up] = inView(view, place);
  return [origin[0] + scale * across, origin[1] - scale * up];
}

export interface Extent {
  readonly low: readonly [across: number, up: number];
  readonly high: readonly [across: number, up: number];
}

export function extentOf(view: ViewName, parts: readonly Part[]): Extent {
  const corners = parts.flatMap(({ low, high }) => [inView(view, low), inView(view, high)]);
  const across = corners.map(([a]) => a);
  const up = corners.map(([, b]) => b);
  return { low: [Math.min(...across), Math.min(...up)], high: [Math.max(...across), Math.max(...up)] };
}

/** Nearer to the eye than the other: drawn later, and hides it. */
export function compareDepth(view: ViewName, a: Part, b: Part): number {
  switch (view) {
    case "plan":
      return a.high[2] - b.high[2];
    case "front":
      return b.low[1] - a.low[1];
    case "right":
      return a.high[0] - b.high[0];
    case "left":
      return b.low[0] - a.low[0];
  }
}

// Enough for a parabola to look round at the size of a sheet.
const SAMPLES = 12;

/** The face of a part that is turned to the eye, as places in order round it; nominal, mm. */
export function faceOf(view: ViewName, part: Part): readonly Place[] {
  const [x0, y0, z0] = part.low;
  const [x1, y1, z1] = part.high;
  if (view === "plan")
    return densified(part, [
      [x0, y0, z1],
      [x1, y0, z1],
      [x1, y1, z1],
      [x0, y1, z1],
    ]);
  if (view === "front") {
    const y = part.shape === "cylinder" ? (y0 + y1) / 2 : y0;
    return densified(part, [
      [x0, y, z0],
      [x1, y, z0],
      [x1, y, z1],
      [x0, y, z1],
    ]);
  }
  const x = part.shape === "cylinder" ? (x0 + x1) / 2 : view === "right" ? x1 : x0;
  if (part.profile) return part.profile.map(([y, z]): Place => [x, y, z]);
  return densified(part, [
    [x, y0, z0],
    [x, y1, z0],
    [x, y1, z1],
    [x, y0, z1],
  ]);
}

/** Straight edges need their ends only; a part that bends needs places between them. */
function densified(part: Part, corners: readonly Place[]): readonly Place[] {
  if (!part.bends) return corners;
  return corners.flatMap((from, i) => {
    const to = corners[(i + 1) % corners.length];
    return Array.from({ length: SAMPLES }, (_, k): Place => {
      const f = k / SAMPLES;
      return [from[0] + f * (to[0] - from[0]), from[1] + f * (to[1] - from[1]), from[2] + f * (to[2] - from[2])];
    });
  });
}
