import { logNormalCdf, normalCdf, normalHazardRatio, normalQuantile, normalQuantileOfLog } from "./distributions.ts";

// A normal with mean m and standard deviation s that is cut off below 0: what is believed of something that cannot be
// negative. m may lie below 0, where only the tail is left.

/** Mean, standard deviation and equal-tailed 95 % interval. */
export interface AboveNothing {
  readonly value: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
}

/** With t = m/s and λ = φ(t)/Φ(t): mean m + sλ, variance s²(1 − tλ − λ²). Closed form. */
export function normalAboveNothing(mean: number, sd: number): AboveNothing {
  if (sd === 0) return { value: Math.max(0, mean), sd: 0, low: Math.max(0, mean), high: Math.max(0, mean) };
  const t = mean / sd;
  const lambda = normalHazardRatio(t);
  return {
    value: Math.max(0, mean + sd * lambda),
    sd: sd * Math.sqrt(Math.max(0, 1 - t * lambda - lambda * lambda)),
    low: placeAboveNothing(mean, sd, 0.975),
    high: placeAboveNothing(mean, sd, 0.025),
  };
}

/** Chance of at most `limit`: 1 − Φ((m − limit)/s)/Φ(m/s). Closed form. */
export function chanceAtMost(mean: number, sd: number, limit: number): number {
  if (sd === 0) return Math.max(mean, 0) <= limit ? 1 : 0;
  return limit <= 0 ? 0 : 1 - Math.exp(logNormalCdf((mean - limit) / sd) - logNormalCdf(mean / sd));
}

/** The place with the share q of the distribution above it: m − s·Φ⁻¹(q·Φ(m/s)). Closed form. */
export function placeAboveNothing(mean: number, sd: number, shareAbove: number): number {
  const t = mean / sd;
  // So far below nothing what is left of the normal is an exponential.
  if (t <= -1000) return (sd * Math.log(shareAbove)) / t;
  const z =
    t < -4
      ? normalQuantileOfLog(Math.log(shareAbove) + logNormalCdf(t))
      : normalQuantile(Math.min(shareAbove * normalCdf(t), largestShare));
  return Math.max(0, mean - sd * z);
}

/** So far above nothing, in standard deviations, that nothing a double can hold is cut off. */
export const farAboveNothing = 9;

/** The largest double below 1. */
const largestShare = 1 - 2 ** -53;
