import { formatTrimmed } from "../base/number-format.ts";
import type { RectangleCorner, RectanglePicture } from "../work/pictures/rectangle.ts";
import type { Exaggeration } from "./exaggeration.ts";
import type { FigureUse } from "./figure.ts";
import { dimension, line, outline, type Point } from "./lines.ts";
import { frontOfMachine } from "./marks.ts";
import { element, numberText, type Svg } from "./svg.ts";
import { knownInWords, panelWidth, type WorkPanel, type WorkShape, workFigure } from "./work-figure.ts";
import { chooseMagnification, farthestDrawn, magnificationInShort, steepestDrawn } from "./work-magnification.ts";
import { type Compared, picturesOf, type WorkRow, workRow } from "./work-rows.ts";

/** The square or rectangle as it comes out, over the true shape. */
export function squareDrawing(
  pictures: Compared<RectanglePicture>,
  shape: WorkShape = "wide",
  use: FigureUse = "file",
): Svg {
  const magnification = squareMagnification(pictures);
  const extent = drawnExtent(pictures, magnification.factor);
  const panel = (picture: RectanglePicture) => panelOf(picture, magnification, extent, panelWidth(shape));
  const [now, after] = [panel(pictures.now), pictures.after && panel(pictures.after)];
  return workFigure(
    {
      title: `${squareTitle(pictures.now)}, over the true shape`,
      scaleInShort: magnificationInShort(magnification),
      now,
      after,
      rows: squareRows(pictures),
      caption: `Thin: as commanded. Wide: as estimated. Dash-dotted: its diagonals. ${knownInWords([now, after], "Dashed rings", "the corner")}`,
      shows: showsInWords(pictures.now),
    },
    shape,
    use,
  );
}

export function squareTitle({ alongX, alongY }: RectanglePicture): string {
  const [a, b] = [formatTrimmed(alongX, 1), formatTrimmed(alongY, 1)];
  return a === b ? `Square of ${a}` : `Rectangle of ${a} × ${b}`;
}

export function squareRows(pictures: Compared<RectanglePicture>): readonly WorkRow[] {
  const side = (name: keyof RectanglePicture["sides"], words: string) =>
    workRow(words, pictures, ({ sides }) => sides[name]);
  return [
    side("front", "along X, front side"),
    side("rear", "along X, rear side"),
    side("left", "along Y, left side"),
    side("right", "along Y, right side"),
    workRow("diagonal, front left to rear right", pictures, ({ diagonals }) => diagonals.fromFrontLeft, {
      opensGroup: true,
    }),
    workRow("diagonal, front right to rear left", pictures, ({ diagonals }) => diagonals.fromFrontRight),
    workRow("the first is longer by", pictures, ({ diagonals }) => diagonals.difference, {
      sign: "always",
      weight: "main",
    }),
    workRow("front left corner, + wider than 90°", pictures, ({ skew }) => skew, {
      unit: "mm/m",
      sign: "always",
      opensGroup: true,
    }),
    ...pictures.now.corners.flatMap(({ name }, i) => [
      workRow(`${name} corner, + to the right`, pictures, ({ corners }) => corners[i].off[0], {
        sign: "always",
        weight: "lesser",
      }),
      workRow(`${name} corner, + to the rear`, pictures, ({ corners }) => corners[i].off[1], {
        sign: "always",
        weight: "lesser",
      }),
      workRow(`${name} corner, its own angle, + wider than 90°`, pictures, ({ corners }) => corners[i].angle, {
        unit: "mm/m",
        sign: "always",
        weight: "lesser",
      }),
    ]),
  ];
}

/** One factor for both pictures, so that they can be compared. */
export function squareMagnification(pictures: Compared<RectanglePicture>): Exaggeration {
  return chooseMagnification((factor) => picturesOf(pictures).every((picture) => isLegible(picture, factor)));
}

/** A ring that is hardly known may reach a little farther than an offset. */
const RING_REACH = 0.35;

function isLegible({ alongX, alongY, corners }: RectanglePicture, factor: number): boolean {
  const sizes = [alongX, alongY] as const;
  const nearEnough = corners.every(({ off, ring }) =>
    sizes.every((size, axis) => {
      const far = factor * Math.abs(off[axis].value);
      return far <= farthestDrawn * size && far + factor * ring.semiMajor <= RING_REACH * Math.max(alongX, alongY);
    }),
  );
  const turned = corners.every(({ off, nominal }, i) => {
    const next = corners[(i + 1) % corners.length];
    const along = [next.nominal[0] - nominal[0], next.nominal[1] - nominal[1]];
    const change = [0, 1].map((axis) => factor * (next.off[axis].value - off[axis].value));
    const across = Math.abs(along[0] * change[1] - along[1] * change[0]);
    return across <= steepestDrawn * (along[0] ** 2 + along[1] ** 2);
  });
  return nearEnough && turned;
}

