import type { Stage } from "../checks/check-words.ts";
import type { Dimensions } from "../machine/dimensions.ts";
import type { Pose } from "../machine/joint.ts";
import type { Member } from "../machine/modes.ts";

/** A place in the work frame, mm. */
export type Place = readonly [x: number, y: number, z: number];

export type PartName =
  | "frame side"
  | "crosspiece"
  | "foot"
  | "rail"
  | "bed"
  | "table"
  | "block"
  | "side plate"
  | "beam"
  | "carriage"
  | "slide"
  | "mount"
  | "spindle"
  | "collet"
  | "cutter";

/** What a part moves with. The rails stand for themselves: nothing of the gantry carries them. */
export type CarriedBy = Member | "left rail" | "right rail";

/**
 * One part as a box, or an upright cylinder in a box, in nominal coordinates at a pose. Sizes that the description does
 * not state are drawn in proportion to those it does; they bear on nothing but the drawing.
 */
export interface Part {
  readonly name: PartName;
  readonly side?: "left" | "right";
  readonly carriedBy: CarriedBy;
  readonly shape: "box" | "cylinder";
  /** Corners with the least and the greatest coordinates. */
  readonly low: Place;
  readonly high: Place;
  /** Outline seen from the side as (y, z), where it is not a rectangle. */
  readonly profile?: readonly (readonly [y: number, z: number])[];
  /** A part that bends is sampled along this axis. */
  readonly bends?: "x" | "y";
  /** From which stage on the part is there. */
  readonly stage: Stage;
}

/** All parts at the pose, in the work frame; a base under a moving table stands where the pose has left it. */
export function partsOfMachine(d: Dimensions, pose: Pose): readonly Part[] {
  return [...baseParts(d, pose), ...gantryParts(d, pose), ...toolParts(d, pose)];
}

/** Where the beam's centre is along Y. */
export function beamCentreY(d: Dimensions, pose: Pose): number {
  return pose.y - d.ty;
}

/** Ends of the rails along Y, where they are at this pose. */
export function railEnds(d: Dimensions, pose: Pose): { readonly front: number; readonly rear: number } {
  return { front: railY(d, pose, d.details.packingPlaces.front), rear: railY(d, pose, d.details.packingPlaces.rear) };
}

/** Y of the place v on the rails: the gantry's middle at y = v·Ly, or the table's middle, which goes the other way. */
export function railY(d: Dimensions, pose: Pose, v: number): number {
  return d.layout === "moving-gantry" ? v * d.Ly - d.ty : (v - 0.5) * d.Ly + pose.y;
}

export function railPlace(d: Dimensions, pose: Pose, y: number): number {
  return d.layout === "moving-gantry" ? (y + d.ty) / d.Ly : (y - pose.y) / d.Ly + 0.5;
}

const RAIL_WIDTH = 16;
const RAIL_HEIGHT = 14;
const SIDE_WIDTH = 40;
const SIDE_HEIGHT = 45;
const PLATE = 12;
const BED = 18;

