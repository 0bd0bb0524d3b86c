import { describe, expect, it } from "vitest";
import { kindForFamily } from "../app/catalog.ts";
import { newSession, sessionWith } from "../app/session.ts";
import { Stamp } from "../app/stamp.ts";
import { takeRun } from "../app/take-run.ts";
import { usualMachine } from "../app/usual-machine.ts";
import { checks } from "../core/checks/catalogue.ts";
import type { Check } from "../core/checks/check.ts";
import type { MachineDescription } from "../core/machine/description.ts";
import { howToType } from "./how-to-type.ts";

const surroundings = {
  nowMs: () => Date.UTC(2026, 2, 14, 18),
  offsetMinutes: () => 60,
  randomBytes: (count: number) => Uint8Array.from({ length: count }, (_, i) => i),
};

const machines: readonly MachineDescription[] = [
  usualMachine,
  { ...usualMachine, layout: "fixed-bridge", railPlanesMm: { left: -60, right: 660 }, wheelbaseMm: 200 },
];

/** A machine whose owner has the usual kind of every tool that the check is read with, and every object it leans on. */
function sessionFor(machine: MachineDescription, check: Check) {
  const stamp = new Stamp(surroundings);
  const family = check.instruments[0];
  const kind = family === undefined ? null : kindForFamily(family).id;
  const events = [
    stamp.event("machine-described", { machine } as never),
    ...(kind === null ? [] : [stamp.event("instrument-added", { instrument: { id: "mine", kind } } as never)]),
  ];
  const session = newSession("machine.jsonl", events);
  if (!session.ok) throw new Error(JSON.stringify(session.diagnostics));
  return session.value;
}

describe("what the command line says to type", () => {
  const cases = machines.flatMap((machine) =>
    checks
      .filter(({ layouts }) => layouts.includes(machine.layout))
      .map((check) => [check.id, machine.layout, check, machine] as const),
  );

  it.each(cases)("for %s on a %s can be typed, and is no wider than 80 columns", (_, __, check, machine) => {
    const session = sessionFor(machine, check);
    const setup = { machine: session.machine, options: {}, instrument: null };
    const text = howToType(check, setup, session, "machine.jsonl");
    expect(Math.max(...text.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);
    const words = text.slice(text.indexOf("kilter read")).replaceAll(/\\\n/g, " ").split(/\s+/);
    const options = words.findIndex((word) => word.startsWith("--"));
    const readings = words.slice(4, options < 0 ? undefined : options).filter((word) => word !== "");
    const instrument = words.includes("--with") ? words[words.indexOf("--with") + 1] : null;
    const taken = takeRun(
      session,
      new Stamp(surroundings, undefined, surroundings.nowMs() + 1000),
      {
        check: check.id,
        instrument,
        objects: {},
        options: {},
        conditions: {},
        readings: readings.map((word) => ({ text: word })),
      },
      false,
    );
    expect(taken.ok ? [] : taken.diagnostics).toEqual([]);
    expect(sessionWith(session, taken.ok ? taken.value.events : []).ok).toBe(true);
  });
});
