import { element, escapeText, numberText, type Point, type Svg } from "./svg.ts";

/** Lettering is 13 px unless it says otherwise, and never smaller. */
export type LetteringSize = 13 | 15 | 17;

export interface LetteringStyle {
  readonly size?: LetteringSize;
  readonly anchor?: "start" | "middle" | "end";
  readonly weight?: "regular" | "medium" | "strong";
  /** Second ink, for what is beside the point. */
  readonly second?: boolean;
  /** Reading from the right, as on a vertical dimension. */
  readonly turned?: boolean;
  readonly class?: string;
}

/** One line of text; the point is on its base line. */
export function lettering(text: string, at: Point, style: LetteringStyle = {}): Svg {
  const { size = 13, anchor = "start", weight = "regular", second = false, turned = false } = style;
  const classes = [
    size === 13 ? "" : `s${size}`,
    weight === "regular" ? "" : weight,
    second ? "second" : "",
    style.class ?? "",
  ].filter((name) => name !== "");
  const place = turned
    ? { transform: `translate(${numberText(at[0])} ${numberText(at[1])}) rotate(-90)` }
    : { x: at[0], y: at[1] };
  const attributes = {
    ...place,
    class: classes.length > 0 ? classes.join(" ") : undefined,
    "text-anchor": anchor === "start" ? undefined : anchor,
  };
  return element("text", attributes, escapeText(text));
}

/** Lines of text under one another. */
export function letteringLines(lines: readonly string[], at: Point, style: LetteringStyle = {}): Svg {
  const step = lineStep(style.size);
  return lines.map((line, i) => lettering(line, [at[0], at[1] + i * step], style)).join("");
}

export function lineStep(size: LetteringSize = 13): number {
  return size + 4;
}

// Thousandths of the size of the letters of a common grotesque, from memory; the other letters are as wide as a digit or
// less. It is wider than the font that a page loads, so that what fits here fits there.
const narrow: Readonly<Record<string, number>> = widthTable([
  [191, "'’|"],
  [222, "ijl"],
  [278, " !,./:;It[]\\f·"],
  [333, "()-r`"],
  [355, '"'],
  [389, "*"],
  [500, "Jckvsxyz"],
  [584, "+<=>±×−–"],
  [611, "FTZ"],
  [667, "&ABEKPSVXY"],
  [722, "CDHNRUw"],
  [778, "GOQ"],
  [833, "Mm"],
  [889, "%"],
  [944, "W"],
  [1000, "—…@"],
]);

/** About how wide a line of text becomes, in px. */
export function textWidth(text: string, size = 13): number {
  let thousandths = 0;
  for (const letter of text) thousandths += narrow[letter] ?? 556;
  return (thousandths * size) / 1000;
}

/** The text, cut with an ellipsis where it is too long for the room. */
export function fittedText(text: string, roomPx: number, size = 13): string {
  if (textWidth(text, size) <= roomPx) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join("").trimEnd()}…`, size) > roomPx) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}

/** The text broken between words into lines that fit the room; a word that is longer than the room is cut. */
export function wrappedText(text: string, roomPx: number, size = 13): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter((part) => part !== "")) {
    const last = lines.length - 1;
    const longer = last >= 0 ? `${lines[last]} ${word}` : word;
    if (last >= 0 && textWidth(longer, size) <= roomPx) lines[last] = longer;
    else lines.push(fittedText(word, roomPx, size));
  }
  return lines;
}

function widthTable(rows: readonly (readonly [number, string])[]): Record<string, number> {
  return Object.fromEntries(rows.flatMap(([width, letters]) => [...letters].map((letter) => [letter, width])));
}
