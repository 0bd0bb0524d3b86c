import { formatTrimmed, showValue } from "../base/number-format.ts";
import type { DimensionPicture, FitAlong } from "../work/pictures/dimension.ts";
import type { KnownValue } from "../work/pictures/known-value.ts";
import type { Exaggeration } from "./exaggeration.ts";
import type { FigureUse } from "./figure.ts";
import { lettering } from "./lettering.ts";
import { dimension, hatching, line, outline, type Point, rectangle } from "./lines.ts";
import type { Svg } from "./svg.ts";
import { knownInWords, panelWidth, type WorkPanel, type WorkShape, workFigure } from "./work-figure.ts";
import { levelBar } from "./work-known-bar.ts";
import { chooseMagnification, magnificationInShort } from "./work-magnification.ts";
import { type Compared, picturesOf, type WorkRow, workRow } from "./work-rows.ts";

/** A piece over the pocket that was cut for it, along X and along Y. */
export function dimensionDrawing(
  pictures: Compared<DimensionPicture>,
  shape: WorkShape = "wide",
  use: FigureUse = "file",
): Svg {
  const magnification = fitMagnification(pictures);
  const panel = (picture: DimensionPicture) => panelOf(picture, magnification, panelWidth(shape));
  const [now, after] = [panel(pictures.now), pictures.after && panel(pictures.after)];
  return workFigure(
    {
      title: dimensionTitle(pictures.now),
      scaleInShort: magnificationInShort(magnification),
      now,
      after,
      rows: dimensionRows(pictures),
      caption: `Wide: as estimated. Thin, from top to bottom: as commanded. ${knownInWords([now, after], "Bars", "the end")} The cutter is taken to be exactly ${formatTrimmed(pictures.now.cutterDiameter, 2)}; what it is larger by makes the piece smaller and the pocket larger.`,
      shows: showsInWords(pictures.now),
    },
    shape,
    use,
  );
}

export function dimensionTitle({ length }: DimensionPicture): string {
  return `Piece and pocket of ${formatTrimmed(length, 1)}`;
}

export function dimensionRows(pictures: Compared<DimensionPicture>): readonly WorkRow[] {
  const along = (axis: "X" | "Y", pick: (picture: DimensionPicture) => FitAlong) => [
    workRow(`piece along ${axis}`, pictures, (picture) => pick(picture).piece, { opensGroup: axis === "Y" }),
    workRow(`pocket along ${axis}`, pictures, (picture) => pick(picture).pocket),
    workRow(`gap along ${axis}, both sides`, pictures, (picture) => pick(picture).gap, {
      sign: "always",
      weight: "main",
    }),
  ];
  return [
    ...along("X", ({ alongX }) => alongX),
    ...along("Y", ({ alongY }) => alongY),
    workRow("runout", pictures, ({ runout }) => runout, { opensGroup: true }),
    workRow("turned over, off at a corner by", pictures, ({ turnedOver }) => turnedOver),
  ];
}

/** So far may an end be drawn out, as a part of the length. */
const FARTHEST = 0.07;

export function fitMagnification(pictures: Compared<DimensionPicture>): Exaggeration {
  return chooseMagnification((factor) =>
    picturesOf(pictures).every(({ length, alongX, alongY }) =>
      [alongX.piece, alongX.pocket, alongY.piece, alongY.pocket].every(
        ({ value, expandedUncertainty }) =>
          (factor * (Math.abs(value - length) + expandedUncertainty)) / 2 <= FARTHEST * length,
      ),
    ),
  );
}

const FIT = { top: 54, part: 36, gap: 14, under: 34 } as const;
const FIT_HEIGHT = FIT.top + 2 * FIT.part + FIT.gap + FIT.under;

