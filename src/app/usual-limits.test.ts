import { describe, expect, test } from "vitest";
import firstMachine from "../../catalog/usual-limits/first-machine.json" with { type: "json" };
import { workedBridge, workedGantry } from "../../tests/simulation/simulate.ts";
import { findingsOf } from "../core/findings/catalogue.ts";
import { machineFromDescription } from "../core/machine/machine.ts";
import { usualLimitsOf } from "./usual-limits.ts";

const cases = [workedGantry, workedBridge].flatMap((description) =>
  (["belt", "screw"] as const).map((drive) => {
    const drives = { x: { kind: drive }, y: { kind: drive }, z: { kind: "screw" } } as const;
    return { name: description.name, drive, machine: machineFromDescription({ ...description, details: { drives } }) };
  }),
);

describe.each(cases)("usual limits on a $name with a $drive for X and Y", ({ machine, drive }) => {
  test("stand for every finding that work can set a limit for, and for no other", () => {
    const named = findingsOf(machine).flatMap(({ id, hasLimit }) => (hasLimit ? [id] : []));
    const limits = usualLimitsOf(machine);
    for (const id of named) expect(limits.get(id), id).toBeGreaterThan(0);
    for (const id of Object.keys(firstMachine[drive])) expect(named, id).toContain(id);
  });

  test("are stated once: in the table or in the usual kind of work", () => {
    const twice = ["depth-spread", "tram.side", "tram.fore", "scale.x", "scale.y", "lost-motion.x", "runout"];
    for (const id of twice) expect(Object.keys(firstMachine[drive])).not.toContain(id);
  });
});

test.each([
  ["belt", 0.6, 0.4, 0.2, 2, 0.1],
  ["screw", 0.4, 0.3, 0.15, 1, 0.08],
] as const)("of depth, tram, play, scale and runout with a %s are those of general work", (drive, ...expected) => {
  const { machine } = cases.find((one) => one.drive === drive) as (typeof cases)[number];
  const limits = usualLimitsOf(machine);
  const ids = ["depth-spread", "tram.fore", "lost-motion.y", "scale.x", "runout"];
  expect(ids.map((id) => limits.get(id))).toEqual(expected);
});
