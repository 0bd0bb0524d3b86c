import { formatTrimmed, showValue } from "../base/number-format.ts";
import type { StrokeEnd, StrokePicture } from "../work/pictures/stroke.ts";
import type { FigureUse } from "./figure.ts";
import { lettering } from "./lettering.ts";
import { circle, dimension, hatching, line, onCircle, outline, type Point, rectangle } from "./lines.ts";
import type { Box } from "./mark-places.ts";
import { frontOfMachine } from "./marks.ts";
import type { Svg } from "./svg.ts";
import { placeInWords, placeOnMap } from "./work-depth-map.ts";
import { panelWidth, type WorkPanel, type WorkShape, workFigure } from "./work-figure.ts";
import { type Compared, picturesOf, type WorkRow, workRow } from "./work-rows.ts";
import { labelRoom, lowestBand, stepMapShapes } from "./work-step-map.ts";

/** A stroke of V lettering: where it is thin and where thick, in section and from above, on the map of its width. */
export function strokeDrawing(
  pictures: Compared<StrokePicture>,
  shape: WorkShape = "wide",
  use: FigureUse = "file",
): Svg {
  const scale = strokeScale(pictures);
  const lowest = lowestBand(picturesOf(pictures).map(({ map }) => map));
  const panel = (picture: StrokePicture) => panelOf(picture, scale, lowest, panelWidth(shape));
  const step = formatTrimmed(pictures.now.map.step, 3);
  return workFigure(
    {
      title: strokeTitle(pictures.now),
      scaleInShort: strokeScaleInShort(scale),
      now: panel(pictures.now),
      after: pictures.after && panel(pictures.after),
      rows: strokeRows(pictures),
      caption: `On the map, by how much a stroke comes out too wide: the stronger the shade, the wider, lines every ${step}, the wide one at the commanded width. P–P and Q–Q are sections across the stroke at its ends; they and its width from above are drawn ${scale.ratio} times as large as the work, its length is shortened. Double-dotted: as commanded.`,
      shows: showsInWords(pictures.now),
    },
    shape,
    use,
  );
}

export function strokeTitle({ angleDegrees, depth }: StrokePicture): string {
  return `Stroke of lettering, ${formatTrimmed(angleDegrees, 1)}° cutter, ${formatTrimmed(depth, 2)} deep`;
}

export function strokeRows(pictures: Compared<StrokePicture>): readonly WorkRow[] {
  return [
    workRow("width at the thin end, P–P", pictures, ({ thin }) => thin.width),
    workRow("width at the thick end, Q–Q", pictures, ({ thick }) => thick.width),
    workRow("thick less thin", pictures, ({ spread }) => spread, { weight: "main" }),
    workRow("depth at the thin end", pictures, ({ thin }) => thin.depth, { opensGroup: true }),
    workRow("depth at the thick end", pictures, ({ thick }) => thick.depth),
  ];
}

/** How large the sections are drawn, and how many times more what is out of them. */
interface StrokeScale {
  readonly ratio: number;
  readonly pxPerMm: number;
  readonly errorFactor: number;
}

const PX_PER_MM = 96 / 25.4;
const ratios = [100, 50, 20, 10, 5, 2, 1];
const errorFactors = [50, 20, 10, 5, 2, 1];
const WIDEST_GROOVE = 92;
const DEEPEST_GROOVE = 84;

export function strokeScale(pictures: Compared<StrokePicture>): StrokeScale {
  const { width, depth } = pictures.now;
  const fits = (ratio: number) => {
    const scale = ratio * PX_PER_MM;
    return scale * width <= WIDEST_GROOVE && scale * depth <= DEEPEST_GROOVE * 0.9;
  };
  const ratio = ratios.find(fits) ?? 1;
  const out = Math.max(
    ...picturesOf(pictures).flatMap((picture) =>
      [picture.thin, picture.thick].map((end) => Math.abs(end.depth.value - picture.depth)),
    ),
  );
  // What is out may change a groove by a third, so that both can still be told apart from nothing.
  const errorFactor = out < 1e-9 ? 1 : (errorFactors.find((factor) => factor * out <= depth / 3) ?? 1);
  return { ratio, pxPerMm: Math.min(ratio * PX_PER_MM, WIDEST_GROOVE / width), errorFactor };
}

function strokeScaleInShort({ ratio, errorFactor }: StrokeScale): string {
  return `sections ${ratio} : 1${errorFactor === 1 ? "" : `, errors ${errorFactor * ratio} : 1`}`;
}

const TALLEST_MAP = 130;
const SECTION = { top: 46, block: 100, gap: 24 } as const;

function panelOf(picture: StrokePicture, scale: StrokeScale, lowest: number, width: number): WorkPanel {
  const map = mapOf(picture, lowest, width);
  const middle = map.height + 48;
  const wide = (width - SECTION.gap) / 2;
  const sections =
    section("P–P", picture, picture.thin, scale, [0, SECTION.top], wide) +
    section("Q–Q", picture, picture.thick, scale, [wide + SECTION.gap, SECTION.top], wide);
  return {
    body: map.body + fromAbove(picture, scale, middle, width),
    height: middle + 70,
    more: { body: sections, height: SECTION.top + SECTION.block },
  };
}

