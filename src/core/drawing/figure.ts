import { drawingStyles, tokenStyles } from "./stylesheet.ts";
import { element, escapeText, type Svg } from "./svg.ts";

/** What a person who cannot see the drawing is told: a name, and what it shows. */
export interface FigureWords {
  readonly title: string;
  readonly description: string;
}

/**
 * "file": an SVG document of its own, colours and styles inside. "page": for a page or a report that has taken in
 * `tokenStyles` and `drawingStyles` once.
 */
export type FigureUse = "file" | "page";

/** A whole drawing of the given size in px. */
export function figure(width: number, height: number, words: FigureWords, body: Svg, use: FigureUse = "file"): Svg {
  const inside = [
    `<title>${escapeText(words.title)}</title>`,
    `<desc>${escapeText(words.description)}</desc>`,
    use === "file" ? `<style>${tokenStyles}\n${drawingStyles}</style>` : "",
    use === "file" ? element("rect", { class: "paper", width, height }) : "",
    body,
  ];
  const size = use === "file" ? { width, height } : {};
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: "dwg",
      viewBox: `0 0 ${Math.ceil(width)} ${Math.ceil(height)}`,
      ...size,
      role: "img",
    },
    ...inside,
  );
}
