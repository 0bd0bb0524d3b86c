import { type FigureUse, figure } from "./figure.ts";
import { lettering, letteringLines, lineStep, textWidth, wrappedText } from "./lettering.ts";
import { line, wayArrow } from "./lines.ts";
import { moved, type Svg } from "./svg.ts";
import type { WorkRow } from "./work-rows.ts";
import { workTable } from "./work-table.ts";

/** "wide": 760 px, numbers beside the picture. "narrow": 358 px, under one another, for a phone. */
export type WorkShape = "wide" | "narrow";

/** One picture of the work, drawn from 0, 0. */
export interface WorkPanel {
  readonly body: Svg;
  readonly height: number;
  /** Whether what is not known is large enough to be drawn. */
  readonly hasMarks?: boolean;
  /** A part that finds room under the numbers where they stand beside the picture, and under the picture elsewhere. */
  readonly more?: WorkPanel;
}

/** What a figure of the work is put together from. */
export interface WorkFigure {
  readonly title: string;
  /** Beside the title: by how much what is drawn too large, or the step of a map. */
  readonly scaleInShort: string;
  readonly now: WorkPanel;
  readonly after: WorkPanel | null;
  readonly rows: readonly WorkRow[];
  /** What the lines mean, in sentences. */
  readonly caption: string;
  /** What the picture shows, for who cannot see it. */
  readonly shows: string;
}

export const workWidths = { wide: 760, narrow: 358 } as const;

/** Room about a figure that stands alone in a file. */
const EDGE = 16;
const GUTTER = 40;

/** What the marks of what is not known mean, or why there are none. */
export function knownInWords(panels: readonly (WorkPanel | null)[], marks: string, what: string): string {
  return panels.some((panel) => panel?.hasMarks)
    ? `${marks}: ${what} lies there in 95 of 100 cases.`
    : "How far it may be otherwise is too little to be drawn.";
}

/** How wide one picture may be. */
export function panelWidth(shape: WorkShape): number {
  return shape === "narrow" ? workWidths.narrow : (workWidths.wide - GUTTER) / 2;
}

export function workFigure(drawn: WorkFigure, shape: WorkShape, use: FigureUse): Svg {
  const width = workWidths[shape];
  const head = headOf(drawn, width);
  const laid = shape === "narrow" ? underOneAnother(drawn, head.height) : besideOneAnother(drawn, head.height);
  const captionTop = laid.bottom + 24;
  const lines = wrappedText(drawn.caption, width);
  const body = head.body + laid.body + letteringLines(lines, [0, captionTop], { second: true });
  const height = captionTop + (lines.length - 1) * lineStep() + 6;
  const words = { title: drawn.title, description: descriptionOf(drawn) };
  return use === "file"
    ? figure(width + 2 * EDGE, height + 2 * EDGE, words, moved(EDGE, EDGE, body), use)
    : figure(width, height, words, body, use);
}

function headOf({ title, scaleInShort }: WorkFigure, width: number): WorkPanel {
  const lines = wrappedText(title, width / 1.06, 17);
  const letters = letteringLines(lines, [0, 15], { size: 17, weight: "strong" });
  const under = 15 + (lines.length - 1) * lineStep(17);
  const isBeside = 1.06 * textWidth(lines[lines.length - 1], 17) + 16 + textWidth(scaleInShort) <= width;
  const base = isBeside ? under : under + 20;
  const scale = isBeside
    ? lettering(scaleInShort, [width, base], { anchor: "end", second: true })
    : lettering(scaleInShort, [0, base], { second: true });
  const rule = base + 11.5;
  return { body: letters + scale + line("thin", [0, rule], [width, rule]), height: rule };
}

interface Laid {
  readonly body: Svg;
  readonly bottom: number;
}

function besideOneAnother({ now, after, rows }: WorkFigure, top: number): Laid {
  const wide = panelWidth("wide");
  const second = wide + GUTTER;
  if (!after) {
    const table = workTable(rows, [second, top + 18], wide);
    const moreTop = top + 18 + table.height + 28;
    const more = now.more ? moved(second, moreTop, now.more.body) : "";
    const right = now.more ? moreTop + now.more.height : top + 18 + table.height;
    return { body: moved(0, top + 16, now.body) + table.body + more, bottom: Math.max(top + 16 + now.height, right) };
  }
  const [first, last] = [now, after].map(wholePanel);
  const tall = Math.max(first.height, last.height);
  const tableTop = top + 46 + tall + 20;
  const tables = halves(rows).map((half, i) => workTable(half, [i * second, tableTop], wide));
  const body = [
    panelLabel("now", 0, top + 30),
    panelLabel("after the plan", second, top + 30),
    moved(0, top + 46, first.body),
    wayArrow([wide + 2, top + 25], [second - 10, top + 25]),
    moved(second, top + 46, last.body),
    ...tables.map((table) => table.body),
  ];
  return { body: body.join(""), bottom: tableTop + Math.max(...tables.map(({ height }) => height)) };
}

/** The rows in two tables of whole groups, as nearly alike as can be. */
function halves(rows: readonly WorkRow[]): readonly (readonly WorkRow[])[] {
  const drawn = rows.filter(({ weight }) => weight !== "lesser");
  const starts = drawn.flatMap(({ opensGroup }, i) => (opensGroup && i > 0 ? [i] : []));
  if (starts.length === 0) return [drawn];
  const at = starts.reduce((a, b) => (Math.abs(2 * b - drawn.length) < Math.abs(2 * a - drawn.length) ? b : a));
  return [drawn.slice(0, at), drawn.slice(at)];
}

function underOneAnother({ now, after, rows }: WorkFigure, top: number): Laid {
  const width = workWidths.narrow;
  const first = wholePanel(now);
  if (!after) {
    const tableTop = top + 16 + first.height + 16;
    const table = workTable(rows, [0, tableTop], width);
    return { body: moved(0, top + 16, first.body) + table.body, bottom: tableTop + table.height };
  }
  const last = wholePanel(after);
  const firstTop = top + 44;
  const secondTop = firstTop + first.height + 46;
  const tableTop = secondTop + last.height + 18;
  const table = workTable(rows, [0, tableTop], width);
  const body = [
    panelLabel("now", 0, top + 30),
    moved(0, firstTop, first.body),
    wayArrow([width / 2, secondTop - 38], [width / 2, secondTop - 12]),
    panelLabel("after the plan", 0, secondTop - 16),
    moved(0, secondTop, last.body),
    table.body,
  ];
  return { body: body.join(""), bottom: tableTop + table.height };
}

function wholePanel({ body, height, more }: WorkPanel): WorkPanel {
  if (!more) return { body, height };
  const top = height + 20;
  return { body: body + moved(0, top, more.body), height: top + more.height };
}

function panelLabel(words: string, x: number, y: number): Svg {
  return lettering(words, [x, y], { size: 15, weight: "medium" });
}

function descriptionOf({ shows, scaleInShort, rows }: WorkFigure): string {
  const numbers = rows.map(({ words, unit, nowText, afterText }) => {
    const after = afterText === null ? "" : `, after the plan ${afterText}`;
    return `${words}: ${nowText}${after}${unit === "mm" ? " mm" : ""}.`;
  });
  return [shows, `${scaleInShort[0].toUpperCase()}${scaleInShort.slice(1)}.`, ...numbers].join(" ");
}