function mapOf(picture: StrokePicture, lowest: number, width: number): WorkPanel {
  const { alongX, alongY, map, thin, thick } = picture;
  const scale = Math.min((width - 2 * labelRoom.side) / alongX, TALLEST_MAP / alongY);
  const [wide, tall] = [scale * alongX, scale * alongY];
  const [left, top] = [(width - wide) / 2, labelRoom.above];
  const at = placeOnMap(picture, scale, [left, top]);
  const frame = { left, top, right: left + wide, bottom: top + tall };
  const front = frame.bottom + labelRoom.below;
  const body = [
    stepMapShapes(map, at, frame, lowest),
    strokeOnMap(at(thin.place), at(thick.place), frame),
    frontOfMachine([width / 2, front]),
  ];
  return { body: body.join(""), height: front + 26 };
}

/** The stroke, with the letters of the sections at its ends, each on a ground of paper and well inside the map. */
function strokeOnMap(from: Point, to: Point, frame: Box): Svg {
  const end = (at: Point, other: Point, letter: string) => {
    const inside = (value: number, low: number, high: number) => Math.min(Math.max(value, low + 20), high - 20);
    const towards = Math.sign(other[0] - at[0]) || 1;
    const place: Point = [
      inside(at[0] + 18 * towards, frame.left, frame.right),
      inside(at[1] - 18, frame.top, frame.bottom),
    ];
    return circle("wide", at, 4, "solid") + letterOnPaper(letter, place);
  };
  return line("wide", from, to) + end(from, to, "P") + end(to, from, "Q");
}

function letterOnPaper(letter: string, [x, y]: Point): Svg {
  return (
    outline("thin", rectangle(x - 9, y - 9, x + 9, y + 9), "solid") +
    lettering(letter, [x, y + 4.5], { anchor: "middle", weight: "strong" })
  );
}

function section(
  name: string,
  { depth, angleDegrees }: StrokePicture,
  end: StrokeEnd,
  { pxPerMm, errorFactor }: StrokeScale,
  [left, surface]: Point,
  width: number,
): Svg {
  const slope = Math.tan((angleDegrees * Math.PI) / 360);
  const middle = left + width / 2;
  const right = left + width;
  const bottom = surface + SECTION.block;
  const drawnDepth = Math.max(0, pxPerMm * (depth + errorFactor * (end.depth.value - depth)));
  const groove = (deep: number): readonly Point[] => [
    [middle - slope * deep, surface],
    [middle, surface + deep],
    [middle + slope * deep, surface],
  ];
  const face: readonly Point[] = [[left, surface], ...groove(drawnDepth), [right, surface]];
  const [from, , to] = groove(drawnDepth);
  return [
    hatching([...face, [right, bottom], [left, bottom]]),
    line("wide", ...face),
    line("limit", ...groove(pxPerMm * depth)),
    lettering(name, [left, surface - 26], { weight: "strong" }),
    to[0] - from[0] > NARROWEST
      ? dimension({ from, to, along: "x", at: surface - 16, text: readable(end) })
      : lettering(end.depth.value > 0 ? readable(end) : "not cut", [middle, surface - 8], {
          anchor: "middle",
          second: true,
        }),
  ].join("");
}

/** Arrows of a dimension do not show what is narrower, px. */
const NARROWEST = 8;

function readable({ width }: StrokeEnd): string {
  return showValue(width.value, width.expandedUncertainty, { quantity: "length" }).value;
}

function fromAbove(picture: StrokePicture, scale: StrokeScale, middle: number, width: number): Svg {
  const { along, width: commanded } = picture;
  const half = (wide: number) =>
    Math.max(0, (scale.pxPerMm * (commanded + scale.errorFactor * (wide - commanded))) / 2);
  const ends = [half(along[0]), half(along[along.length - 1])];
  const [left, right] = [20 + ends[0], width - 20 - ends[1]];
  const x = (i: number) => left + ((right - left) * i) / (along.length - 1);
  const edge = (side: 1 | -1) => along.map((wide, i): Point => [x(i), middle + side * half(wide)]);
  // Half a turn clockwise on the sheet, from the angle on.
  const cap = (at: number, radius: number, from: number) =>
    Array.from({ length: 10 }, (_, i) => onCircle([at, middle], radius, from - 18 * (i + 0.5)));
  const shape = [...edge(-1), ...cap(right, ends[1], 90), ...edge(1).reverse(), ...cap(left, ends[0], 270)];
  const nominal = half(commanded);
  const tips = [left - ends[0], right + ends[1]] as const;
  const words = [
    `thin end, ${placeInWords(picture, picture.thin.place)}`,
    `thick end, ${placeInWords(picture, picture.thick.place)}`,
  ];
  const under = middle + Math.max(...ends, nominal) + 20;
  return [
    outline("wide", shape, "tint"),
    line("limit", [left, middle - nominal], [right, middle - nominal]),
    line("limit", [left, middle + nominal], [right, middle + nominal]),
    line("centre", [tips[0] - 10, middle], [tips[1] + 10, middle]),
    lettering(words[0], [tips[0] - 10, under]),
    lettering(words[1], [tips[1] + 10, under], { anchor: "end" }),
  ].join("");
}

function showsInWords(picture: StrokePicture): string {
  const { thin, thick } = picture;
  return `Map of the width from above, front at the bottom. The stroke is thinnest at the ${placeInWords(picture, thin.place)} and thickest at the ${placeInWords(picture, thick.place)}; two sections show its groove there.`;
}
