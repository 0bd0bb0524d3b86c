import { formatTrimmed } from "../base/number-format.ts";
import type { CirclePicture, CircularTurn } from "../work/pictures/circle.ts";
import type { Exaggeration } from "./exaggeration.ts";
import type { FigureUse } from "./figure.ts";
import { lettering, textWidth } from "./lettering.ts";
import { circle, line, onCircle, outline, type Point } from "./lines.ts";
import { frontOfMachine } from "./marks.ts";
import type { Svg } from "./svg.ts";
import { knownInWords, panelWidth, type WorkPanel, type WorkShape, workFigure } from "./work-figure.ts";
import { knownBar } from "./work-known-bar.ts";
import { chooseMagnification, farthestDrawn, magnificationInShort, steepestDrawn } from "./work-magnification.ts";
import { type Compared, picturesOf, type WorkRow, workRow } from "./work-rows.ts";

/** The circle as it comes out both ways round, over the true one. */
export function circleDrawing(
  pictures: Compared<CirclePicture>,
  shape: WorkShape = "wide",
  use: FigureUse = "file",
): Svg {
  const magnification = circleMagnification(pictures);
  const reach = Math.max(...picturesOf(pictures).map((picture) => reachOf(picture, magnification.factor)));
  const panel = (picture: CirclePicture) => panelOf(picture, magnification, reach, panelWidth(shape));
  const [now, after] = [panel(pictures.now), pictures.after && panel(pictures.after)];
  return workFigure(
    {
      title: `${circleTitle(pictures.now)}, over the true shape`,
      scaleInShort: magnificationInShort(magnification),
      now,
      after,
      rows: circleRows(pictures),
      caption: `Thin: as commanded. Wide: as estimated, cut counter-clockwise. Dashed: cut clockwise. The path steps by the play where an axis turns about; the diameters are those without play. ${knownInWords([now, after], "Bars across it", "it")}`,
      shows: showsInWords(pictures.now),
    },
    shape,
    use,
  );
}

export function circleTitle({ radius }: CirclePicture): string {
  return `Circle of ${formatTrimmed(2 * radius, 1)}`;
}

export function circleRows(pictures: Compared<CirclePicture>): readonly WorkRow[] {
  return [
    workRow("largest diameter", pictures, ({ oval }) => oval.largestDiameter),
    workRow("smallest diameter", pictures, ({ oval }) => oval.smallestDiameter),
    workRow("mean diameter", pictures, ({ oval }) => oval.meanDiameter, { weight: "lesser" }),
    workRow("step of X, right and left", pictures, ({ steps }) => steps.x, { opensGroup: true }),
    workRow("step of Y, rear and front", pictures, ({ steps }) => steps.y),
    workRow("out of round, counter-clockwise", pictures, ({ turns }) => turns["counter-clockwise"].leastSquares, {
      weight: "main",
      opensGroup: true,
    }),
    workRow("out of round, clockwise", pictures, ({ turns }) => turns.clockwise.leastSquares, { weight: "main" }),
    workRow(
      "out of round by the minimum zone, counter-clockwise",
      pictures,
      ({ turns }) => turns["counter-clockwise"].minimumZone,
      { weight: "lesser" },
    ),
    workRow("out of round by the minimum zone, clockwise", pictures, ({ turns }) => turns.clockwise.minimumZone, {
      weight: "lesser",
    }),
  ];
}

export function circleMagnification(pictures: Compared<CirclePicture>): Exaggeration {
  return chooseMagnification((factor) => picturesOf(pictures).every((picture) => isLegible(picture, factor)));
}

/** What is not known may reach a little farther than an offset. */
const BAR_REACH = 0.5;

