import { expect, it } from "vitest";
import { workedGantry } from "../../../tests/simulation/simulate.ts";
import { timelineOf } from "../../../tests/simulation/small-timeline.ts";
import { machineFromDescription } from "../machine/machine.ts";
import { packingNow } from "./packing-now.ts";
import type { Happening } from "./timeline.ts";

const machine = machineFromDescription({
  ...workedGantry,
  details: { packingNowMm: { "rail.left.front": 0.2, "slide.packing": -0.3 } },
});
const moved = (at: number, adjuster: string, amount: number): Happening => ({
  kind: "moved",
  id: `${adjuster} ${at}`,
  at,
  adjuster,
  amount,
});
const lies = (happenings: readonly Happening[], statedAt: ReadonlyMap<string, number> = new Map()) =>
  packingNow(machine, { ...timelineOf(machine, [], happenings), packingStatedAt: statedAt });

it("begins with what the description states, and with nothing where it states nothing", () => {
  const now = lies([]);
  expect(now.get("rail.left.front")).toBe(0.2);
  expect(now.get("slide.packing")).toBe(-0.3);
  expect(now.get("bed.rear.right")).toBe(0);
  expect(now.has("beam.left")).toBe(false);
});

it("grows and shrinks with what moves lay and take out, down to nothing where leaves only lie in one place", () => {
  const now = lies([
    moved(1, "rail.left.front", 0.1),
    moved(2, "rail.left.front", 0.2),
    moved(3, "slide.packing", 0.5),
    moved(4, "rail.right.front", -0.1),
    moved(5, "beam.left", 0.3),
  ]);
  expect(now.get("rail.left.front")).toBe(0.5);
  expect(now.get("slide.packing")).toBe(0.2);
  expect(now.get("rail.right.front")).toBe(0);
});

it("leaves out moves that were made before the packing was stated", () => {
  const moves = [moved(1, "rail.left.front", 0.1), moved(3, "rail.left.front", 0.05), moved(1, "slide.packing", 0.1)];
  const now = lies(moves, new Map([["rail.left.front", 2]]));
  expect(now.get("rail.left.front")).toBe(0.25);
  expect(now.get("slide.packing")).toBe(-0.2);
});
