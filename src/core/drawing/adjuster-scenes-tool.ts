import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import type { Dimensions } from "../machine/dimensions.ts";
import { type AdjusterScene, type LeafLine, moving, thin } from "./adjuster-scene.ts";
import type { Part, PartName, Place } from "./machine-parts.ts";
import { compareDepth, extentOf, type ViewName } from "./projection.ts";

/** One end of the beam from its own side: the beam is behind the plate, its screws come through the slots. */
export function beamScene(parts: readonly Part[], side: "left" | "right"): AdjusterScene {
  const plate = parts.filter((part) => part.name === "side plate" && part.side === side);
  const beam = parts.filter(({ name }) => name === "beam");
  const rest = parts.filter((part) => part.side === side && ["block", "rail", "frame side"].includes(part.name));
  const { low, high } = extentOf(side, beam);
  const tall = high[1] - low[1];
  return {
    view: side,
    low: [low[0] - 56, low[1] - 0.6 * tall],
    high: [high[0] + 56, high[1] + 0.6 * tall],
    parts: [
      ...rest.sort((a, b) => compareDepth(side, a, b)).map(thin),
      ...plate.map((part) => ({ part, line: "wide" as const, moves: false })),
      ...beam.map((part) => ({ part, line: "hidden-wide" as const, moves: true })),
    ],
    slots: true,
    names: plate.map((part) => ({
      text: part.carriedBy === "bridge" ? "column" : "plate",
      at: [part.low[0], (side === "left" ? Math.max : Math.min)(...headOf(part)), (part.high[2] + high[1]) / 2],
      away: [-34, 24],
    })),
    marksAway: () => [0, 0],
    arrowAway: [(Math.abs(high[0] - low[0]) / 2) * 1.5 + 22, 0],
  };
}

/** Both edges of a side plate at its upper end, y. */
function headOf({ profile = [], high, low }: Part): readonly number[] {
  const ys = profile.filter(([, z]) => z === high[2]).map(([y]) => y);
  return ys.length > 0 ? ys : [low[1], high[1]];
}

/** The slide's plate from the front when it is turned, from the right when it is packed. */
export function slideScene(adjuster: Adjuster, parts: readonly Part[], d: Dimensions): AdjusterScene {
  const carriage = named(parts, "carriage").map((part) => overScrews(part, adjuster, 18));
  const seam = adjuster.fasteners.places[0]![1];
  const plate = plateOver(adjuster, "slide", [seam, seam + forwards(d) * 13], 14);
  return plateScene(adjuster, d, [...named(parts, "beam"), ...carriage], plate, []);
}

/** The spindle's mount from the front when it is turned, from the right when it is packed. */
export function mountScene(adjuster: Adjuster, parts: readonly Part[], d: Dimensions): AdjusterScene {
  const seam = adjuster.fasteners.places[0]![1];
  const plate = plateOver(adjuster, "spindle", [seam, seam + forwards(d) * 10], 12);
  const slide = named(parts, "slide").map((part) => overScrews(part, adjuster, 20));
  const inFront = [...named(parts, "collet"), ...named(parts, "spindle")];
  return plateScene(adjuster, d, slide, plate, inFront);
}

/** Corner of the bed from its own side: leaves go in under it. */
export function bedCornerScene(
  { moves }: Adjuster,
  parts: readonly Part[],
  side: "left" | "right",
  end: "front" | "rear",
): AdjusterScene {
  const [bed] = named(parts, "bed");
  const under = [...named(parts, "crosspiece"), ...named(parts, "table")];
  const place = moves!.place;
  const acrossSign = side === "right" ? 1 : -1;
  const inwards = end === "front" ? 1 : -1;
  const bottom = bed!.low[2];
  const across = [-58, 100].map((from) => acrossSign * (place[1] + inwards * from));
  const leaf = (from: number): Place => [place[0], place[1] + inwards * from, bottom];
  return {
    view: side,
    low: [Math.min(...across), bottom - 56],
    high: [Math.max(...across), bottom + 82],
    parts: [...under.map(thin), moving(bed!)],
    leafLines: { only: [leaf(-24), leaf(38)] },
    names: [
      { text: "bed", at: [place[0], place[1] + inwards * 82, place[2]], away: [0, -52] },
      {
        text: named(parts, "table").length > 0 ? "table" : "bearer",
        at: [place[0], place[1] + inwards * 40, bottom - 24],
      },
    ],
    marksAway: () => [0, -66],
    arrowAway: [-acrossSign * inwards * 20, 0],
  };
}

/** The whole bed from above. */
export function bedTurnScene(parts: readonly Part[]): AdjusterScene {
  const bed = named(parts, "bed");
  const rest = parts.filter(({ name }) => name === "frame side" || name === "rail");
  const { low, high } = extentOf("plan", bed);
  return {
    view: "plan",
    low: [low[0] - 60, low[1] - 60],
    high: [high[0] + 110, high[1] + 60],
    parts: [...rest.map(thin), ...bed.map(moving)],
    names: [{ text: "bed", at: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, 0] }],
    marksAway: () => [0, 0],
    arrowAway: [14, 0],
  };
}