function isLegible({ radius, oval, turns }: CirclePicture, factor: number): boolean {
  // An oval of ± a leans against its circle by at most 2a/r.
  const steepest = (factor * (oval.largestDiameter.value - oval.smallestDiameter.value)) / 2 / radius;
  return (
    steepest <= steepestDrawn &&
    Object.values(turns).every(({ path }) =>
      path.every(({ deviation: { value, expandedUncertainty } }) => {
        const far = factor * Math.abs(value);
        return far <= 2 * farthestDrawn * radius && far + factor * expandedUncertainty <= BAR_REACH * radius;
      }),
    )
  );
}

/** How far from its middle a picture is drawn, mm. */
function reachOf({ radius, turns }: CirclePicture, factor: number): number {
  const path = Object.values(turns).flatMap((turn) => turn.path);
  const far = path.map(({ deviation }) => factor * (deviation.value + deviation.expandedUncertainty));
  return radius + Math.max(0, ...far);
}

const FOR_LABEL = 26;
const LARGEST_RADIUS = 124;

function panelOf(
  { radius, turns, oval }: CirclePicture,
  { factor }: Exaggeration,
  reach: number,
  width: number,
): WorkPanel {
  const scale = Math.min((width / 2 - FOR_LABEL) / reach, (LARGEST_RADIUS + 20) / reach, LARGEST_RADIUS / radius);
  const far = scale * reach;
  const centre: Point = [width / 2, far + FOR_LABEL];
  const at = (angle: number, deviation: number) => onCircle(centre, scale * (radius + factor * deviation), angle);
  const way = ({ path }: CircularTurn) => path.map(({ angleDegrees, deviation }) => at(angleDegrees, deviation.value));
  const bottom = centre[1] + far;
  const cross = far + 8;
  const amplitude = (factor * scale * (oval.largestDiameter.value - oval.smallestDiameter.value)) / 4;
  const bars = barsOf(turns["counter-clockwise"]).map(
    ({ angleDegrees, deviation: { value, expandedUncertainty: u } }) =>
      knownBar(at(angleDegrees, value - u), at(angleDegrees, value + u)),
  );
  const body = [
    line("centre", [centre[0] - cross, centre[1]], [centre[0] + cross, centre[1]]),
    line("centre", [centre[0], centre[1] - cross], [centre[0], centre[1] + cross]),
    amplitude > 2 ? longestAcross(centre, far, oval.directionDegrees, width) : "",
    circle("thin", centre, scale * radius),
    outline("hidden", way(turns.clockwise)),
    ...bars,
    outline("wide", way(turns["counter-clockwise"])),
    frontOfMachine([centre[0], bottom + 16]),
  ];
  return { body: body.join(""), height: bottom + 46, hasMarks: bars.some((shape) => shape !== "") };
}

/** The oval's longer axis, with its word where it leaves the circle towards the rear. */
function longestAcross(centre: Point, far: number, direction: number, width: number): Svg {
  const from = onCircle(centre, far + 6, direction + 180);
  const to = onCircle(centre, far + 6, direction);
  const [x, y] = onCircle(centre, far + 14, direction);
  const down = direction < 20 || direction > 160 ? -6 : 0;
  const half = textWidth(LONGEST) / 2;
  const beside = direction < 80 ? half : direction > 100 ? -half : 0;
  const middle = Math.min(Math.max(x + beside, half), width - half);
  return line("centre", from, to) + lettering(LONGEST, [middle, y + down], { anchor: "middle", second: true });
}

const LONGEST = "largest";

/** Two places in every quarter. */
function barsOf({ path }: CircularTurn): CircularTurn["path"] {
  return path.filter(({ angleDegrees }) => angleDegrees % 90 === 20 || angleDegrees % 90 === 70);
}

function showsInWords({ oval, steps }: CirclePicture): string {
  const direction = Math.round(oval.directionDegrees);
  return `Seen from above, front at the bottom. The circle comes out as an oval, largest at ${direction}° from the right towards the rear, ${steps.x.value > 0.005 || steps.y.value > 0.005 ? "with steps where an axis turns about" : "without steps"}.`;
}
