import { homingYawSd, type Machine } from "../machine/machine.ts";
import type { Observation } from "./observations.ts";

// What is usual counts as much as this many homings.
const USUAL_WEIGHT = 4;

/**
 * Standard deviation of the yaw that a homing leaves, mm/m: the usual figure, and what home-repeat has shown of this
 * machine: s² = (4·s₀² + Σ(d − d̄)²/g²)/(4 + n − 1), d the dial's readings and g what 1 mm/m of yaw moves it by, mm.
 */
export function learntHomingSd(machine: Machine, observations: readonly Observation[]): number {
  const usual = homingYawSd(machine);
  if (usual === 0) return 0;
  const byRun = new Map<string, number[]>();
  for (const { check, run, values } of observations) {
    if (check.id !== "home-repeat") continue;
    byRun.set(run.id, [...(byRun.get(run.id) ?? []), ...values.map((v) => v.value)]);
  }
  const { Lx, xm } = machine.dimensions;
  const perUnit = (0.95 * Lx - xm) / 1000;
  let squares = USUAL_WEIGHT * usual ** 2;
  let weight = USUAL_WEIGHT;
  for (const values of byRun.values()) {
    if (values.length < 2) continue;
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    squares += values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / perUnit ** 2;
    weight += values.length - 1;
  }
  return Math.sqrt(squares / weight);
}
