import { lettering, lineStep, textWidth, wrappedText } from "./lettering.ts";
import { line, type Point } from "./lines.ts";
import type { Svg } from "./svg.ts";
import type { WorkRow } from "./work-rows.ts";

/** The table beside a picture, and how high it is. */
export interface WorkTable {
  readonly body: Svg;
  readonly height: number;
}

const GAP = 18;
const HEAD = 24;

/** Words to the left, value ± U in columns to the right; lesser rows stay away. */
export function workTable(rows: readonly WorkRow[], [left, top]: Point, width: number): WorkTable {
  const drawn = rows.filter(({ weight }) => weight !== "lesser");
  const hasAfter = drawn.some(({ afterText }) => afterText !== null);
  const right = left + width;
  const heads = hasAfter ? ["now ± U", "after ± U"] : ["value ± U"];
  const columns = heads.map((head, i) => {
    const texts = drawn.map(({ nowText, afterText }) => (i === 0 ? nowText : (afterText ?? "")));
    // Strong letters are a little wider than the others.
    return Math.max(textWidth(head), ...texts.map((text) => 1.06 * textWidth(text)));
  });
  const ends = columns.map((_, i) => right - columns.slice(i + 1).reduce((sum, wide) => sum + wide + GAP, 0));
  const wordsRoom = ends[0] - columns[0] - GAP - left;
  const body: Svg[] = [
    lettering("mm", [left, top + 13], { second: true }),
    ...heads.map((head, i) => lettering(head, [ends[i], top + 13], { anchor: "end", second: true })),
    line("thin", [left, top + HEAD - 3.5], [right, top + HEAD - 3.5]),
  ];
  let y = top + HEAD;
  drawn.forEach((row, i) => {
    if (row.opensGroup && i > 0) {
      body.push(line("hair", [left, y + 3.5], [right, y + 3.5]));
      y += 7;
    }
    const weight = row.weight === "main" ? "strong" : "regular";
    const lines = wrappedText(row.words, wordsRoom / (row.weight === "main" ? 1.06 : 1));
    const base = y + 14;
    body.push(
      ...lines.map((text, k) => lettering(text, [left, base + k * lineStep()], { weight })),
      lettering(row.nowText, [ends[0], base], { anchor: "end", weight }),
      row.afterText === null ? "" : lettering(row.afterText, [ends[1], base], { anchor: "end", weight }),
    );
    y += 4 + lines.length * lineStep();
  });
  return { body: body.join(""), height: y - top };
}
