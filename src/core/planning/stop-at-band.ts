import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import { type Demand, reduceSamples } from "../work/demand.ts";

/** A demand's samples with the machine before and after one move, in the demand's unit. */
export interface DemandAcross {
  readonly demand: Pick<Demand, "form" | "groups" | "limit">;
  readonly before: ArrayLike<number>;
  readonly after: ArrayLike<number>;
}

/** Amounts at which one may stop, from the lower to the higher, in the adjuster's unit. */
export interface BandOfAmounts {
  readonly from: number;
  readonly to: number;
  /** False where the joint itself leaves more to chance than some demand has to spare. */
  readonly keepsDemands: boolean;
}

/** Nobody stops further from what was advised than by this share of it. */
const MOST_SHARE = 0.25;
/** Samples are not quite straight in the amount: this share of a limit is kept for that. */
const KEPT_BACK = 0.001;

/**
 * How far an amount may be missed. Samples are taken as straight between before and after, and beyond; the demand's
 * number is then convex in the amount, so that what is allowed is one stretch around the advised amount. It is never
 * narrower to either side than what is left to chance (`sd`, in the amount's unit) and never wider than a quarter of the move, so that the whole band
 * is half of it at most: a reading in it then also shows that the move was made.
 * Only demands that are within their limits after the move count.
 *
 * @param move `noFurther`: there is nothing beyond the amount but chance, as with play that has been taken up
 */
export function bandOfAmounts(
  { amount, sd, noFurther = false }: { readonly amount: number; readonly sd: number; readonly noFurther?: boolean },
  demands: readonly DemandAcross[],
): BandOfAmounts {
  const most = MOST_SHARE * Math.abs(amount);
  const least = Math.min(sd, most);
  const within = demands.filter(({ demand, after }) => reduceSamples(demand, after) <= demand.limit);
  const room = (way: 1 | -1) =>
    within.reduce((narrowest, across) => Math.min(narrowest, roomOf(across, way / Math.abs(amount), narrowest)), most);
  // Along the move, and back against it.
  const [onwards, back] = [noFurther ? Math.min(least, room(1)) : room(1), room(-1)];
  const ends = [
    amount + Math.sign(amount) * Math.max(onwards, least),
    amount - Math.sign(amount) * Math.max(back, least),
  ];
  return { from: Math.min(...ends), to: Math.max(...ends), keepsDemands: Math.min(onwards, back) >= least };
}

/** What nipping up leaves to chance, in the amount's unit: for what is taken up anew, as a share of the way. */
export function scatterOfMove(
  { kind, sd, leaves }: Pick<Adjuster, "kind" | "sd" | "leaves">,
  changeOf: (parameter: string) => number,
): number {
  if (kind !== "assign") return sd;
  const shares = Object.entries(leaves ?? {}).map(([id, [, left]]) => left / Math.abs(changeOf(id)));
  return Math.max(0, ...shares.filter(Number.isFinite));
}

/** @param perAmount share of the whole move that one unit more of the amount is, with the way as its sign */
function roomOf({ demand, before, after }: DemandAcross, perAmount: number, most: number): number {
  const limit = Math.max(demand.limit * (1 - KEPT_BACK), Math.min(demand.limit, reduceSamples(demand, after)));
  const isWithin = (room: number) => {
    const values = Array.from(after, (value, i) => value + (value - before[i]) * perAmount * room);
    return reduceSamples(demand, values) <= limit;
  };
  if (isWithin(most)) return most;
  let [low, high] = [0, most];
  for (let halving = 0; halving < 40; halving++) {
    const middle = (low + high) / 2;
    if (isWithin(middle)) low = middle;
    else high = middle;
  }
  return low;
}
