import { formatNumber, formatTrimmed } from "../base/number-format.ts";
import type { DepthAt, DepthMapPicture, StepMap, WorkArea } from "../work/pictures/depth-map.ts";
import type { PlanPlace } from "../work/pictures/work-place.ts";
import type { FigureUse } from "./figure.ts";
import { circle, dot, line, type Point } from "./lines.ts";
import { frontOfMachine } from "./marks.ts";
import type { Svg } from "./svg.ts";
import { panelWidth, type WorkPanel, type WorkShape, workFigure } from "./work-figure.ts";
import { type Compared, picturesOf, type WorkRow, workRow } from "./work-rows.ts";
import { bandHistogram, histogramHeight, labelRoom, lowestBand, stepMapShapes } from "./work-step-map.ts";

/** How deep one commanded depth comes out over an area: the more ink, the deeper. */
export function depthMapDrawing(
  pictures: Compared<DepthMapPicture>,
  shape: WorkShape = "wide",
  use: FigureUse = "file",
): Svg {
  const lowest = lowestBand(picturesOf(pictures).map(({ map }) => map));
  const panel = (picture: DepthMapPicture) => panelOf(picture, lowest, panelWidth(shape));
  const step = formatTrimmed(pictures.now.map.step, 3);
  return workFigure(
    {
      title: depthMapTitle(pictures.now),
      scaleInShort: `lines every ${step} mm`,
      now: panel(pictures.now),
      after: pictures.after && panel(pictures.after),
      rows: depthMapRows(pictures),
      caption:
        "How deep one commanded depth comes out, against the place of touching off. The stronger the shade, the deeper; wide line: as deep as commanded. Cross: where it is touched off. Ring: shallowest, dot: deepest of five by five places. Under the map, how much of the area comes out how deep.",
      shows: showsInWords(pictures.now),
    },
    shape,
    use,
  );
}

export function depthMapTitle({ alongX, alongY }: WorkArea): string {
  return `Depth over ${formatTrimmed(alongX, 1)} × ${formatTrimmed(alongY, 1)}`;
}

export function depthMapRows(pictures: Compared<DepthMapPicture>): readonly WorkRow[] {
  const thickness = formatTrimmed(pictures.now.thickness, 1);
  return [
    workRow("shallowest", pictures, ({ shallowest }) => shallowest.depth, { sign: "always" }),
    workRow("deepest", pictures, ({ deepest }) => deepest.depth, { sign: "always" }),
    workRow("spread", pictures, ({ spread }) => spread, { weight: "main" }),
    workRow(`a cut through ${thickness} is set deeper by`, pictures, ({ throughCut }) => throughCut.deeperBy, {
      sign: "always",
      opensGroup: true,
    }),
    workRow("then it bites the bed by up to", pictures, ({ throughCut }) => throughCut.bite),
    ...pictures.now.places.map(({ place: { x, y } }, i) =>
      workRow(`at x ${formatTrimmed(x, 0)}, y ${formatTrimmed(y, 0)}`, pictures, ({ places }) => places[i].depth, {
        sign: "always",
        weight: "lesser",
      }),
    ),
  ];
}

const TALLEST = 250;

function panelOf(picture: DepthMapPicture, lowest: number, width: number): WorkPanel {
  const { alongX, alongY, map, touchOff, shallowest, deepest } = picture;
  const scale = Math.min((width - 2 * labelRoom.side) / alongX, TALLEST / alongY);
  const [wide, tall] = [scale * alongX, scale * alongY];
  const left = (width - wide) / 2;
  const top = labelRoom.above;
  const at = placeOnMap(picture, scale, [left, top]);
  const bottom = top + tall;
  const front = bottom + labelRoom.below;
  const histogramTop = front + 36;
  const body = [
    stepMapShapes(map, at, { left, top, right: left + wide, bottom }, lowest),
    touchOffCross(at(touchOff)),
    mark(shallowest, at, "ring"),
    mark(deepest, at, "dot"),
    frontOfMachine([width / 2, front]),
    bandHistogram(map, [24, histogramTop], width - 48, lowest),
  ];
  return { body: body.join(""), height: histogramTop + histogramHeight };
}

export function placeOnMap({ place, alongX, alongY }: WorkArea, scale: number, [left, top]: Point) {
  return ({ x, y }: PlanPlace): Point => [
    left + scale * (x - place.x + alongX / 2),
    top + scale * (alongY / 2 - (y - place.y)),
  ];
}

function touchOffCross([x, y]: Point): Svg {
  return line("wide", [x - 9, y], [x + 9, y]) + line("wide", [x, y - 9], [x, y + 9]);
}

function mark({ place }: DepthAt, at: (place: PlanPlace) => Point, kind: "ring" | "dot"): Svg {
  return kind === "ring"
    ? circle("wide", at(place), 5, "solid")
    : circle("wide", at(place), 5, "solid") + dot(at(place), 3);
}

/** Where a place lies in the area, in words: "rear left", "middle". */
export function placeInWords({ place, alongX, alongY }: WorkArea, { x, y }: PlanPlace): string {
  const across = thirdOf((x - place.x) / alongX);
  const up = thirdOf((y - place.y) / alongY);
  const words = [["front", "", "rear"][up], ["left", "", "right"][across]].filter((word) => word !== "");
  return words.length === 0 ? "middle" : words.join(" ");
}

function thirdOf(fraction: number): 0 | 1 | 2 {
  return fraction < -1 / 6 ? 0 : fraction > 1 / 6 ? 2 : 1;
}

function showsInWords(picture: DepthMapPicture): string {
  const { shallowest, deepest, map } = picture;
  const shares = map.bands.map(
    ({ from, to, share }) => `${signed(from, map)} to ${signed(to, map)}: ${Math.round(100 * share)} %`,
  );
  return `Map from above, front at the bottom. Shallowest at the ${placeInWords(picture, shallowest.place)}, deepest at the ${placeInWords(picture, deepest.place)}. Shares of the area by depth: ${shares.join("; ")}.`;
}

function signed(value: number, { step }: StepMap): string {
  return formatNumber(value, Math.max(0, Math.ceil(-Math.log10(step) - 1e-9)), "always");
}
