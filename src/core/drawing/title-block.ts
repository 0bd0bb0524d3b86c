import { fittedText, lettering } from "./lettering.ts";
import { line, outline, rectangle } from "./lines.ts";
import { type ProjectionAngle, projectionSymbol } from "./marks.ts";
import type { Svg } from "./svg.ts";

/** What stands in the title block: the data fields that [ISO 7200] asks for, in this trade's words. */
export interface TitleBlock {
  readonly machine: string;
  readonly travel: string;
  readonly readings: string;
  readonly drawing: string;
  /** ISO 8601 date, with or without a time. */
  readonly date: string;
  readonly sizesIn: string;
  readonly projection: ProjectionAngle;
}

export const titleBlockSize = { width: 560, height: 104 } as const;

const COLUMNS = [0, 212, 348, 476, 560] as const;

/** The block with its lower right corner at the place. */
export function titleBlock(block: TitleBlock, right: number, bottom: number): Svg {
  const { width, height } = titleBlockSize;
  const [left, top] = [right - width, bottom - height];
  const middle = top + height / 2;
  const cell = (column: number, row: number, name: string, value: string) => {
    const x = left + COLUMNS[column] + 10;
    const y = row === 0 ? top : middle;
    const room = COLUMNS[column + 1] - COLUMNS[column] - 18;
    return (
      lettering(name, [x, y + 19], { second: true }) +
      lettering(fittedText(value, room, 15), [x, y + 39], { size: 15, weight: "medium" })
    );
  };
  return [
    outline("wide", rectangle(left, top, right, bottom), "solid"),
    line("thin", [left, middle], [left + COLUMNS[3], middle]),
    ...COLUMNS.slice(1, 4).map((x) => line("thin", [left + x, top], [left + x, bottom])),
    cell(0, 0, "Machine", block.machine),
    cell(1, 0, "Travel", block.travel),
    cell(2, 0, "Readings", block.readings),
    cell(0, 1, "Drawing", block.drawing),
    cell(1, 1, "Date", block.date),
    cell(2, 1, "Sizes in", block.sizesIn),
    projectionSymbol([left + COLUMNS[3] + 12, middle - 12], block.projection),
  ].join("");
}
