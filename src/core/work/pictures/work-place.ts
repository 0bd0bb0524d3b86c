import { type Diagnostic, refusal } from "../../base/diagnostic.ts";
import type { Dimensions } from "../../machine/dimensions.ts";

/** A place in the plane of the bed, work frame, mm. */
export interface PlanPlace {
  readonly x: number;
  readonly y: number;
}

export function middleOfTravel(d: Dimensions): PlanPlace {
  return { x: d.Lx / 2, y: d.Ly / 2 };
}

/** How long something may be along both axes with its middle at the place and all of it within the travel. */
export function roomAbout(d: Dimensions, { x, y }: PlanPlace): { readonly alongX: number; readonly alongY: number } {
  return { alongX: Math.max(0, 2 * Math.min(x, d.Lx - x)), alongY: Math.max(0, 2 * Math.min(y, d.Ly - y)) };
}

/** The usual length where it fits, otherwise as much of the room as makes a round number. */
export function usualWithin(usual: number, room: number): number {
  if (usual <= room) return usual;
  const step = room >= 100 ? 10 : room >= 20 ? 5 : 1;
  return Math.max(Math.floor(room / step) * step, Math.min(room, 1));
}

/** What a picture is asked for along one axis. */
export interface Asked {
  /** Name of the size, as the request calls it. */
  readonly field: string;
  readonly value: number;
  readonly from: number;
  readonly to: number;
  readonly unit: "mm" | "°";
}

/** A refusal for every size that is no number or not between its ends. */
export function sizeProblems(asked: readonly Asked[]): readonly Diagnostic[] {
  return asked
    .filter(({ value, from, to }) => !(value >= from && value <= to))
    .map(({ field, value, from, to, unit }) =>
      refusal(
        "work-size-outside",
        { field },
        { field, value: rounded(value), from: rounded(from), to: rounded(to), unit },
      ),
    );
}

/** A refusal for every axis along which the work with this middle reaches out of the travel. */
export function reachProblems(d: Dimensions, place: PlanPlace, alongX: number, alongY: number): readonly Diagnostic[] {
  const axes = [
    { axis: "X", middle: place.x, length: alongX, travel: d.Lx },
    { axis: "Y", middle: place.y, length: alongY, travel: d.Ly },
  ];
  return axes
    .map((given) => ({ ...given, from: given.middle - given.length / 2, to: given.middle + given.length / 2 }))
    .filter(({ from, to, travel }) => !(from >= -slack && to <= travel + slack))
    .map(({ axis, from, to, travel }) =>
      refusal(
        "work-beyond-travel",
        { field: "place" },
        { axis, from: rounded(from), to: rounded(to), travel: rounded(travel) },
      ),
    );
}

// A size that is just as long as the room is not refused for a rounding.
const slack = 1e-6;

function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}
