import { formatNumber } from "../base/number-format.ts";
import { type FigureUse, figure } from "./figure.ts";
import { fittedText, lettering, textWidth } from "./lettering.ts";
import { arrowhead, line } from "./lines.ts";
import { element, numberText, type Svg } from "./svg.ts";

/** A finding at one time; all values in the finding's unit. */
export interface PlottedEpoch {
  /** Days since a common beginning. */
  readonly day: number;
  /** ISO 8601 date, as it is written under the plot. */
  readonly date: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface PlottedEvent {
  readonly day: number;
  readonly kind: "move" | "knock";
  readonly words: string;
}

export interface FindingHistory {
  readonly title: string;
  readonly unit: string;
  readonly epochs: readonly PlottedEpoch[];
  readonly events: readonly PlottedEvent[];
  readonly limit: { readonly size: number; readonly sides: "both" | "one" } | null;
}

const WIDTH = 680;
const LEFT = 76;
const RIGHT = WIDTH - 20;
const TOP = 66;
const BOTTOM = 236;

/** A finding over time: its intervals, its limit, and what happened to the machine between them. */
export function historyPlot(history: FindingHistory, use: FigureUse = "file"): Svg {
  const { epochs, events, limit } = history;
  const days = [...epochs.map(({ day }) => day), ...events.map(({ day }) => day)];
  const first = Math.min(...days);
  const last = Math.max(...days, first + 1);
  const x = (day: number) => LEFT + 24 + ((day - first) / (last - first)) * (RIGHT - LEFT - 64);
  const limits = limit ? (limit.sides === "both" ? [-limit.size, limit.size] : [limit.size]) : [];
  const values = [0, ...limits, ...epochs.flatMap(({ low, high }) => [low, high])];
  const [lowest, highest] = [Math.min(...values), Math.max(...values)];
  const span = highest - lowest || 1;
  const y = (value: number) => BOTTOM - 8 - ((value - lowest) / span) * (BOTTOM - TOP - 16);
  const ticks = [...new Set([0, ...limits])];
  const decimals = limit && limit.size < 1 ? 2 : 1;
  const body = [
    ...limits.map((value) => line("thin", [LEFT, y(value)], [RIGHT, y(value)])),
    line("centre", [LEFT, y(0)], [RIGHT, y(0)]),
    ...ticks.map((value) =>
      lettering(
        formatNumber(value, value === 0 ? 0 : decimals, limit?.sides === "both" ? "always" : "when negative"),
        [LEFT - 8, y(value) + 4.5],
        { anchor: "end", second: true },
      ),
    ),
    lettering(history.unit, [LEFT - 8, TOP - 6], { anchor: "end", second: true }),
    ...eventMarks(events, x),
    ...epochs.map(({ day, value, low, high }) => {
      const at = x(day);
      return (
        line("wide", [at, y(low)], [at, y(high)]) +
        line("wide", [at - 5, y(low)], [at + 5, y(low)]) +
        line("wide", [at - 5, y(high)], [at + 5, y(high)]) +
        element("circle", { class: "ink", cx: at, cy: y(value), r: 4.5 })
      );
    }),
    ...dates(epochs, x),
  ].join("");
  const told = epochs.map(
    ({ date, value, low, high }) =>
      `${date}: ${formatNumber(value, 2)}, from ${formatNumber(low, 2)} to ${formatNumber(high, 2)}.`,
  );
  const happened = events.map(({ kind, words }) => `${kind === "move" ? "Move" : "Knock"}: ${words}.`);
  const description = [`In ${history.unit}.`, ...told, ...happened].join(" ");
  return figure(WIDTH, 268, { title: history.title, description }, body, use);
}

/**
 * Moves are wide lines with an arrow, knocks a zigzag; their words stand beside the top of the line, on the side where
 * there is room and on whichever row is free, on paper of their own: no line crosses them.
 */
function eventMarks(events: readonly PlottedEvent[], x: (day: number) => number): readonly Svg[] {
  const rows: (readonly [left: number, right: number])[][] = [[], [], []];
  const placed = [...events]
    .sort((a, b) => a.day - b.day)
    .map((event) => {
      const at = x(event.day);
      const name = `${event.kind}: ${event.words}`;
      const toTheLeft = textWidth(name) > RIGHT - at - 8 && at - LEFT > RIGHT - at;
      const text = fittedText(name, (toTheLeft ? at - LEFT : RIGHT - at) - 8);
      const wide = textWidth(text);
      const left = toTheLeft ? at - 6 - wide : at + 6;
      const isFree = (taken: (typeof rows)[number]) =>
        taken.every(([from, to]) => left + wide + 6 < from || to < left - 6);
      const row = Math.max(0, rows.findIndex(isFree));
      rows[row].push([left, left + wide]);
      return { event, at, text, left, wide, top: 16 + row * 17 };
    });
  const marks = placed.map(({ event, at, top }) =>
    event.kind === "move"
      ? line("limit", [at, top - 10], [at, BOTTOM]) + arrowhead([at, BOTTOM - 20], [at, BOTTOM])
      : line(
          "thin",
          [at, top - 10],
          [at, TOP + 40],
          [at - 4, TOP + 46],
          [at + 4, TOP + 52],
          [at, TOP + 58],
          [at, BOTTOM],
        ),
  );
  const names = placed.map(({ text, left, wide, top }) => {
    const paper = `M${numberText(left - 2)} ${numberText(top - 12)}h${numberText(wide + 4)}v16h${numberText(-wide - 4)}z`;
    return element("path", { class: "paper", d: paper }) + lettering(text, [left, top]);
  });
  return [...marks, ...names];
}

/** Dates under the epochs, as many as find room. */
function dates(epochs: readonly PlottedEpoch[], x: (day: number) => number): readonly Svg[] {
  let end = Number.NEGATIVE_INFINITY;
  return epochs.map(({ day, date }) => {
    const half = textWidth(date) / 2;
    const at = Math.max(LEFT + half - 40, Math.min(x(day), WIDTH - 4 - half));
    const tick = line("thin", [x(day), BOTTOM], [x(day), BOTTOM + 6]);
    if (at - half < end + 10) return tick;
    end = at + half;
    return tick + lettering(date, [at, BOTTOM + 22], { anchor: "middle", second: true });
  });
}
