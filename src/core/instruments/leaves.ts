import { invariant } from "../base/invariant.ts";
import type { LeafSet } from "./instrument.ts";

/** Leaves laid on one another, the thickest first. */
export interface Stack {
  readonly totalMm: number;
  readonly leavesMm: readonly number[];
}

/**
 * Every thickness a set can make, from thin to thick, each with the fewest leaves that make it and, among those, the
 * thickest single leaf: few leaves bend less and hide less dirt.
 */
export function stacksOf(set: LeafSet): readonly Stack[] {
  const leaves = [...new Set(set.leavesMm.map(inTenNanometres))].sort((a, b) => b - a);
  const byTotal = new Map<number, readonly number[]>();
  const add = (chosen: readonly number[], next: number): void => {
    if (chosen.length > 0) {
      const total = chosen.reduce((sum, leaf) => sum + leaf, 0);
      const known = byTotal.get(total);
      if (!known || chosen.length < known.length) byTotal.set(total, chosen);
    }
    if (chosen.length === set.largestStack) return;
    for (let index = next; index < leaves.length; index++) add([...chosen, leaves[index]!], index + 1);
  };
  add([], 0);
  return [...byTotal]
    .sort(([a], [b]) => a - b)
    .map(([total, chosen]) => ({ totalMm: total / perMm, leavesMm: chosen.map((leaf) => leaf / perMm) }));
}

/** The thinnest and the thickest that a set can make. */
export function stackLimits(stacks: readonly Stack[]): { readonly thinnestMm: number; readonly thickestMm: number } {
  invariant(stacks.length > 0, "a set has at least one leaf");
  return { thinnestMm: stacks[0]!.totalMm, thickestMm: stacks.at(-1)!.totalMm };
}

/**
 * The stack that makes a thickness, or the nearest one within a tolerance: leaves in thousandths also carry their size in
 * rounded millimetres, and somebody types that.
 */
export function stackThatMakes(stacks: readonly Stack[], thicknessMm: number, toleranceMm = 0): Stack | null {
  const { below, above } = stacksAround(stacks, thicknessMm);
  const near = [below, above].filter((stack) => stack !== null);
  near.sort((a, b) => Math.abs(a.totalMm - thicknessMm) - Math.abs(b.totalMm - thicknessMm));
  const nearest = near[0];
  return nearest && Math.abs(nearest.totalMm - thicknessMm) <= toleranceMm + 0.5 / perMm ? nearest : null;
}

/** The next thicker stack, that is tried after this one goes; null above the thickest. */
export function nextStackUp(stacks: readonly Stack[], thicknessMm: number): Stack | null {
  return stacks.find(({ totalMm }) => inTenNanometres(totalMm) > inTenNanometres(thicknessMm)) ?? null;
}

/** The thickest stack that is not thicker, and the thinnest that is not thinner. */
export function stacksAround(
  stacks: readonly Stack[],
  thicknessMm: number,
): { readonly below: Stack | null; readonly above: Stack | null } {
  const sought = inTenNanometres(thicknessMm);
  const thicker = stacks.filter(({ totalMm }) => inTenNanometres(totalMm) >= sought);
  const thinner = stacks.filter(({ totalMm }) => inTenNanometres(totalMm) <= sought);
  return { below: thinner.at(-1) ?? null, above: thicker[0] ?? null };
}

/** Sums are compared as whole numbers of 10 nm, the hundredth part of the finest difference between two stacks of any set. */
const perMm = 100_000;

function inTenNanometres(mm: number): number {
  return Math.round(mm * perMm);
}
