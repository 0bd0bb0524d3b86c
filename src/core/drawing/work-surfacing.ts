import { formatTrimmed } from "../base/number-format.ts";
import { floorAcross, type PassesPicture, type SurfacingPicture } from "../work/pictures/surfacing.ts";
import type { Exaggeration } from "./exaggeration.ts";
import type { FigureUse } from "./figure.ts";
import { lettering } from "./lettering.ts";
import { dimension, hatching, line, type Point } from "./lines.ts";
import type { Svg } from "./svg.ts";
import { panelWidth, type WorkPanel, type WorkShape, workFigure } from "./work-figure.ts";
import { chooseMagnification, magnificationInShort } from "./work-magnification.ts";
import { type Compared, picturesOf, type WorkRow, workRow } from "./work-rows.ts";

/** What passes side by side leave: the step between two and the hollow along one, in section across them. */
export function surfacingDrawing(
  pictures: Compared<SurfacingPicture>,
  shape: WorkShape = "wide",
  use: FigureUse = "file",
): Svg {
  const magnification = surfacingMagnification(pictures);
  const panel = (picture: SurfacingPicture) => panelOf(picture, magnification, panelWidth(shape));
  return workFigure(
    {
      title: surfacingTitle(pictures.now),
      scaleInShort: magnificationInShort(magnification, "heights"),
      now: panel(pictures.now),
      after: pictures.after && panel(pictures.after),
      rows: surfacingRows(pictures),
      caption:
        "Sections across the passes. Wide: the floor as estimated. Thin: flat. Dash-dotted: the middles of the passes. The worst of five places counts.",
      shows: showsInWords(pictures.now),
    },
    shape,
    use,
  );
}

export function surfacingTitle({ cutterDiameter, stepover }: SurfacingPicture): string {
  return `Surfacing, cutter of ${formatTrimmed(cutterDiameter, 1)}, stepover ${formatTrimmed(stepover, 1)}`;
}

export function surfacingRows(pictures: Compared<SurfacingPicture>): readonly WorkRow[] {
  return [
    workRow("step of passes along X", pictures, ({ alongX }) => sized(alongX), { weight: "main" }),
    workRow("hollow across a stepover", pictures, ({ alongX }) => alongX.hollow),
    workRow("step of passes along Y", pictures, ({ alongY }) => sized(alongY), {
      weight: "main",
      opensGroup: true,
    }),
    workRow("hollow across a stepover", pictures, ({ alongY }) => alongY.hollow),
  ];
}

/** Which side is low is told in words. */
function sized({ ridge }: PassesPicture) {
  return { ...ridge, value: Math.abs(ridge.value) };
}

/** What stands across the section: so many stepovers. */
const STEPOVERS = 3.4;
const SECTION = { top: 62, block: 40, under: 24 } as const;
/** How high the steps may stand in the drawing, as a part of what lies between two passes. */
const HIGHEST = 0.35;

export function surfacingMagnification(pictures: Compared<SurfacingPicture>): Exaggeration {
  const highest = Math.max(
    ...picturesOf(pictures).flatMap((picture) =>
      [picture.alongX, picture.alongY].map((passes) => {
        const heights = floorOf(picture, passes).map(([, height]) => height);
        return Math.max(...heights) - Math.min(...heights);
      }),
    ),
  );
  return chooseMagnification((factor) => factor * highest <= HIGHEST * pictures.now.stepover);
}

function panelOf(picture: SurfacingPicture, { factor }: Exaggeration, width: number): WorkPanel {
  const across = section(picture, picture.alongX, factor, 0, width);
  const tall = SECTION.top + SECTION.block + SECTION.under;
  const along = section(picture, picture.alongY, factor, tall + 26, width);
  return { body: across + along, height: 2 * tall + 26 };
}

function section(picture: SurfacingPicture, passes: PassesPicture, factor: number, top: number, width: number): Svg {
  const { stepover } = picture;
  const scale = (width - 8) / (STEPOVERS * stepover);
  const floor = floorOf(picture, passes);
  const middle = mean(floor.map(([, height]) => height));
  const level = top + SECTION.top;
  const at = ([across, height]: readonly [number, number]): Point => [
    width / 2 + scale * across,
    level - factor * scale * (height - middle),
  ];
  const face = floor.map(at);
  const [left, right] = [face[0][0], face[face.length - 1][0]];
  const bottom = level + SECTION.block;
  const centres = [-1, 0, 1].map((pass) => width / 2 + scale * pass * stepover);
  const [start, end] = passes.along === "X" ? ["front", "rear"] : ["left", "right"];
  const seen = passes.along === "X" ? "seen from the right" : "seen from the front";
  return [
    lettering(`Passes along ${passes.along}, ${seen}: ${lowInWords(passes)}`, [0, top + 13]),
    hatching([...face, [right, bottom], [left, bottom]]),
    line("thin", [left, level], [right, level]),
    line("wide", ...face),
    ...centres.map((x) => line("centre", [x, level - 30], [x, level + 16])),
    dimension({
      from: [centres[1], level - 22],
      to: [centres[2], level - 22],
      along: "x",
      at: level - 26,
      text: formatTrimmed(stepover, 1),
    }),
    lettering(start, [left, bottom + 17], { second: true }),
    lettering(end, [right, bottom + 17], { anchor: "end", second: true }),
    lettering(
      `at x ${formatTrimmed(passes.place.x, 0)}, y ${formatTrimmed(passes.place.y, 0)}`,
      [width / 2, bottom + 17],
      {
        anchor: "middle",
        second: true,
      },
    ),
  ].join("");
}

/** No side is named that is not known to be the low one. */
function lowInWords({ lowSide, ridge: { value, expandedUncertainty } }: PassesPicture): string {
  if (Math.abs(value) > expandedUncertainty) return `each low at the ${lowSide}`;
  return expandedUncertainty < 0.005 ? "level" : "low side not known";
}

/** The floor across the section from its middle, mm; where it steps, both heights stand at one place. */
function floorOf(picture: SurfacingPicture, passes: PassesPicture): readonly (readonly [number, number])[] {
  const half = (STEPOVERS / 2) * picture.stepover;
  const radius = picture.cutterDiameter / 2;
  const count = 170;
  const even = Array.from({ length: count + 1 }, (_, i) => -half + (2 * half * i) / count);
  // A pass begins and ends with an edge of the cutter.
  const edges = [-3, -2, -1, 0, 1, 2, 3].flatMap((pass) =>
    [-radius, radius].flatMap((side) => [-1e-6, 1e-6].map((by) => pass * picture.stepover + side + by)),
  );
  return [...even, ...edges.filter((across) => Math.abs(across) < half)]
    .sort((a, b) => a - b)
    .map((across) => [across, floorAcross(passes, picture, across)] as const);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function showsInWords({ alongX, alongY }: SurfacingPicture): string {
  const words = (passes: PassesPicture) => `Passes along ${passes.along}: ${lowInWords(passes)}.`;
  return `Two sections of the floor, across the passes. ${words(alongX)} ${words(alongY)}`;
}
