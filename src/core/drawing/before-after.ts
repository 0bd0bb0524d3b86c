import { formatNumber } from "../base/number-format.ts";
import { type FigureUse, figure } from "./figure.ts";
import { statusShapes, type Verdict } from "./interval-bar.ts";
import { fittedText, lettering, textWidth } from "./lettering.ts";
import { arrowhead, circle, line, type Point } from "./lines.ts";
import { element, moved, numberText, type Svg } from "./svg.ts";

/** One demand before and after a move; never negative, in the demand's unit. */
export interface BeforeAfterRow {
  readonly title: string;
  readonly unit: string;
  readonly limit: number;
  readonly before: number;
  readonly after: number;
  /** Verdict to be expected afterwards. */
  readonly verdict: Verdict;
}

/** What stands over the two columns. */
export interface BeforeAfterHeads {
  readonly title: string;
  readonly before: string;
  readonly after: string;
}

const WIDTH = 358;
const TOP = 26;
const ROW = 46;
const BAR = { left: 10, width: 118 } as const;
const COLUMNS = { before: 176, after: 232, verdict: 240 } as const;
// The limit stands at the same place in all rows; the bar reaches a little more than two limits.
const REACH = 2.2;

/** What a move brings: a hollow ring before, a filled one after, on a bar with its limit; numbers beside it. */
export function beforeAfterDrawing(
  rows: readonly BeforeAfterRow[],
  use: FigureUse = "file",
  heads: BeforeAfterHeads = { title: "What it brings", before: "now", after: "then" },
): Svg {
  const height = TOP + rows.length * ROW + 6;
  const limitAt = placeOf(1);
  const body = [
    lettering("limit", [limitAt, 18], { anchor: "middle", second: true }),
    lettering(heads.before, [COLUMNS.before, 18], { anchor: "end", second: true }),
    lettering(heads.after, [COLUMNS.after, 18], { anchor: "end", second: true }),
    rows.map((row, i) => rowShapes(row, TOP + i * ROW)).join(""),
  ].join("");
  const words = {
    title: heads.title,
    description: rows.map(sentenceOfRow).join(" "),
  };
  return figure(WIDTH, height, words, body, use);
}

function rowShapes(row: BeforeAfterRow, top: number): Svg {
  const y = top + 32;
  const base = y + 4.5;
  const [before, after] = textsOf(row);
  const limit = `at most ${limitText(row)}`;
  return [
    line("hair", [0, top], [WIDTH, top]),
    lettering(fittedText(row.title, WIDTH - 32 - textWidth(limit)), [BAR.left, top + 17]),
    lettering(limit, [WIDTH - 10, top + 17], { anchor: "end", second: true }),
    bar(row, y),
    lettering(before, [COLUMNS.before, base], { anchor: "end", second: true }),
    smallArrow([COLUMNS.before + 6, y], [COLUMNS.before + 22, y]),
    lettering(after, [COLUMNS.after, base], { anchor: "end", weight: "medium" }),
    moved(COLUMNS.verdict, y - 8, statusShapes(row.verdict)),
    lettering(row.verdict, [COLUMNS.verdict + 32, base]),
  ].join("");
}

function bar({ limit, before, after }: BeforeAfterRow, y: number): Svg {
  const [from, to] = [placeOf(before / limit), placeOf(after / limit)];
  const way = Math.sign(to - from);
  return [
    line("thin", [BAR.left, y], [BAR.left + BAR.width, y]),
    line("centre", [BAR.left, y - 9], [BAR.left, y + 9]),
    line("wide", [placeOf(1), y - 9], [placeOf(1), y + 9]),
    Math.abs(to - from) > 16 ? line("wide", [from + way * 5, y], [to - way * 5, y]) : "",
    before / limit > REACH ? beyond(y) : circle("wide", [from, y], 5, "solid"),
    after / limit > REACH
      ? beyond(y)
      : element("circle", { class: "ink", cx: to, cy: y, r: after === before ? 2.5 : 5 }),
  ].join("");
}

/** An open arrow at the bar's end: the value lies farther out. */
function beyond(y: number): Svg {
  const x = BAR.left + BAR.width;
  return element("path", {
    class: "wide",
    d: `M${numberText(x - 6)} ${numberText(y - 5)}L${numberText(x)} ${numberText(y)}L${numberText(x - 6)} ${numberText(y + 5)}`,
  });
}

function smallArrow(from: Point, to: Point): Svg {
  return line("thin", from, to) + arrowhead(from, to);
}

function placeOf(share: number): number {
  return BAR.left + (BAR.width / REACH) * Math.min(share, REACH);
}

function textsOf(row: BeforeAfterRow): readonly [before: string, after: string] {
  return [formatNumber(row.before, 2), formatNumber(row.after, 2)];
}

function limitText(row: BeforeAfterRow): string {
  return formatNumber(row.limit, 2);
}

function sentenceOfRow(row: BeforeAfterRow): string {
  const [before, after] = textsOf(row);
  return `${row.title}: ${before} before, ${after} after, limit ${limitText(row)} ${row.unit}: ${row.verdict}.`;
}
