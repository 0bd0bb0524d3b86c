import { invariant } from "../base/invariant.ts";
import { formatTrimmed } from "../base/number-format.ts";
import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import { directionWord, handWayMm, wayOf } from "../machine/adjusters/direction.ts";
import { fasteningOf, type LeavesToLay, leafText, screwName, sentenceOf } from "../machine/adjusters/sentence.ts";
import type { Machine } from "../machine/machine.ts";
import { partArrow, type ScrewMark, screwMarks, slot } from "./adjuster-marks.ts";
import type { AdjusterScene, ScenePart } from "./adjuster-scene.ts";
import { displacementOf, sceneOf } from "./adjuster-views.ts";
import { whereItIs } from "./adjuster-where.ts";
import { type Displacement, exaggerated } from "./exaggeration.ts";
import { type FigureUse, figure } from "./figure.ts";
import { lettering, letteringLines, textWidth, wrappedText } from "./lettering.ts";
import { circle, leader, line, outline, type Point, rectangle } from "./lines.ts";
import type { Place } from "./machine-parts.ts";
import { frontOfMachine } from "./marks.ts";
import { type Frame, faceOf, inView, onSheet, type ViewName } from "./projection.ts";
import { element, type Svg } from "./svg.ts";

/** One move at one joint. */
export interface AdjusterDrawing {
  readonly machine: Machine;
  readonly adjuster: Adjuster;
  /** In the adjuster's unit; 0: nothing is to be moved yet. */
  readonly amount: number;
  readonly leaves?: LeavesToLay | readonly LeavesToLay[] | null;
}

const WIDTH = 358;
const WINDOW = { left: 10, top: 10, width: 226, height: 200 } as const;
const COLUMN = { left: 248, width: 102 } as const;

/** The joint seen closely, its screws, which way the part goes, and where on the machine it is. */
export function adjusterDrawing(drawing: AdjusterDrawing, use: FigureUse = "file"): Svg {
  const { machine, adjuster, amount } = drawing;
  const scene = sceneOf(machine, adjuster);
  const frame = frameOf(scene);
  const way = wayOnSheet(drawing, scene, frame);
  const plan = scene.view === "plan";
  const body = [
    clipped(closeView(drawing, scene, frame, way)),
    outline("hair", rectangle(WINDOW.left, WINDOW.top, WINDOW.left + WINDOW.width, WINDOW.top + WINDOW.height)),
    screwMarks(screwsOf(adjuster, scene, frame), amount === 0 ? "open" : "now"),
    way ? partArrow(way.from, way.to) : "",
    partNames(scene, frame),
    sides(scene.view),
    whereItIs(machine, adjuster, [COLUMN.left, COLUMN.width]),
    column(drawing, way),
  ].join("");
  const bottom = WINDOW.top + WINDOW.height + (plan ? 44 : 24);
  return figure(WIDTH, Math.max(bottom, 234), wordsFor(drawing, scene), body, use);
}

/** Way of the watched place on the sheet, and how many times too long it is drawn. */
interface WayOnSheet {
  readonly from: Point;
  readonly to: Point;
  readonly factor: number;
  readonly displacement: Displacement;
}

// No longer than this on the sheet, so that the joint stays the joint.
const LONGEST = 30;
const SHORTEST_ARROW = 32;
const factors = [1000, 500, 200, 100, 50, 20, 10, 5, 2, 1];

function wayOnSheet(drawing: AdjusterDrawing, scene: AdjusterScene, frame: Frame): WayOnSheet | null {
  const { machine, adjuster, amount } = drawing;
  const { moves } = adjuster;
  if (!moves || amount === 0) return null;
  const [across, up] = inView(scene.view, wayOf(moves, amount));
  invariant(Math.hypot(across, up) > 0.9, "a joint is drawn from where its motion shows");
  const drawnPerMm = frame.scale * handWayMm(moves, amount);
  const factor = factors.find((candidate) => candidate * drawnPerMm <= LONGEST) ?? 1;
  const length = Math.max(SHORTEST_ARROW, Math.min(factor * drawnPerMm, 60));
  const at = onSheet(frame, moves.place);
  const away = scene.arrowAway;
  const from: Point = [at[0] + away[0], at[1] + away[1]];
  const to: Point = [from[0] + across * length, from[1] - up * length];
  return { from, to, factor, displacement: displacementOf(machine, adjuster, amount, scene) };
}

