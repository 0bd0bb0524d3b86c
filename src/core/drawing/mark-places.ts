import { dot, line, type Point } from "./lines.ts";
import { ringRadius, type StationState, stationRing } from "./marks.ts";
import type { Svg } from "./svg.ts";

/** One station to be marked: where it is on the sheet, and its number. */
export interface StationMark {
  readonly at: Point;
  readonly number: number | string;
  readonly state: StationState;
}

type DrawnMark = (at: Point, number: number | string, state: StationState) => Svg;

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

interface Cluster {
  readonly at: Point;
  readonly marks: readonly StationMark[];
  readonly width: number;
}

const PITCH = 2 * ringRadius + 2;

/**
 * Rings at their stations where there is room. Stations at one place stand in a row beside it; where rings would cover
 * one another or something that must stay readable (`taken`), they step aside and a leader with a dot shows the place.
 * `draw` may put other marks of the same size in their place.
 */
export function stationMarks(
  marks: readonly StationMark[],
  bounds: Box,
  taken: readonly Box[] = [],
  draw: DrawnMark = stationRing,
): Svg {
  const clusters = clustersOf(marks);
  const boxes: Box[] = [...taken];
  const leaders: Svg[] = [];
  const rings: Svg[] = [];
  // Single stations have the first claim to their own place; rows are looked for afterwards.
  const order = [...clusters].sort((a, b) => a.marks.length - b.marks.length);
  for (const cluster of order) {
    const centre = freePlace(cluster, bounds, boxes, clusters);
    boxes.push(boxAround(centre, cluster.width, rowsOf(cluster) * PITCH));
    const [cx, cy] = centre;
    if (cx !== cluster.at[0] || cy !== cluster.at[1] || cluster.marks.length > 1) {
      leaders.push(line("thin", nearestOf(cluster, centre), cluster.at), dot(cluster.at));
    }
    cluster.marks.forEach(({ number, state }, i) => {
      const [column, row] = [i % MOST_IN_A_ROW, Math.floor(i / MOST_IN_A_ROW)];
      const x = cx - cluster.width / 2 + PITCH / 2 + column * PITCH;
      const y = cy + row * PITCH - ((rowsOf(cluster) - 1) * PITCH) / 2;
      rings.push(draw([x, y], number, state));
    });
  }
  return leaders.join("") + rings.join("");
}

export function overlaps(a: Box, b: Box, gap = 0): boolean {
  return a.left < b.right + gap && b.left < a.right + gap && a.top < b.bottom + gap && b.top < a.bottom + gap;
}

const MOST_IN_A_ROW = 5;

function rowsOf(cluster: Pick<Cluster, "marks">): number {
  return Math.ceil(cluster.marks.length / MOST_IN_A_ROW);
}

function clustersOf(marks: readonly StationMark[]): readonly Cluster[] {
  const clusters: { at: Point; marks: StationMark[] }[] = [];
  for (const mark of marks) {
    const same = clusters.find(({ at }) => Math.hypot(at[0] - mark.at[0], at[1] - mark.at[1]) < 3);
    if (same) same.marks.push(mark);
    else clusters.push({ at: mark.at, marks: [mark] });
  }
  return clusters.map((cluster) => ({
    ...cluster,
    width: PITCH * Math.min(MOST_IN_A_ROW, cluster.marks.length),
  }));
}

function freePlace(cluster: Cluster, bounds: Box, boxes: readonly Box[], all: readonly Cluster[]): Point {
  const single = cluster.marks.length === 1;
  const height = rowsOf(cluster) * PITCH;
  const others = all
    .filter((other) => other !== cluster)
    .map(({ at }) => ({ left: at[0] - 3, right: at[0] + 3, top: at[1] - 3, bottom: at[1] + 3 }));
  let best: { place: Point; cost: number } | null = null;
  for (const place of candidates(cluster.at, cluster.width, height, single)) {
    const box = boxAround(place, cluster.width, height);
    if (box.left < bounds.left || box.right > bounds.right || box.top < bounds.top || box.bottom > bounds.bottom)
      continue;
    if (boxes.some((other) => overlaps(box, other, 1))) continue;
    const hidden = others.filter((other) => overlaps(box, other)).length;
    const cost = Math.hypot(place[0] - cluster.at[0], place[1] - cluster.at[1]) + 40 * hidden;
    if (best === null || cost < best.cost) best = { place, cost };
  }
  return best?.place ?? cluster.at;
}

/** The place itself, then rings of places round it. */
function candidates([x, y]: Point, width: number, height: number, single: boolean): readonly Point[] {
  const places: Point[] = single ? [[x, y]] : [];
  for (let away = 8; away <= 160; away += 6) {
    for (let degrees = 0; degrees < 360; degrees += 15) {
      const angle = (degrees * Math.PI) / 180;
      places.push([x + Math.cos(angle) * (away + width / 2), y - Math.sin(angle) * (away + height / 2)]);
    }
  }
  return places;
}

function boxAround([x, y]: Point, width: number, height: number): Box {
  return { left: x - width / 2, right: x + width / 2, top: y - height / 2, bottom: y + height / 2 };
}

/** The place on the cluster's rim from which its leader starts. */
function nearestOf(cluster: Cluster, [cx, cy]: Point): Point {
  const half = Math.max(0, cluster.width / 2 - PITCH / 2);
  const x = Math.min(Math.max(cluster.at[0], cx - half), cx + half);
  return [x, cy];
}
