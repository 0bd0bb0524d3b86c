import type { Axis } from "./description.ts";

/** The user's names, directions and zeros: theirs = direction · (ours − zeroMm), zeroMm in our coordinates. */
export interface UserCoordinates {
  readonly axes: Readonly<
    Record<Axis, { readonly named: string; readonly direction: 1 | -1; readonly zeroMm: number }>
  >;
  /** True once one move has shown that the directions are as stated. */
  readonly tried: boolean;
}

const axes = ["x", "y", "z"] as const;

/** A place in the user's own coordinates, with their letters: what their machine shows when it stands there. */
export function placeForUser(
  coordinates: UserCoordinates | null,
  place: readonly [x: number, y: number, z: number],
  shown: readonly Axis[] = axes,
): string {
  return shown
    .map((axis) => {
      const own = coordinates?.axes[axis] ?? { named: axis.toUpperCase(), direction: 1, zeroMm: 0 };
      const value = own.direction * (place[axes.indexOf(axis)] - own.zeroMm);
      return `${own.named} ${(Math.round(value * 10) / 10 + 0).toString().replace("-", "−")}`;
    })
    .join(" ");
}
