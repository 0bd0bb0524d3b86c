import { formatTrimmed } from "../base/number-format.ts";
import { type DemandInterval, showDemand } from "../work/shown-demand.ts";
import { type FigureUse, figure } from "./figure.ts";
import { statusShapes, type Verdict } from "./interval-bar.ts";
import { fittedText, lettering, textWidth } from "./lettering.ts";
import { circle, line } from "./lines.ts";
import { element, moved, numberText, type Svg } from "./svg.ts";

/** One demand before and after a move; never negative, in the demand's unit. */
export interface BeforeAfterRow {
  readonly title: string;
  readonly unit: string;
  readonly limit: number;
  readonly before: DemandInterval;
  readonly after: DemandInterval;
  /** Verdict to be expected afterwards. */
  readonly verdict: Verdict;
}

/** What stands over the drawing, and what the two lines of a row are called. */
export interface BeforeAfterHeads {
  readonly title: string;
  readonly before: string;
  readonly after: string;
}

const WIDTH = 358;
const TOP = 24;
const ROW = 66;
const BAR = { left: 10, width: 104 } as const;
const COLUMNS = { name: 122, value: 198, interval: 206, limit: WIDTH - 10 } as const;
/** Of the verdict: its mark and the room behind it. */
const MARK = 34;
/** From a row's top: its title, and its two lines with their numbers. */
const LINES = { title: 17, before: 37, after: 55 } as const;
// The limit stands at the same place in all rows; the bar reaches a little more than two limits.
const REACH = 2.2;

/**
 * What a move brings: a line each for before and after, on one scale with the limit across both. A hollow ring is what it
 * was, a filled one what it will be, a thin line where it lies in 95 of 100 cases; the numbers stand beside them.
 */
export function beforeAfterDrawing(
  rows: readonly BeforeAfterRow[],
  use: FigureUse = "file",
  heads: BeforeAfterHeads = { title: "What it brings", before: "now", after: "then" },
): Svg {
  const height = TOP + rows.length * ROW + 6;
  const body = [
    lettering("limit", [placeOf(1), 16], { anchor: "middle", second: true }),
    lettering("95 of 100 cases", [COLUMNS.interval, 16], { second: true }),
    rows.map((row, i) => rowShapes(row, TOP + i * ROW, heads)).join(""),
  ].join("");
  const words = {
    title: heads.title,
    description: rows.map((row) => sentenceOfRow(row, heads)).join(" "),
  };
  return figure(WIDTH, height, words, body, use);
}

function rowShapes(row: BeforeAfterRow, top: number, heads: BeforeAfterHeads): Svg {
  const [before, after] = [showDemand(row.before), showDemand(row.after)];
  const verdictWide = MARK + textWidth(row.verdict);
  const verdictAt = WIDTH - 10 - verdictWide;
  const base = (y: number) => top + y;
  const end = { anchor: "end" } as const;
  return [
    line("hair", [0, top], [WIDTH, top]),
    lettering(fittedText(row.title, verdictAt - BAR.left - 8), [BAR.left, base(LINES.title)]),
    moved(verdictAt, base(LINES.title) - 12, statusShapes(row.verdict)),
    lettering(row.verdict, [verdictAt + MARK, base(LINES.title)]),
    bar(row, top),
    lettering(heads.before, [COLUMNS.name, base(LINES.before)], { second: true }),
    lettering(before.value, [COLUMNS.value, base(LINES.before)], end),
    lettering(before.interval, [COLUMNS.interval, base(LINES.before)], { second: true }),
    lettering("at most", [COLUMNS.limit, base(LINES.before)], { ...end, second: true }),
    lettering(heads.after, [COLUMNS.name, base(LINES.after)], { second: true }),
    lettering(after.value, [COLUMNS.value, base(LINES.after)], { ...end, weight: "medium" }),
    lettering(after.interval, [COLUMNS.interval, base(LINES.after)], { second: true }),
    lettering(limitText(row), [COLUMNS.limit, base(LINES.after)], { ...end, second: true }),
  ].join("");
}

/** Two lines on one scale: before with a hollow ring, after with a filled one. */
function bar({ limit, before, after }: BeforeAfterRow, top: number): Svg {
  const [first, last] = [top + LINES.before - 4.5, top + LINES.after - 4.5];
  return [
    line("centre", [BAR.left, first - 7], [BAR.left, last + 7]),
    line("wide", [placeOf(1), first - 7], [placeOf(1), last + 7]),
    track(before, limit, first, false),
    track(after, limit, last, true),
  ].join("");
}

function track({ low, median, high }: DemandInterval, limit: number, y: number, filled: boolean): Svg {
  const [from, to, at] = [low, high, median].map((value) => placeOf(value / limit));
  const tick = (x: number) => line("thin", [x, y - 3.5], [x, y + 3.5]);
  return [
    line("hair", [BAR.left, y], [BAR.left + BAR.width, y]),
    line("thin", [from, y], [to, y]),
    tick(from),
    high / limit > REACH ? beyond(y) : tick(to),
    median / limit > REACH
      ? ""
      : filled
        ? element("circle", { class: "ink", cx: at, cy: y, r: 4.5 })
        : circle("wide", [at, y], 4.5, "solid"),
  ].join("");
}

/** An open arrow at the bar's end: it lies farther out. */
function beyond(y: number): Svg {
  const x = BAR.left + BAR.width;
  return element("path", {
    class: "wide",
    d: `M${numberText(x - 6)} ${numberText(y - 5)}L${numberText(x)} ${numberText(y)}L${numberText(x - 6)} ${numberText(y + 5)}`,
  });
}

function placeOf(share: number): number {
  return BAR.left + (BAR.width / REACH) * Math.min(share, REACH);
}

function limitText({ limit, unit }: BeforeAfterRow): string {
  return `${formatTrimmed(limit, 3)} ${unit}`;
}

function sentenceOfRow(row: BeforeAfterRow, heads: BeforeAfterHeads): string {
  const told = (interval: DemandInterval) => `${showDemand(interval).whole} ${row.unit}`;
  return `${row.title}: ${heads.before} ${told(row.before)}, ${heads.after} ${told(row.after)}, at most ${limitText(row)}: ${row.verdict}.`;
}
