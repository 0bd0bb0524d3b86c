import { type Displacement, exaggerated } from "./exaggeration.ts";
import { arc, circle, line, outline, type Point } from "./lines.ts";
import type { Part, PartName, Place } from "./machine-parts.ts";
import { compareDepth, type Frame, faceOf, inView, onSheet } from "./projection.ts";
import type { LineKind } from "./stylesheet.ts";
import type { Svg } from "./svg.ts";

/** How one view of the machine is drawn. */
export interface ViewStyle {
  /** Null: only as it should be, in one kind of line. */
  readonly estimate: { readonly displacement: Displacement; readonly factor: number } | null;
  /** Parts in wide line where there is no estimate; all others are thin. */
  readonly emphasis?: readonly PartName[];
  /** What lies on the bed and under the gantry: printed grid, end of travel. */
  readonly onBed?: Svg;
}

/** Parts of one view, far ones first; near ones hide far ones. */
export function machineView(frame: Frame, parts: readonly Part[], style: ViewStyle): Svg {
  const seen = [...parts].filter((part) => isSeen(frame, part)).sort((a, b) => compareDepth(frame.view, a, b));
  if (!style.estimate) {
    return seen.map((part) => partOutline(frame, part, kindOf(part, style), asItIs) + afterBed(part, style)).join("");
  }
  const { displacement, factor } = style.estimate;
  const asEstimated = seen.map(
    (part) =>
      partOutline(frame, part, "wide", (place) => exaggerated(place, displacement(part.carriedBy, place), factor)) +
      afterBed(part, style),
  );
  return asEstimated.join("") + nominalLines(frame, seen, (part) => farthest(frame, part, displacement, factor) > 0.6);
}

function kindOf(part: Part, { emphasis }: ViewStyle): LineKind {
  return emphasis?.includes(part.name) ? "wide" : "thin";
}

function asItIs(place: Place): Place {
  return place;
}

function afterBed(part: Part, { onBed = "" }: ViewStyle): Svg {
  return part.name === "bed" ? onBed : "";
}

// What stands under the machine is left out of the plan: feet and crosspieces would only be hidden lines.
function isSeen({ view }: Frame, part: Part): boolean {
  return !(view === "plan" && part.name === "foot");
}

function partOutline(frame: Frame, part: Part, kind: LineKind, drawn: (place: Place) => Place): Svg {
  if (part.shape === "cylinder" && frame.view === "plan") return roundFromAbove(frame, part, kind, drawn);
  const face = faceOf(frame.view, part).map((place) => onSheet(frame, drawn(place)));
  return outline(kind, face, "solid");
}

/** A cylinder from above: its upper rim; the cutter is drawn at its tip, where it cuts. */
function roundFromAbove(frame: Frame, part: Part, kind: LineKind, drawn: (place: Place) => Place): Svg {
  const radius = ((part.high[0] - part.low[0]) / 2) * frame.scale;
  const [x, y] = [(part.low[0] + part.high[0]) / 2, (part.low[1] + part.high[1]) / 2];
  return circle(kind, onSheet(frame, drawn([x, y, part.high[2]])), Math.max(radius, 1.5), "solid");
}

/**
 * Nominal outlines without what nearer nominal parts hide. All nominal parts are upright boxes, so that a part hides
 * what lies inside its rectangle.
 */
function nominalLines(frame: Frame, seen: readonly Part[], differs: (part: Part) => boolean): Svg {
  const covers = seen.map((part) => rectangleOf(frame, part));
  return seen
    .map((part, i) => {
      if (!differs(part)) return "";
      const nearer = covers.slice(i + 1);
      if (part.shape === "cylinder" && frame.view === "plan") {
        const [x, y] = [(part.low[0] + part.high[0]) / 2, (part.low[1] + part.high[1]) / 2];
        const radius = ((part.high[0] - part.low[0]) / 2) * frame.scale;
        return arc("thin", onSheet(frame, [x, y, part.high[2]]), radius, 0, 360);
      }
      const face = faceOf(frame.view, part).map((place) => onSheet(frame, place));
      return joined(face, nearer);
    })
    .join("");
}

function farthest(frame: Frame, part: Part, displacement: Displacement, factor: number): number {
  const offsets = faceOf(frame.view, part).map((place) => {
    const [across, up] = inView(frame.view, displacement(part.carriedBy, place));
    return factor * frame.scale * Math.hypot(across, up);
  });
  return Math.max(...offsets);
}

interface Cover {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function rectangleOf(frame: Frame, part: Part): Cover {
  const corners = [onSheet(frame, part.low), onSheet(frame, part.high)];
  const xs = corners.map(([x]) => x);
  const ys = corners.map(([, y]) => y);
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** The closed line as pieces that no cover hides, runs of neighbouring pieces joined. */
function joined(face: readonly Point[], covers: readonly Cover[]): Svg {
  const runs: Point[][] = [];
  face.forEach((from, i) => {
    const to = face[(i + 1) % face.length];
    for (const [a, b] of visiblePieces(from, to, covers)) {
      const last = runs[runs.length - 1]?.at(-1);
      if (last && Math.hypot(last[0] - a[0], last[1] - a[1]) < 0.01) runs[runs.length - 1].push(b);
      else runs.push([a, b]);
    }
  });
  return runs.map((run) => line("thin", ...run)).join("");
}

function visiblePieces(from: Point, to: Point, covers: readonly Cover[]): readonly (readonly [Point, Point])[] {
  const hidden = covers.map((cover) => hiddenPart(from, to, cover)).filter((part) => part !== null);
  hidden.sort((a, b) => a[0] - b[0]);
  const at = (t: number): Point => [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
  const pieces: [Point, Point][] = [];
  let free = 0;
  for (const [start, end] of hidden) {
    if (start > free + 1e-6) pieces.push([at(free), at(start)]);
    free = Math.max(free, end);
  }
  if (free < 1 - 1e-6) pieces.push([at(free), at(1)]);
  return pieces;
}

/** The part of a segment inside a rectangle, as fractions of the segment; its rim hides nothing. */
function hiddenPart(from: Point, to: Point, cover: Cover): [number, number] | null {
  const inset = 0.05;
  let [start, end] = [0, 1];
  const slabs = [
    [from[0], to[0] - from[0], cover.left + inset, cover.right - inset],
    [from[1], to[1] - from[1], cover.top + inset, cover.bottom - inset],
  ] as const;
  for (const [p, d, low, high] of slabs) {
    if (Math.abs(d) < 1e-9) {
      if (p <= low || p >= high) return null;
      continue;
    }
    const a = (low - p) / d;
    const b = (high - p) / d;
    start = Math.max(start, Math.min(a, b));
    end = Math.min(end, Math.max(a, b));
  }
  return start < end ? [start, end] : null;
}