/** The whole machine, where no joint is opened: from above, or from the front for what goes up and down. */
export function wholeScene({ id }: Adjuster, parts: readonly Part[]): AdjusterScene {
  const view: ViewName = id.endsWith(".z") ? "front" : "plan";
  const carrier: Readonly<Record<string, readonly PartName[]>> = {
    x: ["carriage", "spindle", "slide", "mount"],
    y: parts.some(({ name }) => name === "table") ? ["table", "bed"] : ["beam", "side plate"],
    z: ["slide", "mount", "spindle", "collet", "cutter"],
  };
  const wide = id === "bed.skim" ? ["bed"] : (carrier[id.slice(-1)] ?? []);
  const seen = parts
    .filter((part) => !(view === "plan" && part.name === "foot"))
    .sort((a, b) => compareDepth(view, a, b));
  const { low, high } = extentOf(view, seen);
  return {
    view,
    low: [low[0] - 20, low[1] - 40],
    high: [high[0] + 20, high[1] + 60],
    parts: seen.map((part) => ({
      part,
      line: wide.includes(part.name) ? ("wide" as const) : ("thin" as const),
      moves: false,
    })),
    names: [],
    marksAway: () => [0, 0],
    arrowAway: [0, 0],
  };
}

/** A plate with four screws: from the front, or from the right with leaves behind it. */
function plateScene(
  adjuster: Adjuster,
  d: Dimensions,
  behind: readonly Part[],
  plate: Part,
  inFront: readonly Part[],
): AdjusterScene {
  const packed = adjuster.packing !== "none";
  const view: ViewName = packed ? "right" : "front";
  const { low, high } = extentOf(view, [plate]);
  const [top, bottom] = [adjuster.fasteners.places[0]!, adjuster.fasteners.places.at(-1)!];
  const seam = top[1];
  const leaf = (z: number, way: 1 | -1): LeafLine => [
    [top[0], seam, z + way * 34],
    [top[0], seam, z - way * 6],
  ];
  const ahead = forwards(d);
  const middle: Place = [(plate.low[0] + plate.high[0]) / 2, seam, (plate.low[2] + plate.high[2]) / 2];
  const [nearest, farthest] = [inFront.at(-1) ?? plate, behind[0]!];
  const names = [
    ...(packed ? [] : [{ text: nearest.name, at: middle }]),
    ...(packed && farthest.name === "beam"
      ? [{ text: farthest.name, at: [0, (farthest.low[1] + farthest.high[1]) / 2, d.zb] as const }]
      : []),
  ];
  return {
    view,
    low: packed ? [seam + (ahead < 0 ? -84 : -58), low[1] - 26] : [low[0] - 30, low[1] - 26],
    high: packed ? [seam + (ahead < 0 ? 58 : 84), high[1] + 40] : [high[0] + 30, high[1] + 40],
    parts: [...behind.map(thin), moving(plate), ...inFront.map(thin)],
    ...(packed ? { leafLines: { top: leaf(top[2], 1), bottom: leaf(bottom[2], -1) } } : {}),
    names,
    marksAway: () => (packed ? [ahead * 46, 0] : [0, 0]),
    arrowAway: packed ? [ahead * 10, -30] : [0, -34],
  };
}

function plateOver({ fasteners }: Adjuster, member: "slide" | "spindle", [a, b]: readonly number[], rim: number): Part {
  const xs = fasteners.places.map(([x]) => x);
  const zs = fasteners.places.map(([, , z]) => z);
  return {
    name: member === "slide" ? "slide" : "mount",
    carriedBy: member,
    shape: "box",
    low: [Math.min(...xs) - rim, Math.min(a!, b!), Math.min(...zs) - rim],
    high: [Math.max(...xs) + rim, Math.max(a!, b!), Math.max(...zs) + rim],
    stage: "slide mounted",
  };
}

/** The part behind, at least as large as what is screwed to it. */
function overScrews(part: Part, { fasteners }: Adjuster, rim: number): Part {
  const xs = fasteners.places.map(([x]) => x);
  const zs = fasteners.places.map(([, , z]) => z);
  return {
    ...part,
    low: [
      Math.min(part.low[0], ...xs.map((x) => x - rim)),
      part.low[1],
      Math.min(part.low[2], ...zs.map((z) => z - rim)),
    ],
    high: [
      Math.max(part.high[0], ...xs.map((x) => x + rim)),
      part.high[1],
      Math.max(part.high[2], ...zs.map((z) => z + rim)),
    ],
  };
}

/** −1 where the tool stands in front of the beam. */
function forwards(d: Dimensions): 1 | -1 {
  return d.ty <= 0 ? -1 : 1;
}

function named(parts: readonly Part[], name: PartName): readonly Part[] {
  return parts.filter((part) => part.name === name);
}
