import { fittedText, lettering, lineStep, wrappedText } from "./lettering.ts";
import { line, type Point } from "./lines.ts";
import type { Svg } from "./svg.ts";

/** One row of "What the drawing shows": words, and value and expanded uncertainty as they are to be read. */
export interface ShownRow {
  readonly words: string;
  readonly value: string;
  readonly U: string;
}

const VALUE_ROOM = 76;
const U_ROOM = 56;

/** A table of what the drawing shows; rows that find no room below are counted in its last line. */
export function sheetTable(rows: readonly ShownRow[], [left, top]: Point, width: number, height: number): Svg {
  const right = left + width;
  const wordsRoom = width - VALUE_ROOM - U_ROOM - 12;
  const drawn: Svg[] = [
    lettering("What the drawing shows", [left, top + 14], { second: true }),
    lettering("value", [right - U_ROOM, top + 14], { second: true, anchor: "end" }),
    lettering("U", [right, top + 14], { second: true, anchor: "end" }),
    line("thin", [left, top + 22], [right, top + 22]),
  ];
  let y = top + 22;
  for (const [i, row] of rows.entries()) {
    const lines = wrappedText(row.words, wordsRoom);
    const rowHeight = 8 + lines.length * lineStep();
    const leaves = i < rows.length - 1 ? 24 : 0;
    if (y + rowHeight + leaves > top + height) {
      const more = rows.length - i;
      drawn.push(lettering(`and ${more} more, in the list of findings`, [left, y + 17], { second: true }));
      break;
    }
    const base = y + 17;
    drawn.push(
      ...lines.map((text, k) => lettering(text, [left, base + k * lineStep()])),
      lettering(fittedText(row.value, VALUE_ROOM), [right - U_ROOM, base], { anchor: "end" }),
      lettering(fittedText(row.U, U_ROOM - 8), [right, base], { anchor: "end" }),
    );
    y += rowHeight;
    drawn.push(line("hair", [left, y], [right, y]));
  }
  return drawn.join("");
}
