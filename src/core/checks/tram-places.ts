import type { Dimensions } from "../machine/dimensions.ts";

/** Radius at which the axis is swung, mm: tram is given over twice this. */
export const TRAM_RADIUS = 100;

/**
 * The five places of tram: the centre and 20 % in from the corners, moved inwards until the circle fits the travel.
 * Checks, findings and demands take the same five.
 */
export function tramPlaces(d: Dimensions, radius = TRAM_RADIUS): readonly { key: string; x: number; y: number }[] {
  const inside = (value: number, length: number) =>
    length < 2 * radius ? length / 2 : Math.min(Math.max(value, radius), length - radius);
  const places = [
    ["centre", 0.5, 0.5],
    ["front left", 0.2, 0.2],
    ["front right", 0.8, 0.2],
    ["rear left", 0.2, 0.8],
    ["rear right", 0.8, 0.8],
  ] as const;
  return places.map(([key, fx, fy]) => ({ key, x: inside(fx * d.Lx, d.Lx), y: inside(fy * d.Ly, d.Ly) }));
}