function frameOf({ view, low, high }: AdjusterScene): Frame {
  const [wide, tall] = [high[0] - low[0], high[1] - low[1]];
  const scale = Math.min(WINDOW.width / wide, WINDOW.height / tall);
  const left = WINDOW.left + (WINDOW.width - scale * wide) / 2;
  const top = WINDOW.top + (WINDOW.height - scale * tall) / 2;
  return { view, scale, origin: [left - scale * low[0], top + scale * high[1]] };
}

/** What lies beyond the window is cut off. */
function clipped(body: Svg): Svg {
  const { left: x, top: y, width, height } = WINDOW;
  return element("svg", { x, y, width, height, viewBox: `${x} ${y} ${width} ${height}` }, body);
}

function closeView(drawing: AdjusterDrawing, scene: AdjusterScene, frame: Frame, way: WayOnSheet | null): Svg {
  const { adjuster } = drawing;
  const now = scene.parts.map((part) => partShape(frame, part, part.line, (place) => place)).join("");
  const slots = scene.slots
    ? adjuster.fasteners.places.map((place) => slot(onSheet(frame, place), 13, 46)).join("")
    : "";
  const then = way
    ? scene.parts
        .filter(({ moves }) => moves)
        .map((part) =>
          partShape(frame, part, "limit", (place) =>
            exaggerated(place, way.displacement(part.part.carriedBy, place), way.factor),
          ),
        )
        .join("")
    : "";
  const { moves } = adjuster;
  // Leaves behind a plate go in where the line from the place to its arrow would run.
  const level =
    way && moves && adjuster.packing !== "top or bottom" ? line("thin", onSheet(frame, moves.place), way.from) : "";
  return now + slots + then + leafLines(drawing, scene, frame) + level;
}

function partShape(
  frame: Frame,
  { part }: ScenePart,
  kind: ScenePart["line"] | "limit",
  drawn: (place: Place) => Place,
): Svg {
  const solid = kind === "thin" || kind === "wide" ? "solid" : "none";
  if (part.shape === "cylinder" && frame.view === "plan") {
    const middle: Place = [(part.low[0] + part.high[0]) / 2, (part.low[1] + part.high[1]) / 2, part.high[2]];
    const radius = Math.max(1.5, ((part.high[0] - part.low[0]) / 2) * frame.scale);
    return circle(kind, onSheet(frame, drawn(middle)), radius, solid);
  }
  return outline(
    kind,
    faceOf(frame.view, part).map((place) => onSheet(frame, drawn(place))),
    solid,
  );
}

/** Leaves that go in, or the packing that comes out, as lines of the accent side by side. */
function leafLines({ amount, adjuster, leaves }: AdjusterDrawing, scene: AdjusterScene, frame: Frame): Svg {
  if (!scene.leafLines || amount === 0) return "";
  const changes = listOf(leaves);
  const usual = adjuster.packing === "one place" ? "only" : amount > 0 ? "top" : "bottom";
  const stacks =
    changes.length > 0
      ? changes.map(({ place, layMm }) => ({ place, count: Math.max(1, layMm.length) }))
      : [{ place: usual, count: 1 } as const];
  return stacks
    .map(({ place, count }) => {
      const leaf = scene.leafLines?.[place];
      if (!leaf) return "";
      const [a, b] = [onSheet(frame, leaf[0]), onSheet(frame, leaf[1])];
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      const across: Point = [(b[1] - a[1]) / length, -(b[0] - a[0]) / length];
      return Array.from({ length: Math.min(count, 4) }, (_, i) => {
        const off = (i - (Math.min(count, 4) - 1) / 2) * 4;
        return line(
          "act",
          [a[0] + across[0] * off, a[1] + across[1] * off],
          [b[0] + across[0] * off, b[1] + across[1] * off],
        );
      }).join("");
    })
    .join("");
}

const towards: Readonly<Record<ViewName, Adjuster["fasteners"]["seenFrom"]>> = {
  plan: "above",
  front: "front",
  right: "right",
  left: "left",
};

function screwsOf(adjuster: Adjuster, { view, marksAway }: AdjusterScene, frame: Frame): readonly ScrewMark[] {
  const { places, seenFrom } = adjuster.fasteners;
  const outOf: Place = seenFrom === "above" ? [0, 0, 1] : seenFrom === "front" ? [0, -1, 0] : [0, 0, 0];
  const [across, up] = inView(view, outOf);
  return places.map((place, i) => ({
    at: onSheet(frame, place),
    outwards: towards[view] === seenFrom ? null : [across, -up],
    name: screwName(adjuster, i),
    away: marksAway(place),
  }));
}

