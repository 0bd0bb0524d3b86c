import type { Touch } from "../checks/check.ts";
import type { EpochModes } from "./mode-history.ts";
import type { Observation } from "./observations.ts";

/** Readings nearer to one another than this touch the same spot of a surface, mm. */
const SAME_PLACE_MM = 15;

/** A spot of a surface whose shape is not the model's smooth one: a lasting residual N(0, sd²), mm. */
export interface Place {
  readonly key: string;
  readonly sd: number;
  readonly surface: string;
  readonly x: number;
  readonly y: number;
  readonly touchedBy: readonly { readonly observation: number; readonly weight: number }[];
}

/**
 * Rails, beds and beams are not parabolas. Every spot that is touched has a residual of its own, r = 0.02·max(½, D/500) mm
 * with D the longest distance between stations of the run that touched it first (common practice, no source); reading it
 * again does not draw it anew, a new surface does.
 *
 * @param before places that earlier observations touched: touched again, they are the same places
 * @returns places that `observations` touch, touched by these alone
 */
export function placesTouched(
  observations: readonly Observation[],
  modes: readonly EpochModes[],
  before: readonly Place[] = [],
): readonly Place[] {
  type Draft = Place & { touchedBy: { observation: number; weight: number }[] };
  const bySurface = new Map<string, Draft[]>();
  const placesOf = (surface: string) => {
    const places = bySurface.get(surface) ?? [];
    bySurface.set(surface, places);
    return places;
  };
  for (const place of before) placesOf(place.surface).push({ ...place, touchedBy: [] });
  const sizes = runSizes(observations);
  observations.forEach((observation, index) => {
    const { check, setup, station, run } = observation;
    for (const touch of check.touches?.(setup, station) ?? []) {
      const surface = surfaceName(observation, touch, modes);
      const places = placesOf(surface);
      let place = places.find((p) => Math.hypot(p.x - touch.x, p.y - touch.y) <= SAME_PLACE_MM);
      if (!place) {
        const sd = 0.02 * Math.max(0.5, (sizes.get(run.id) as number) / 500);
        place = { key: `${surface} ${places.length + 1}`, sd, surface, x: touch.x, y: touch.y, touchedBy: [] };
        places.push(place);
      }
      place.touchedBy.push({ observation: index, weight: touch.weight });
    }
  });
  return [...bySurface.values()].flat().filter(({ touchedBy }) => touchedBy.length > 0);
}

function surfaceName(observation: Observation, touch: Touch, modes: readonly EpochModes[]): string {
  const { run, check, epoch } = observation;
  if (touch.surface === "edge") {
    const role = check.roles[0];
    return `edge of ${run.objects[role] ?? run.id} in ${check.id}`;
  }
  // A skim takes bed and print together; rails keep their shape.
  return touch.surface === "rails" ? "rails" : `${touch.surface}, surface ${modes[epoch].bedSurface}`;
}

function runSizes(observations: readonly Observation[]): ReadonlyMap<string, number> {
  const places = new Map<string, (readonly [number, number, number])[]>();
  for (const { run, station } of observations) {
    const list = places.get(run.id) ?? [];
    list.push(station.at, ...(station.to ? [station.to] : []));
    places.set(run.id, list);
  }
  return new Map([...places].map(([id, list]) => [id, diameter(list)]));
}

function diameter(list: readonly (readonly [number, number, number])[]): number {
  // Hundreds of stations are on one grid: its bounding box is as good as the farthest pair.
  const span = [0, 1, 2].map((axis) => {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const place of list) {
      low = Math.min(low, place[axis]);
      high = Math.max(high, place[axis]);
    }
    return high - low;
  });
  return Math.hypot(...span);
}
