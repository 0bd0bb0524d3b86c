import type { Dimensions } from "./dimensions.ts";
import type { Member } from "./modes.ts";

/** The direction from which an axis arrived: +1 going up in its coordinate, −1 going down, 0 when it does not matter. */
export type Arrival = 1 | -1 | 0;

/** Where the machine was commanded to, in mm, and how each axis arrived there. */
export interface Pose {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly arrivedX: Arrival;
  readonly arrivedY: Arrival;
  readonly arrivedZ: Arrival;
}

/** Stations are reached going up along X and Y and coming down along Z unless the station says otherwise. */
export function poseAt(x: number, y: number, z: number, arrived: Partial<Omit<Pose, "x" | "y" | "z">> = {}): Pose {
  return { x, y, z, arrivedX: 1, arrivedY: 1, arrivedZ: -1, ...arrived };
}

/** Components of a joint's motion: rotation vector w (rad), then translation t (mm). */
export const component = { wx: 0, wy: 1, wz: 2, tx: 3, ty: 4, tz: 5 } as const;
export type Component = keyof typeof component;

/** What one unit of a mode (mm or mm/m) does to one component of a joint's motion at a pose. */
export type JointTerm = readonly [parameter: string, component: Component, coefficient: number];

/**
 * One joint of a branch: p → o + R(w)(p − o) + t, with w and t linear in the modes at a given pose.
 * The slide is pushed first and turned afterwards (`translatesFirst`): p → o + R(w)(p + t − o).
 */
export interface Joint {
  readonly carries: Member;
  readonly translatesFirst?: boolean;
  origin(d: Dimensions, pose: Pose): readonly [number, number, number];
  terms(d: Dimensions, pose: Pose): readonly JointTerm[];
  /** For a member that bends: the terms at a point that stands at x on it, whatever the pose. */
  bendingAt?(d: Dimensions, x: number): readonly JointTerm[];
  bendingOrigin?(d: Dimensions, pose: Pose, x: number): readonly [number, number, number];
}

/** A layout is data: its joints from the frame outwards, once for the tool and once for the work. */
export interface Layout {
  readonly id: Dimensions["layout"];
  readonly words: string;
  readonly toolBranch: readonly Joint[];
  readonly workBranch: readonly Joint[];
}

/** 4t(1 − t): 0 at both ends, 1 in the middle, continued outside. */
export function bump(t: number): number {
  return 4 * t * (1 - t);
}
