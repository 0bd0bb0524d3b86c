import { formatTrimmed } from "../base/number-format.ts";
import type { HolesAndWallsPicture } from "../work/pictures/holes-and-walls.ts";
import type { KnownValue } from "../work/pictures/known-value.ts";
import type { Exaggeration } from "./exaggeration.ts";
import type { FigureUse } from "./figure.ts";
import { lettering } from "./lettering.ts";
import { dimension, hatching, line, type Point } from "./lines.ts";
import type { Svg } from "./svg.ts";
import { knownInWords, panelWidth, type WorkPanel, type WorkShape, workFigure } from "./work-figure.ts";
import { levelBar } from "./work-known-bar.ts";
import { chooseMagnification, magnificationInShort, steepestDrawn } from "./work-magnification.ts";
import { type Compared, picturesOf, type WorkRow, workRow } from "./work-rows.ts";

/** How a hole and the walls of an opening lean through a board, in two sections. */
export function holesAndWallsDrawing(
  pictures: Compared<HolesAndWallsPicture>,
  shape: WorkShape = "wide",
  use: FigureUse = "file",
): Svg {
  const magnification = leanMagnification(pictures);
  const panel = (picture: HolesAndWallsPicture) => panelOf(picture, magnification, panelWidth(shape));
  const [now, after] = [panel(pictures.now), pictures.after && panel(pictures.after)];
  return workFigure(
    {
      title: holesAndWallsTitle(pictures.now),
      scaleInShort: magnificationInShort(magnification, "leans"),
      now,
      after,
      rows: holesAndWallsRows(pictures),
      caption: `Wide: as estimated. Double-dotted: upright. A hole follows the plunge, a wall that is cut at one go the cutter’s axis. ${knownInWords([now, after], "Bars", "the foot")} The worst of five places counts.`,
      shows: showsInWords(pictures.now),
    },
    shape,
    use,
  );
}

export function holesAndWallsTitle({ depth }: HolesAndWallsPicture): string {
  return `Holes and walls through ${formatTrimmed(depth, 1)}`;
}

export function holesAndWallsRows(pictures: Compared<HolesAndWallsPicture>): readonly WorkRow[] {
  const row = (words: string, pick: (picture: HolesAndWallsPicture) => KnownValue, opensGroup = false) =>
    workRow(words, pictures, pick, { sign: "always", opensGroup });
  return [
    row("foot of a hole, + to the right", ({ hole }) => hole.side),
    row("foot of a hole, + to the rear", ({ hole }) => hole.fore),
    row("foot of a wall, + to the right", ({ wall }) => wall.side, true),
    row("foot of a wall, + to the rear", ({ wall }) => wall.fore),
  ];
}

export function leanMagnification(pictures: Compared<HolesAndWallsPicture>): Exaggeration {
  return chooseMagnification((factor) =>
    picturesOf(pictures).every(({ depth, hole, wall }) =>
      [hole.side, hole.fore, wall.side, wall.fore].every(
        ({ value, expandedUncertainty }) =>
          factor * Math.abs(value) <= steepestDrawn * depth &&
          factor * (Math.abs(value) + expandedUncertainty) <= 1.6 * steepestDrawn * depth,
      ),
    ),
  );
}

const BOARD = { top: 44, height: 84, under: 32, left: 40 } as const;

function panelOf(picture: HolesAndWallsPicture, { factor }: Exaggeration, width: number): WorkPanel {
  const { hole, wall } = picture;
  const tall = BOARD.top + BOARD.height + BOARD.under;
  const fromFront = section(picture, hole.side, wall.side, factor, {
    top: 0,
    width,
    ends: ["left", "right"],
    seen: "front",
  });
  const fromRight = section(picture, hole.fore, wall.fore, factor, {
    top: tall + 18,
    width,
    ends: ["front", "rear"],
    seen: "right",
  });
  return {
    body: fromFront.body + fromRight.body,
    height: 2 * tall + 18,
    hasMarks: fromFront.bars + fromRight.bars !== "",
  };
}

interface SectionPlace {
  readonly top: number;
  readonly width: number;
  readonly ends: readonly [left: string, right: string];
  readonly seen: "front" | "right";
}

function section(
  { depth, place }: HolesAndWallsPicture,
  hole: KnownValue,
  wall: KnownValue,
  factor: number,
  { top, width, ends, seen }: SectionPlace,
): { readonly body: Svg; readonly bars: Svg } {
  const scale = BOARD.height / depth;
  const upper = top + BOARD.top;
  const lower = upper + BOARD.height;
  const [left, right] = [BOARD.left, width - 4];
  const room = right - left;
  const holeHalf = 15;
  const wallHalf = 0.17 * room;
  const middles = { hole: left + 0.25 * room, wall: left + 0.68 * room };
  const foot = (known: KnownValue) => factor * scale * known.value;
  const side = (x: number, known: KnownValue): readonly [Point, Point] => [
    [x, upper],
    [x + foot(known), lower],
  ];
  const sides = [
    side(middles.hole - holeHalf, hole),
    side(middles.hole + holeHalf, hole),
    side(middles.wall - wallHalf, wall),
    side(middles.wall + wallHalf, wall),
  ];
  const pieces: readonly (readonly Point[])[] = [
    [[left, upper], sides[0][0], sides[0][1], [left, lower]],
    [sides[1][0], sides[2][0], sides[2][1], sides[1][1]],
    [sides[3][0], [right, upper], [right, lower], sides[3][1]],
  ];
  const bar = (x: number, known: KnownValue) =>
    levelBar([x + foot(known), lower + 8], factor * scale * known.expandedUncertainty);
  const bars = bar(middles.hole, hole) + bar(middles.wall - wallHalf, wall) + bar(middles.wall + wallHalf, wall);
  const body = [
    lettering(`Seen from the ${seen}, at x ${formatTrimmed(place.x, 0)}, y ${formatTrimmed(place.y, 0)}`, [
      0,
      top + 13,
    ]),
    ...pieces.map((piece) => hatching(piece)),
    ...pieces.flatMap((piece) => [line("wide", piece[0], piece[1]), line("wide", piece[2], piece[3])]),
    ...sides.map(([a]) => line("limit", a, [a[0], lower])),
    ...sides.map(([a, b]) => line("wide", a, b)),
    line("centre", [middles.hole, upper - 8], [middles.hole + foot(hole), lower + 8]),
    bars,
    dimension({
      from: [left, upper],
      to: [left, lower],
      along: "y",
      at: left - 20,
      text: formatTrimmed(depth, 1),
    }),
    lettering("hole", [middles.hole + holeHalf + 8, upper - 7], { second: true }),
    lettering("opening", [middles.wall, upper - 7], { anchor: "middle", second: true }),
    lettering(ends[0], [left, lower + 27], { second: true }),
    lettering(ends[1], [right, lower + 27], { anchor: "end", second: true }),
  ];
  return { body: body.join(""), bars };
}

function showsInWords({ hole, wall }: HolesAndWallsPicture): string {
  const way = ({ side, fore }: { readonly side: KnownValue; readonly fore: KnownValue }) =>
    `to the ${side.value >= 0 ? "right" : "left"} and to the ${fore.value >= 0 ? "rear" : "front"}`;
  return `Two sections of a board. Going down, a hole leans ${way(hole)}, a wall ${way(wall)}.`;
}
