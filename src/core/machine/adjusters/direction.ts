import type { Motion } from "./adjuster.ts";
import type { Place } from "./place.ts";

/** A way in the words of somebody who stands at the front and faces the machine. */
export type DirectionWord = "to the right" | "to the left" | "to the rear" | "to the front" | "up" | "down";

const words: readonly (readonly [plus: DirectionWord, minus: DirectionWord])[] = [
  ["to the right", "to the left"],
  ["to the rear", "to the front"],
  ["up", "down"],
];

/** The word for a direction in the work frame: that of its largest component. */
export function directionWord(direction: Place): DirectionWord {
  const sizes = direction.map(Math.abs);
  const axis = sizes.indexOf(Math.max(...sizes));
  return words[axis]![direction[axis]! < 0 ? 1 : 0];
}

/** The way in which the place goes for an amount of this sign. */
export function wayOf({ along }: Pick<Motion, "along">, amount: number): Place {
  const sign = amount < 0 ? -1 : 1;
  return [sign * along[0] + 0, sign * along[1] + 0, sign * along[2] + 0];
}

/** How far the hand moves the place for an amount, mm, never negative. */
export function handWayMm({ over }: Pick<Motion, "over">, amount: number): number {
  return over ? (Math.abs(amount) * over.lengthMm) / 1000 : Math.abs(amount);
}

/** The amount, never negative, for which the hand moves the place so far: `handWayMm` the other way round. */
export function amountForWay({ over }: Pick<Motion, "over">, wayMm: number): number {
  return over ? (Math.abs(wayMm) * 1000) / over.lengthMm : Math.abs(wayMm);
}
