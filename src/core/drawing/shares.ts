import { formatChance } from "../base/number-format.ts";
import { type FigureUse, figure } from "./figure.ts";
import { fittedText, lettering } from "./lettering.ts";
import { line } from "./lines.ts";
import { element, type Svg } from "./svg.ts";

/** How much of what is known about a finding comes from one run, 0 to 1. */
export interface Share {
  readonly words: string;
  readonly share: number;
}

const WIDTH = 360;
const ROW = 28;
const BAR_LEFT = 262;
const BAR_LENGTH = WIDTH - BAR_LEFT - 6;

/** Bars of shares of information, the largest first; the bars are on a scale whose end is the whole. */
export function sharesPlot(title: string, shares: readonly Share[], use: FigureUse = "file"): Svg {
  const sorted = [...shares].sort((a, b) => b.share - a.share);
  const rows = sorted.map(({ words, share }, i) => {
    const y = i * ROW;
    const length = Math.max(1, BAR_LENGTH * Math.min(1, Math.max(0, share)));
    return [
      lettering(fittedText(words, 184), [0, y + 19]),
      lettering(formatChance(Math.min(1, Math.max(0, share))), [BAR_LEFT - 12, y + 19], { anchor: "end" }),
      element("rect", { class: "ink", x: BAR_LEFT, y: y + 11, width: length, height: 7 }),
      line("hair", [0, y + ROW], [WIDTH, y + ROW]),
    ].join("");
  });
  const description = sorted
    .map(({ words, share }) => `${words}: ${formatChance(Math.min(1, Math.max(0, share)))}.`)
    .join(" ");
  return figure(WIDTH, Math.max(ROW, sorted.length * ROW) + 2, { title, description }, rows.join(""), use);
}