function baseParts(d: Dimensions, pose: Pose): readonly Part[] {
  const gantry = d.layout === "moving-gantry";
  const { bedMm } = d.details;
  const ends = railEnds(d, pose);
  const left = d.railLeft;
  const right = d.railLeft + d.railSpan;
  const top = d.zr - RAIL_HEIGHT;
  const bottom = top - SIDE_HEIGHT;
  const front = (gantry ? Math.min(ends.front, bedMm.front) : ends.front) - 20;
  const rear = (gantry ? Math.max(ends.rear, bedMm.rear) : ends.rear) + 20;
  const sides = [
    ["left", gantry ? left : d.xL],
    ["right", gantry ? right : d.xR],
  ] as const;
  const crossTop = gantry ? -BED : top;
  const crossBottom = gantry ? Math.max(bottom, -BED - 40) : bottom;
  // On a fixed bridge the rails rest on the crosspieces; the sides carry the columns.
  const inner = { left: sides[0][1] + SIDE_WIDTH / 2, right: sides[1][1] - SIDE_WIDTH / 2 };
  const crossAt = gantry ? [bedMm.front + 20, bedMm.rear - 60] : [front + 10, rear - 50];
  return [
    ...sides.map(
      ([side, x]): Part => ({
        ...boxPart(
          "frame side",
          "frame",
          [x - SIDE_WIDTH / 2, front, bottom],
          [x + SIDE_WIDTH / 2, rear, top],
          "bare frame",
        ),
        side,
      }),
    ),
    ...sides.flatMap(([side, x]) =>
      [front + 25, rear - 25].map(
        (y): Part => ({
          ...boxPart("foot", "frame", [x - 14, y - 14, bottom - 18], [x + 14, y + 14, bottom], "bare frame"),
          shape: "cylinder",
          side,
        }),
      ),
    ),
    ...crossAt.map((y) =>
      boxPart("crosspiece", "frame", [inner.left, y, crossBottom], [inner.right, y + 40, crossTop], "bare frame"),
    ),
    ...(
      [
        ["left", left],
        ["right", right],
      ] as const
    ).map(
      ([side, x]): Part => ({
        ...boxPart(
          "rail",
          `${side} rail`,
          [x - RAIL_WIDTH / 2, ends.front, top],
          [x + RAIL_WIDTH / 2, ends.rear, d.zr],
          "bare frame",
        ),
        side,
        bends: "y",
      }),
    ),
    {
      ...boxPart("bed", "bed", [bedMm.left, bedMm.front, -BED], [bedMm.right, bedMm.rear, 0], "gantry on rails"),
      bends: "x",
    },
    ...(gantry ? [] : tableParts(d, left, right)),
  ];
}

function tableParts(d: Dimensions, left: number, right: number): readonly Part[] {
  const { bedMm } = d.details;
  const plateBottom = Math.min(-BED - 8, d.zr + 8);
  return [
    boxPart(
      "table",
      "table",
      [bedMm.left, bedMm.front, plateBottom],
      [bedMm.right, bedMm.rear, -BED],
      "gantry on rails",
    ),
    ...[left, right].flatMap((x, i) =>
      [-1, 1].map(
        (end): Part => ({
          ...boxPart(
            "block",
            "table",
            [x - 14, d.Ly / 2 + (end * d.b) / 2 - 18, d.zr - 6],
            [x + 14, d.Ly / 2 + (end * d.b) / 2 + 18, plateBottom],
            "gantry on rails",
          ),
          side: i === 0 ? "left" : "right",
        }),
      ),
    ),
  ];
}