interface PlanExtent {
  readonly left: number;
  readonly right: number;
  readonly front: number;
  readonly rear: number;
}

/** What both pictures cover about the middle of the part, mm. */
function drawnExtent(pictures: Compared<RectanglePicture>, factor: number): PlanExtent {
  const reach = (axis: 0 | 1, sign: 1 | -1) =>
    Math.max(
      ...picturesOf(pictures).flatMap(({ corners, outline: sides }) => [
        ...sides.map(({ nominal, off }) => sign * (nominal[axis] + factor * off[axis])),
        ...corners.map(
          ({ nominal, off, ring }) => sign * (nominal[axis] + factor * off[axis].value) + factor * ring.semiMajor,
        ),
        ...corners.map(({ nominal }) => sign * nominal[axis]),
      ]),
    );
  return { left: reach(0, -1), right: reach(0, 1), front: reach(1, -1), rear: reach(1, 1) };
}

const FOR_DIMENSION = 34;
const FOR_FRONT = 38;
const TALLEST = 300;

function panelOf(
  { corners, outline: sides, alongX, alongY }: RectanglePicture,
  { factor }: Exaggeration,
  extent: PlanExtent,
  width: number,
): WorkPanel {
  const [across, up] = [extent.left + extent.right, extent.front + extent.rear];
  const scale = Math.min((width - FOR_DIMENSION - 6) / across, TALLEST / up);
  const x0 = FOR_DIMENSION + (width - FOR_DIMENSION - scale * across) / 2 + scale * extent.left;
  const y0 = FOR_DIMENSION + scale * extent.rear;
  const at = (x: number, y: number): Point => [x0 + scale * x, y0 - scale * y];
  const drawn = (nominal: readonly [number, number], off: readonly [number, number]) =>
    at(nominal[0] + factor * off[0], nominal[1] + factor * off[1]);
  const cornerAt = ({ nominal, off }: RectangleCorner) => drawn(nominal, [off[0].value, off[1].value]);
  const [frontLeft, frontRight, rearRight, rearLeft] = corners.map(cornerAt);
  const bottom = y0 + scale * extent.front;
  const rings = corners.map((corner) => ringShape(corner, cornerAt(corner), factor * scale));
  const body = [
    line("centre", frontLeft, rearRight),
    line("centre", frontRight, rearLeft),
    outline(
      "thin",
      corners.map(({ nominal }) => at(...nominal)),
    ),
    ...rings,
    outline(
      "wide",
      sides.map(({ nominal, off }) => drawn(nominal, off)),
    ),
    dimension({
      from: at(-alongX / 2, alongY / 2),
      to: at(alongX / 2, alongY / 2),
      along: "x",
      at: y0 - scale * extent.rear - 16,
      text: formatTrimmed(alongX, 1),
    }),
    dimension({
      from: at(-alongX / 2, -alongY / 2),
      to: at(-alongX / 2, alongY / 2),
      along: "y",
      at: x0 - scale * extent.left - 16,
      text: formatTrimmed(alongY, 1),
    }),
    frontOfMachine([x0, bottom + 12]),
  ];
  return { body: body.join(""), height: bottom + 12 + FOR_FRONT - 10, hasMarks: rings.some((ring) => ring !== "") };
}

/** Too small to be seen as a ring, it is left out. */
const SMALLEST_RING = 1.5;

function ringShape({ ring, name }: RectangleCorner, [cx, cy]: Point, scale: number): Svg {
  const [rx, ry] = [scale * ring.semiMajor, scale * ring.semiMinor];
  if (rx < SMALLEST_RING) return "";
  return element("ellipse", {
    class: "thin",
    "data-ring": name,
    cx,
    cy,
    rx,
    ry: Math.max(ry, 0.5),
    "stroke-dasharray": "4 3",
    transform: `rotate(${numberText(-ring.directionDegrees)} ${numberText(cx)} ${numberText(cy)})`,
  });
}

function showsInWords({ corners, diagonals }: RectanglePicture): string {
  const ways = corners.map(({ name, off: [x, y] }) => {
    const across = x.value >= 0 ? "right" : "left";
    const up = y.value >= 0 ? "rear" : "front";
    return `The ${name} corner lies to the ${across} and to the ${up} of where it should be, about the middle of the part.`;
  });
  const longer = diagonals.difference.value >= 0 ? "front left" : "front right";
  return [`Seen from above, front at the bottom. The diagonal from the ${longer} is the longer.`, ...ways].join(" ");
}
