import { formatNumber } from "../base/number-format.ts";
import { type FigureUse, figure } from "./figure.ts";
import { lettering } from "./lettering.ts";
import { line } from "./lines.ts";
import { stationRing } from "./marks.ts";
import { element, numberText, type Svg } from "./svg.ts";

/** One reading of a run against the fit, in standard deviations. */
export interface PlottedResidual {
  /** Number of the station. */
  readonly number: number;
  readonly inSd: number;
  /** Flagged as odd: it stands away from all the rest. */
  readonly isOdd: boolean;
}

// 95 of 100 readings lie within two; beyond three and a half a reading is worth a second look.
const USUAL = 2;
const ODD = 3.5;
/** Farther out than this is drawn at the rim, with its number. */
const RIM = 5;

/** Readings less what the fit expects, station by station. */
export function residualPlot(title: string, residuals: readonly PlottedResidual[], use: FigureUse = "file"): Svg {
  const step = residuals.length > 16 ? 24 : 32;
  const left = 104;
  const width = Math.max(360, left + residuals.length * step + 24);
  const height = 240;
  const top = 22;
  const bottom = 196;
  const right = width - 8;
  const at = (sd: number) => (top + bottom) / 2 - (sd * (bottom - top)) / 2 / (RIM + 0.4);
  const lines = [
    ...[-ODD, ODD].map((sd) => line("hidden", [left, at(sd)], [right, at(sd)])),
    ...[-USUAL, USUAL].map((sd) => line("thin", [left, at(sd)], [right, at(sd)])),
    line("centre", [left, at(0)], [right, at(0)]),
    ...[ODD, USUAL, -USUAL, -ODD].map((sd) =>
      lettering(formatNumber(sd, sd % 1 === 0 ? 0 : 1, "always"), [left - 8, at(sd) + 4.5], {
        anchor: "end",
        second: true,
      }),
    ),
    lettering("as fitted", [left - 8, at(0) + 4.5], { anchor: "end", second: true }),
    lettering("reading − fit, in sd", [8, 14], { second: true }),
  ];
  const marks = residuals.map(({ number, inSd, isOdd }, i) => {
    const x = left + (i + 0.5) * step;
    const beyond = Math.abs(inSd) > RIM;
    const y = at(Math.max(-RIM, Math.min(RIM, inSd)));
    const text = beyond ? lettering(formatNumber(inSd, 1, "always"), [x + 10, y + 4.5]) : "";
    return (
      line("thin", [x, at(0)], [x, y]) +
      (isOdd ? diamond(x, y) : dot(x, y)) +
      text +
      stationRing([x, 220], number, "open")
    );
  });
  const odd = residuals.filter(({ isOdd }) => isOdd);
  const words = {
    title,
    description:
      odd.length === 0
        ? "Readings less the fit in standard deviations, by station. None stands away from the rest."
        : `Readings less the fit in standard deviations, by station. Away from the rest: ${odd.map(({ number, inSd }) => `station ${number}, ${formatNumber(inSd, 1, "always")}`).join("; ")}.`,
  };
  return figure(width, height, words, [...lines, ...marks].join(""), use);
}

function dot(x: number, y: number): Svg {
  return element("circle", { class: "ink", cx: x, cy: y, r: 4 });
}

function diamond(x: number, y: number): Svg {
  const d = `M${numberText(x - 7)} ${numberText(y)}L${numberText(x)} ${numberText(y - 7)}L${numberText(x + 7)} ${numberText(y)}L${numberText(x)} ${numberText(y + 7)}z`;
  return element("path", { class: "out", d });
}
