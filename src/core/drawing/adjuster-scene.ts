import type { Point } from "./lines.ts";
import type { CarriedBy, Part, Place } from "./machine-parts.ts";
import type { ViewName } from "./projection.ts";

/** One part of a close view. */
export interface ScenePart {
  readonly part: Part;
  readonly line: "thin" | "wide" | "hidden-wide";
  /** Drawn once more where it is to go. */
  readonly moves: boolean;
}

/** A line along which a leaf is pushed in, mm. */
export type LeafLine = readonly [from: Place, to: Place];

export interface PartLabel {
  readonly text: string;
  readonly at: Place;
  readonly away?: Point;
}

/** The close view of one joint: what it shows, from where, and where its marks find room. */
export interface AdjusterScene {
  readonly view: ViewName;
  /** Corners of what is shown, mm across and up the view; the drawing shows more where it has room. */
  readonly low: Point;
  readonly high: Point;
  /** Far parts first. */
  readonly parts: readonly ScenePart[];
  /** Where leaves go in, by place; a stack is drawn as lines beside one another towards `leavesGrow`. */
  readonly leafLines?: Readonly<Partial<Record<"only" | "top" | "bottom", LeafLine>>>;
  readonly slots?: boolean;
  /** From a screw's head to its mark, px: where heads stand too close or are seen from the side. */
  marksAway(head: Place): Point;
  /** Names of parts: where each stands, mm, and how far from there its name is written, px; without a way, on the spot. */
  readonly names: readonly PartLabel[];
  /** From the place that is watched to where its arrow starts, px. */
  readonly arrowAway: Point;
  /** What carries the place that stays, where it is not what moves. */
  readonly heldBy?: CarriedBy;
}

export function thin(part: Part): ScenePart {
  return { part, line: "thin", moves: false };
}

export function moving(part: Part): ScenePart {
  return { part, line: "wide", moves: true };
}
