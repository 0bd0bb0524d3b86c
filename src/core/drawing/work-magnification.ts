import { type Exaggeration, factors } from "./exaggeration.ts";

/** The steepest and the farthest that something may be drawn out, as on the drawing of the machine. */
export const steepestDrawn = Math.tan((15 * Math.PI) / 180);
export const farthestDrawn = 0.2;

/** The largest factor under which the drawing can be read; 5, and a word about it, where none is. */
export function chooseMagnification(isLegible: (factor: number) => boolean): Exaggeration {
  const fits = factors.find(isLegible);
  return fits === undefined
    ? { factor: factors[factors.length - 1], tooFarOut: true }
    : { factor: fits, tooFarOut: false };
}

/** "errors 200 : 1" */
export function magnificationInShort({ factor, tooFarOut }: Exaggeration, what = "errors"): string {
  return `${what} ${factor} : 1${tooFarOut ? ", too far out to draw larger" : ""}`;
}