function panelOf(picture: DimensionPicture, { factor }: Exaggeration, width: number): WorkPanel {
  const fits = [
    fitOf("X", picture, picture.alongX, factor, 0, width),
    fitOf("Y", picture, picture.alongY, factor, FIT_HEIGHT + 14, width),
  ];
  return {
    body: fits.map(({ body }) => body).join(""),
    height: 2 * FIT_HEIGHT + 14,
    hasMarks: fits.some(({ bars }) => bars !== ""),
  };
}

function fitOf(
  axis: "X" | "Y",
  { length }: DimensionPicture,
  { piece, pocket }: FitAlong,
  factor: number,
  top: number,
  width: number,
): { readonly body: Svg; readonly bars: Svg } {
  const scale = (0.72 * width) / length;
  const middle = width / 2;
  const half = (known: KnownValue) => (scale * (length + factor * (known.value - length))) / 2;
  const pieceTop = top + FIT.top;
  const pieceBottom = pieceTop + FIT.part;
  const pocketTop = pieceBottom + FIT.gap;
  const pocketBottom = pocketTop + FIT.part;
  const edge = pocketBottom + 10;
  const [pieceHalf, pocketHalf] = [half(piece), half(pocket)];
  const nominal = (scale * length) / 2;
  const shoulder = (side: 1 | -1): readonly Point[] => [
    [middle + side * pocketHalf, pocketTop],
    [middle + (side * width) / 2 - side * 2, pocketTop],
    [middle + (side * width) / 2 - side * 2, edge],
    [middle + side * pocketHalf, edge],
  ];
  const bars = [-1, 1]
    .map((side) => {
      const [pieceEnd, pocketEnd] = [middle + side * pieceHalf, middle + side * pocketHalf];
      const bar = (x: number, y: number, known: KnownValue) =>
        levelBar([x, y], (factor * scale * known.expandedUncertainty) / 2);
      return (
        bar(pieceEnd, (pieceTop + pieceBottom) / 2, piece) + bar(pocketEnd, (pocketTop + pocketBottom) / 2, pocket)
      );
    })
    .join("");
  const [start, end] = axis === "X" ? ["left", "right"] : ["front", "rear"];
  const body = [
    lettering(`Along ${axis}, ${start} to ${end}`, [0, top + 13]),
    outline("wide", rectangle(middle - pieceHalf, pieceTop, middle + pieceHalf, pieceBottom), "tint"),
    ...([1, -1] as const).map((side) => hatching(shoulder(side))),
    line(
      "wide",
      shoulder(-1)[1],
      shoulder(-1)[0],
      [middle - pocketHalf, pocketBottom],
      [middle + pocketHalf, pocketBottom],
      shoulder(1)[0],
      shoulder(1)[1],
    ),
    hatching(rectangle(middle - pocketHalf, pocketBottom, middle + pocketHalf, edge)),
    ...[-1, 1].map((side) =>
      line("thin", [middle + side * nominal, pieceTop - 8], [middle + side * nominal, edge + 4]),
    ),
    line("centre", [middle, pieceTop - 8], [middle, edge + 4]),
    bars,
    dimension({
      from: [middle - pieceHalf, pieceTop],
      to: [middle + pieceHalf, pieceTop],
      along: "x",
      at: pieceTop - 16,
      text: readable(piece),
      textAt: 0.3,
    }),
    lettering("piece", [middle + 10, pieceTop + 22]),
    lettering(`pocket ${readable(pocket)}`, [middle + 10, pocketTop + 22]),
  ];
  return { body: body.join(""), bars };
}

function readable({ value, expandedUncertainty }: KnownValue): string {
  return showValue(value, expandedUncertainty, { quantity: "length" }).value;
}

function showsInWords({ alongX, alongY }: DimensionPicture): string {
  const words = (axis: string, { gap }: FitAlong) =>
    `Along ${axis} the piece ${gap.value >= 0 ? "goes into its pocket with a gap" : "is larger than its pocket"}.`;
  return `Sections of a piece over its pocket. ${words("X", alongX)} ${words("Y", alongY)}`;
}