function gantryParts(d: Dimensions, pose: Pose): readonly Part[] {
  const gantry = d.layout === "moving-gantry";
  const yb = beamCentreY(d, pose);
  const half = d.zb - d.zu;
  const depth = Math.abs(d.yf);
  const top = d.zb + half + 16;
  const stage = "gantry on rails" as const;
  const outer = gantry ? RAIL_WIDTH / 2 + 16 : 18;
  const footHalf = gantry ? d.b / 2 + 22 : Math.max(depth + 34, 60);
  const bottom = gantry ? d.zr - 10 : d.zr - RAIL_HEIGHT;
  const waist = Math.min(d.zu - 12, d.zr + 50);
  const headHalf = Math.min(footHalf, depth + 22);
  const profile = [
    [yb - footHalf, bottom],
    [yb + footHalf, bottom],
    [yb + footHalf, Math.max(bottom + 10, waist)],
    [yb + headHalf, Math.max(bottom + 20, d.zu + 4)],
    [yb + headHalf, top],
    [yb - headHalf, top],
    [yb - headHalf, Math.max(bottom + 20, d.zu + 4)],
    [yb - footHalf, Math.max(bottom + 10, waist)],
  ] as const;
  const plates = (["left", "right"] as const).map((side): Part => {
    const x = side === "left" ? d.xL : d.xR;
    const way = side === "left" ? -1 : 1;
    const [a, b] = gantry ? [x + way * outer, x + way * (outer + PLATE)] : [x - outer, x + outer];
    return {
      ...boxPart(
        "side plate",
        gantry ? "rails" : "bridge",
        [Math.min(a, b), yb - footHalf, bottom],
        [Math.max(a, b), yb + footHalf, top],
        stage,
      ),
      side,
      profile,
    };
  });
  const blocks = gantry
    ? [d.xL, d.xR].flatMap((x, i) =>
        [-1, 1].map(
          (end): Part => ({
            ...boxPart(
              "block",
              "rails",
              [x - 18, yb + (end * d.b) / 2 - 18, d.zr - 8],
              [x + 18, yb + (end * d.b) / 2 + 18, d.zr + 20],
              stage,
            ),
            side: i === 0 ? "left" : "right",
          }),
        ),
      )
    : [];
  const beam: Part = {
    ...boxPart(
      "beam",
      "beam",
      [d.xL + (gantry ? -outer : outer), yb - depth, d.zu],
      [d.xR + (gantry ? outer : -outer), yb + depth, 2 * d.zb - d.zu],
      stage,
    ),
    bends: "x",
  };
  return [...blocks, beam, ...plates];
}

/** Carriage, slide, mount, spindle, collet and cutter fill the room between the beam's face and the tool's axis. */
function toolParts(d: Dimensions, pose: Pose): readonly Part[] {
  const { x, y, z } = pose;
  const way = d.ty <= 0 ? -1 : 1;
  const face = beamCentreY(d, pose) + way * Math.abs(d.yf);
  const room = Math.max(24, Math.abs(face - y));
  const half = d.zb - d.zu;
  const across = d.details.slideScrewsMm.across / 2;
  const behind = (from: number, to: number) =>
    [
      Math.min(face + way * from * room, face + way * to * room),
      Math.max(face + way * from * room, face + way * to * room),
    ] as const;
  const radius = Math.min(0.47 * room, 0.55 * across + 4);
  const [c0, c1] = behind(0, 0.18);
  const [s0, s1] = behind(0.18, 0.42);
  const [m0, m1] = behind(0.42, 1.12);
  const mountHalf = d.details.mountScrewsMm.up / 2;
  const box = (name: PartName, by: Member, low: Place, high: Place, stage: Stage) =>
    boxPart(name, by, low, high, stage);
  const round = (name: PartName, r: number, low: number, high: number, stage: Stage): Part => ({
    ...box(name, "spindle", [x - r, y - r, low], [x + r, y + r, high], stage),
    shape: "cylinder",
  });
  const nose = z + Math.min(48, 0.5 * d.zm);
  return [
    box(
      "carriage",
      "carriage",
      [x - across - 10, c0, d.zu - 14],
      [x + across + 10, c1, 2 * d.zb - d.zu + 14],
      "slide mounted",
    ),
    box(
      "slide",
      "slide",
      [x - across + 4, s0, z + d.zm - mountHalf - 12],
      [x + across - 4, s1, z + Math.max(d.zm + mountHalf + 12, d.zs + half - 10)],
      "slide mounted",
    ),
    box(
      "mount",
      "spindle",
      [x - radius - 8, m0, z + d.zm - mountHalf * 0.8],
      [x + radius + 8, m1, z + d.zm + mountHalf * 0.8],
      "spindle mounted",
    ),
    round("spindle", radius, nose, z + d.zm + mountHalf + 24, "spindle mounted"),
    round("collet", 0.36 * radius + 1, nose - 14, nose, "spindle mounted"),
    round("cutter", 3, z, nose - 14, "spindle mounted"),
  ];
}

function boxPart(name: PartName, carriedBy: CarriedBy, low: Place, high: Place, stage: Stage): Part {
  return { name, carriedBy, shape: "box", low, high, stage };
}