function partNames({ names }: AdjusterScene, frame: Frame): Svg {
  return names
    .filter(({ text }) => text !== "")
    .map(({ text, at, away }) => {
      const [x, y] = onSheet(frame, at);
      if (!away) return lettering(text, [x, y + 4.5], { anchor: "middle", second: true });
      const middle: Point = [x + away[0], y + away[1]];
      const half = textWidth(text) / 2 + 3;
      // The leader leaves the name on the side of the part.
      const from: Point =
        Math.abs(away[0]) > half ? [middle[0] - Math.sign(away[0]) * half, middle[1] - 4] : [middle[0], middle[1] + 4];
      return leader(from, [x, y]) + lettering(text, middle, { anchor: "middle", second: true });
    })
    .join("");
}

/** Which side is which, under the close view. */
function sides(view: ViewName): Svg {
  const middle = WINDOW.left + WINDOW.width / 2;
  const bottom = WINDOW.top + WINDOW.height;
  if (view === "plan") return frontOfMachine([middle, bottom + 6]);
  const ends = { front: ["left", "right"], right: ["front", "rear"], left: ["rear", "front"] } as const;
  const [first, last] = ends[view];
  const right = WINDOW.left + WINDOW.width;
  return (
    lettering(first, [WINDOW.left + 2, bottom + 17], { second: true }) +
    lettering(`from the ${view}`, [middle, bottom + 17], { anchor: "middle", second: true }) +
    lettering(last, [right - 2, bottom + 17], { anchor: "end", second: true })
  );
}

/** Arrow, amount and way once more in words, and what the drawing exaggerates. */
function column(drawing: AdjusterDrawing, way: WayOnSheet | null): Svg {
  const { adjuster, amount } = drawing;
  const { moves } = adjuster;
  const { places, words } = adjuster.fasteners;
  const top = 164;
  const without = places.length === 0 ? wrappedText(words, COLUMN.width) : [];
  if (!way || !moves) return letteringLines(without, [COLUMN.left, top], { second: true });
  const [ux, uy] = unit(way);
  const middle: Point = [COLUMN.left + 14, top - 6];
  const text = formatTrimmed(handWayMm(moves, amount), 2);
  const leaves = listOf(drawing.leaves).flatMap(({ layMm }) => layMm);
  const notes = [
    ...(leaves.length > 0 ? [`lay ${leaves.map((leaf) => leafText(leaf)).join(" + ")}`] : []),
    ...(without.length > 0 ? [] : [`offset ${way.factor} : 1`]),
    ...(moves.over ? [`over ${formatTrimmed(moves.over.lengthMm, 1)}`] : []),
  ].flatMap((note) => wrappedText(note, COLUMN.width));
  return (
    partArrow([middle[0] - ux * 14, middle[1] - uy * 14], [middle[0] + ux * 14, middle[1] + uy * 14]) +
    lettering(text, [COLUMN.left + 34, top - 6], { size: 17, weight: "strong" }) +
    lettering(directionWord(wayOf(moves, amount)), [COLUMN.left + 34, top + 10]) +
    letteringLines(notes, [COLUMN.left, top + 34], { second: true })
  );
}

function unit({ from, to }: WayOnSheet): Point {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
}

function listOf(leaves: AdjusterDrawing["leaves"]): readonly LeavesToLay[] {
  if (!leaves) return [];
  return "place" in leaves ? [leaves] : leaves;
}

const viewWords: Readonly<Record<ViewName, string>> = {
  plan: "Seen from above, the front at the bottom",
  front: "Seen from the front",
  right: "Seen from the right, the front at the left",
  left: "Seen from the left, the front at the right",
};

function wordsFor(drawing: AdjusterDrawing, scene: AdjusterScene) {
  const { adjuster, amount, leaves = null } = drawing;
  const loosen = fasteningOf(adjuster)?.loosen ?? "";
  const sentence = amount === 0 && adjuster.does === undefined ? "" : sentenceOf(adjuster, amount, { leaves });
  return {
    title: `${adjuster.letter}: ${adjuster.words}`,
    description: [`${viewWords[scene.view]}.`, loosen, sentence].filter((text) => text !== "").join(" "),
  };
}
