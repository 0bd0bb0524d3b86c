import type { Dimensions } from "../dimensions.ts";
import { bump, type Joint, type JointTerm, type Pose } from "../joint.ts";

// mm/m → rad, and mm/m of a scale → mm per mm.
const PER_METRE = 1e-3;

/** The beam's centre along Y: the tool stands ty from it. A bridge does not move along Y. */
function beamY(d: Dimensions, pose: Pose): number {
  return (d.layout === "moving-gantry" ? pose.y : 0) - d.ty;
}

/** Beam on its side plates: height of both ends, roll. */
export const beamOnPlates: Joint = {
  carries: "beam",
  origin: (d, pose) => [d.xm, beamY(d, pose), d.zb],
  terms: (d) => [
    ["beam.roll", "wx", -PER_METRE],
    ["beam.right", "wy", -1 / d.W],
    ["beam.left", "wy", 1 / d.W],
    ["beam.left", "tz", 0.5],
    ["beam.right", "tz", 0.5],
  ],
};

/** Carriage on the beam: the beam's own shape where the carriage stands, scale and play of X. */
export const carriageOnBeam: Joint = {
  carries: "carriage",
  origin: (d, pose) => [pose.x, beamY(d, pose), d.zb],
  terms: (d, pose) => [
    ...beamShape(d, pose.x),
    ["scale.x", "tx", PER_METRE * pose.x],
    ["backlash.x", "tx", -pose.arrivedX / 2],
  ],
  bendingAt: beamShape,
  bendingOrigin: (d, pose, x) => [x, beamY(d, pose), d.zb],
};

/** Slide on the carriage: pushed along its own travel, then leaning as a whole. */
export const slideOnCarriage: Joint = {
  carries: "slide",
  translatesFirst: true,
  origin: (d, pose) => [pose.x, d.layout === "moving-gantry" ? pose.y : 0, d.zs],
  terms: (_, pose) => [
    ["slide.lean.fore", "wx", -PER_METRE],
    ["slide.lean.side", "wy", PER_METRE],
    ["scale.z", "tz", PER_METRE * pose.z],
    ["backlash.z", "tz", -pose.arrivedZ / 2],
  ],
};

/** Spindle in its mount. */
export const spindleOnSlide: Joint = {
  carries: "spindle",
  origin: (d, pose) => [pose.x, d.layout === "moving-gantry" ? pose.y : 0, pose.z + d.zm],
  terms: () => [
    ["spindle.tilt.fore", "wx", -PER_METRE],
    ["spindle.tilt.side", "wy", PER_METRE],
  ],
};

/**
 * What the heights of two rails do to that which stands on them with two feet a side at the fraction v of the travel:
 * pitch, roll over the distance of the rails, and mean height.
 */
export function railHeights(d: Dimensions, v: number): readonly JointTerm[] {
  const foot = d.b / (2 * d.Ly);
  const crown = (bump(v - foot) + bump(v + foot)) / 2;
  const crownPitch = (bump(v + foot) - bump(v - foot)) / (2 * d.b);
  const pitch = 1 / (2 * d.Ly);
  const roll = 1 / d.railSpan;
  return [
    ["rail.left.front", "wx", -pitch],
    ["rail.left.front", "wy", roll * (1 - v)],
    ["rail.left.front", "tz", (1 - v) / 2],
    ["rail.left.rear", "wx", pitch],
    ["rail.left.rear", "wy", roll * v],
    ["rail.left.rear", "tz", v / 2],
    ["rail.left.crown", "wx", crownPitch],
    ["rail.left.crown", "wy", roll * crown],
    ["rail.left.crown", "tz", crown / 2],
    ["rail.right.front", "wx", -pitch],
    ["rail.right.front", "wy", -roll * (1 - v)],
    ["rail.right.front", "tz", (1 - v) / 2],
    ["rail.right.rear", "wx", pitch],
    ["rail.right.rear", "wy", -roll * v],
    ["rail.right.rear", "tz", v / 2],
    ["rail.right.crown", "wx", crownPitch],
    ["rail.right.crown", "wy", -roll * crown],
    ["rail.right.crown", "tz", crown / 2],
  ];
}

function beamShape(d: Dimensions, x: number): readonly JointTerm[] {
  const u = (x - d.xL) / d.W;
  const slope = (4 * (1 - 2 * u)) / d.W;
  return [
    ["beam.twist", "wx", -PER_METRE * (u - 0.5)],
    ["beam.crown", "wy", -slope],
    ["beam.bow", "wz", slope],
    ["beam.bow", "ty", bump(u)],
    ["beam.crown", "tz", bump(u)],
  ];
}
