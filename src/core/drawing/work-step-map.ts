import { formatNumber } from "../base/number-format.ts";
import type { StepMap } from "../work/pictures/depth-map.ts";
import type { PlanPlace } from "../work/pictures/work-place.ts";
import { lettering, textWidth } from "./lettering.ts";
import { line, outline, type Point, pathText, rectangle } from "./lines.ts";
import type { Box } from "./mark-places.ts";
import { element, type Svg } from "./svg.ts";

/** Room about the frame of a map for the values of its contours. */
export const labelRoom = { side: 48, above: 22, below: 28 } as const;

/** Ink of one step: more ink on the paper is further up the steps, in light and dark. */
const INK = 0.08;

/** The lowest step of all the maps that are to be compared: it stays paper. */
export function lowestBand(maps: readonly StepMap[]): number {
  return Math.min(...maps.map(({ bands }) => bands[0].index));
}

/** A map in equal steps within its frame, its contours' values outside where they leave it. */
export function stepMapShapes(map: StepMap, at: (place: PlanPlace) => Point, frame: Box, lowest: number): Svg {
  const { left, top, right, bottom } = frame;
  // What lies under the first level of this map may be ink already in another.
  const under = map.bands[0].index - lowest;
  return [
    under > 0 ? inked(rectangle(left, top, right, bottom), under) : "",
    ...map.levels.map(({ regions }) =>
      element("path", {
        class: "ink",
        "fill-opacity": INK,
        d: regions.map((region) => `${pathText(region.map(at))}z`).join(""),
      }),
    ),
    ...map.levels.flatMap(({ level, lines }) =>
      lines.map((points) => line(isNothing(level, map) ? "wide" : "thin", ...points.map(at))),
    ),
    outline("wide", rectangle(left, top, right, bottom)),
    labels(map, at, frame),
  ].join("");
}

/** Bars of the area's shares, each in the ink of its step, with the depths where one step meets the next. */
export function bandHistogram({ bands, step }: StepMap, [left, top]: Point, width: number, lowest: number): Svg {
  const bar = Math.min(44, width / bands.length);
  const start = left + (width - bar * bands.length) / 2;
  const base = top + BAR_HEIGHT + 16;
  const most = Math.max(...bands.map(({ share }) => share));
  const decimals = decimalsOf(step);
  const every = Math.ceil((textWidth(formatNumber(-step, decimals, "always")) + 12) / bar);
  const bars = bands.map(({ index, share }, i) => {
    const high = (share / most) * BAR_HEIGHT;
    const box = rectangle(start + i * bar, base - high, start + (i + 1) * bar, base);
    const percent = formatNumber(100 * share, 0);
    return (
      inked(box, index - lowest) +
      outline("thin", box) +
      (bar >= 30 && share >= 0.005
        ? lettering(`${percent} %`, [start + (i + 0.5) * bar, base - high - 4], { anchor: "middle", second: true })
        : "")
    );
  });
  const edges = Array.from({ length: bands.length + 1 }, (_, i) => ({ i, index: bands[0].index + i })).filter(
    ({ index }) => index % every === 0,
  );
  const values = edges.map(({ i, index }) => {
    const x = start + i * bar;
    return (
      line("thin", [x, base], [x, base + 4]) +
      lettering(levelText(index * step, decimals), [x, base + 17], { anchor: "middle" })
    );
  });
  return bars.join("") + line("thin", [start, base], [start + bar * bands.length, base]) + values.join("");
}

const BAR_HEIGHT = 40;
export const histogramHeight = BAR_HEIGHT + 16 + 20;

/** As much ink as so many regions over one another would give. */
function inked(box: readonly Point[], steps: number): Svg {
  if (steps <= 0) return "";
  const opacity = 1 - (1 - INK) ** steps;
  return element("path", { class: "ink", "fill-opacity": opacity, d: `${pathText(box)}z` });
}

interface Label {
  readonly text: string;
  readonly at: Point;
  readonly anchor: "start" | "middle" | "end";
}

/** Every level once at every side that it reaches, as far as there is room for its value. */
function labels(map: StepMap, at: (place: PlanPlace) => Point, frame: Box): Svg {
  const decimals = decimalsOf(map.step);
  const wanted = map.levels.flatMap(({ level, lines }) =>
    lines
      .flatMap((points) => [points[0], points[points.length - 1]].map(at))
      .map((end) => labelAt(levelText(level, decimals), end, frame)),
  );
  const taken: Box[] = [];
  return wanted
    .filter((label): label is Label => label !== null)
    .flatMap((label) => {
      const box = boxOf(label);
      if (taken.some((other) => meet(box, other))) return [];
      taken.push(box);
      return [lettering(label.text, label.at, { anchor: label.anchor, second: true })];
    })
    .join("");
}

/** Null for an end inside the frame: a closed contour has none at its edge. */
function labelAt(text: string, [x, y]: Point, { left, top, right, bottom }: Box): Label | null {
  const near = 0.5;
  if (Math.abs(y - bottom) < near) return { text, at: [x, bottom + 19], anchor: "middle" };
  if (Math.abs(y - top) < near) return { text, at: [x, top - 9], anchor: "middle" };
  if (Math.abs(x - left) < near) return { text, at: [left - 9, y + 4.5], anchor: "end" };
  if (Math.abs(x - right) < near) return { text, at: [right + 9, y + 4.5], anchor: "start" };
  return null;
}

function boxOf({ text, at: [x, y], anchor }: Label): Box {
  const width = textWidth(text);
  const before = anchor === "start" ? 0 : anchor === "middle" ? width / 2 : width;
  const air = 4;
  return { left: x - before - air, right: x - before + width + air, top: y - 11, bottom: y + 4 };
}

function meet(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

function isNothing(level: number, { step }: StepMap): boolean {
  return Math.abs(level) < step / 1000;
}

/** Nothing is 0, whatever the step. */
function levelText(level: number, decimals: number): string {
  const text = formatNumber(level, decimals, "always");
  return /[1-9]/.test(text) ? text : "0";
}

function decimalsOf(step: number): number {
  return Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
}
