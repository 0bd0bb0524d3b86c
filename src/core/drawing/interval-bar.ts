import { type FigureUse, figure } from "./figure.ts";
import { line, type Point } from "./lines.ts";
import { element, numberText, type Svg } from "./svg.ts";

export type Verdict = "within" | "out" | "not known yet";

/** A finding against its limit, all in one unit. */
export interface IntervalBar {
  readonly value: number;
  /** Ends of the 95 % interval. */
  readonly low: number;
  readonly high: number;
  /** "both": the value may go to either side by the limit. "one": it is never negative and at most the limit. */
  readonly limit: { readonly size: number; readonly sides: "both" | "one" };
  readonly verdict: Verdict;
}

export interface BarSize {
  readonly width: number;
  readonly height: number;
}

export const usualBarSize: BarSize = { width: 200, height: 32 };

/** The bar reaches this many limits to either side; what lies beyond ends in an open arrow. */
export const barReach = 2.2;

/** Where a value stands across the bar, px; limits of all bars stand at the same places. */
export function placeOnBar(value: number, limitSize: number, width: number): number {
  return (width / 2) * (1 + value / limitSize / barReach);
}

/** A finding's interval drawn to its own limit, so that bars can be compared down a list. */
export function intervalBar(
  bar: IntervalBar,
  words: string,
  size: BarSize = usualBarSize,
  use: FigureUse = "file",
): Svg {
  const description = `${words}: ${bar.verdict}. The limit is ${bar.limit.sides === "both" ? "on both sides of nothing" : "at most"}; the bar covers 95 cases of 100.`;
  return figure(
    size.width,
    size.height,
    { title: `${words}, ${bar.verdict}`, description },
    intervalBarShapes(bar, size),
    use,
  );
}

/** The same without a figure of its own, for a table that is drawn as a whole. */
export function intervalBarShapes(bar: IntervalBar, { width, height }: BarSize = usualBarSize): Svg {
  const y = height / 2;
  const at = (value: number) => placeOnBar(value, bar.limit.size, width);
  const edge = { left: 2, right: width - 2 };
  const inside = (x: number) => Math.min(Math.max(x, edge.left), edge.right);
  const limits = bar.limit.sides === "both" ? [-bar.limit.size, bar.limit.size] : [bar.limit.size];
  const kind = className(bar.verdict);
  return [
    line("centre", [width / 2, 0], [width / 2, height]),
    ...limits.map((limit) => line("thin", [at(limit), 0], [at(limit), height])),
    intervalLine([inside(at(bar.low)), y], [inside(at(bar.high)), y], {
      kind,
      beyondLeft: at(bar.low) < edge.left,
      beyondRight: at(bar.high) > edge.right,
    }),
    symbol(bar.verdict, [Math.min(Math.max(at(bar.value), edge.left + 14), edge.right - 14), y]),
  ].join("");
}

/** The verdict's sign, 28 × 16: a small copy of the bar. Its word always stands beside it. */
export function statusSymbol(verdict: Verdict, use: FigureUse = "page"): Svg {
  return figure(28, 16, { title: verdict, description: statusWords[verdict] }, statusShapes(verdict), use);
}

export function statusShapes(verdict: Verdict): Svg {
  const ticks = line("wide", [5, 1], [5, 15]) + line("wide", [20, 1], [20, 15]);
  switch (verdict) {
    case "within":
      return ticks + symbol(verdict, [12.5, 8], 4);
    case "out":
      return ticks + symbol(verdict, [24, 8], 2.6);
    case "not known yet":
      return ticks + line("wide", [14, 8], [27, 8]) + symbol(verdict, [17, 8], 3.5);
  }
}

const statusWords: Readonly<Record<Verdict, string>> = {
  within: "A dot between the two ticks of the limit.",
  out: "A diamond beyond the tick of the limit.",
  "not known yet": "A hollow ring on a bar that crosses the tick of the limit.",
};

interface Ends {
  readonly kind: string;
  readonly beyondLeft: boolean;
  readonly beyondRight: boolean;
}

/** The interval with its ends: a tick where it ends, an open arrow where it goes on. */
function intervalLine([x0, y]: Point, [x1]: Point, { kind, beyondLeft, beyondRight }: Ends): Svg {
  const tick = (x: number) => `M${numberText(x)} ${numberText(y - 5)}V${numberText(y + 5)}`;
  const open = (x: number, way: 1 | -1) =>
    `M${numberText(x - way * 6)} ${numberText(y - 5)}L${numberText(x)} ${numberText(y)}L${numberText(x - way * 6)} ${numberText(y + 5)}`;
  const d = `M${numberText(x0)} ${numberText(y)}H${numberText(x1)}${beyondLeft ? open(x0, -1) : tick(x0)}${beyondRight ? open(x1, 1) : tick(x1)}`;
  return element("path", { class: `wide bare ${kind}`, d, fill: "none" });
}

/** Dot, diamond or hollow ring. */
function symbol(verdict: Verdict, [x, y]: Point, r = 5): Svg {
  const kind = className(verdict);
  if (verdict !== "out") return element("circle", { class: `wide ${kind}`, cx: x, cy: y, r });
  const d = `M${numberText(x - r - 1)} ${numberText(y)}L${numberText(x)} ${numberText(y - r - 1)}L${numberText(x + r + 1)} ${numberText(y)}L${numberText(x)} ${numberText(y + r + 1)}z`;
  return element("path", { class: kind, d });
}

function className(verdict: Verdict): "within" | "out" | "unknown" {
  return verdict === "not known yet" ? "unknown" : verdict;
}
