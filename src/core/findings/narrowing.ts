import type { Estimate } from "../fit/estimate.ts";
import { presentCovariance } from "../fit/present-scene.ts";
import { quadraticForm } from "../numerics/symmetric.ts";

/** Where the readings have left this much of what is usual, they have said nothing. */
export const UNREAD = 0.95;

/**
 * How far the readings have narrowed something computed in the present scene: its standard deviation now over that which
 * it would have without any reading. 1 where nothing bears on it.
 *
 * @param unread variances of the parameters without any reading (`unreadVariances`)
 */
export function narrowing(estimate: Estimate, gradient: Float64Array, unread: Float64Array): number {
  let variance = 0;
  for (let i = 0; i < unread.length; i++) variance += gradient[i] ** 2 * unread[i];
  return variance > 0 ? Math.sqrt(quadraticForm(presentCovariance(estimate), gradient) / variance) : 1;
}
