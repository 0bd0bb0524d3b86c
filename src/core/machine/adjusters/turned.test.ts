import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { workedBridge, workedGantry } from "../../../../tests/simulation/simulate.ts";
import type { MachineDescription, MachineDetails } from "../description.ts";
import { machineFromDescription } from "../machine.ts";
import type { Adjuster } from "./adjuster.ts";
import { adjustersOf } from "./catalogue.ts";
import type { AdjusterChange } from "./change.ts";
import { turnedInWords } from "./turned.ts";

function adjuster(
  id: string,
  {
    details,
    change,
    on = workedGantry,
  }: { details?: Partial<MachineDetails>; change?: AdjusterChange; on?: MachineDescription } = {},
): Adjuster {
  const machine = machineFromDescription({ ...on, ...(details && { details }) });
  const found = adjustersOf(machine, new Map(change ? [[id, change]] : [])).find((one) => one.id === id);
  if (!found) throw new Error(id);
  return found;
}

const drives = (y: MachineDetails["drives"]["y"]) => ({ x: { kind: "belt" }, y, z: { kind: "screw" } }) as const;

describe("an amount in what a hand can do", () => {
  it.each([
    [0.1, "an eighth", "By hand that is about 1/8 of a turn of the screw that sets it, 0.8 a turn."],
    [0.21, "a quarter", "By hand that is about a quarter turn of the screw that sets it, 0.8 a turn."],
    [-0.4, "half, whichever way", "By hand that is about half a turn of the screw that sets it, 0.8 a turn."],
    [0.6, "three quarters", "By hand that is about 3/4 of a turn of the screw that sets it, 0.8 a turn."],
    [0.03, "next to nothing", "By hand that is less than an eighth of a turn of the screw that sets it, 0.8 a turn."],
  ])("%d mm at a screw of known pitch is %s of a turn", (amount, _, words) => {
    expect(turnedInWords(adjuster("beam.right", { change: { screwPitchMm: 0.8 } }), amount)).toBe(words);
  });

  it("is counted at the screws where the amount is a slope", () => {
    // 10 mm/m over the 120 between the slide's screws: 1.2 mm.
    const words = turnedInWords(adjuster("slide.side", { change: { screwPitchMm: 0.8 } }), 10);
    expect(words).toMatch(/about 1 1\/2 turns of/);
  });

  it("is not made up where nothing is known of the screw or the drive", () => {
    expect(turnedInWords(adjuster("beam.right"), 0.3)).toBeNull();
    expect(turnedInWords(adjuster("gantry.offset"), 0.3)).toBeNull();
    expect(turnedInWords(adjuster("beam.right", { change: { screwPitchMm: 0.8 } }), 0)).toBeNull();
  });

  it("is teeth of the belt, and steps alone where each side has its motor and is homed", () => {
    const belt = { kind: "belt", travelPerTurnMm: 40, beltPitchMm: 2, stepsPerMm: 80 } as const;
    const two = turnedInWords(adjuster("gantry.offset", { details: { drives: drives(belt) } }), -2.31);
    expect(two).toBe("As a home offset in the controller that is 2.31, or 185 steps of the right motor.");
    const one = turnedInWords(adjuster("gantry.offset", { details: { drives: drives(belt), motorsOnY: 1 } }), 3.8);
    expect(one).toMatch(/^That is 2 teeth of the right belt, 2 a tooth, and 0\.2 back in its clamp\.$/);
    const little = turnedInWords(adjuster("gantry.offset", { details: { drives: drives(belt), motorsOnY: 1 } }), 0.4);
    expect(little).toMatch(/^That is less than half a tooth of the right belt, 2 a tooth: shift it in its clamp\.$/);
  });

  it("is a turn of the right screw where one motor drives both screws", () => {
    const screw = { kind: "screw", travelPerTurnMm: 5 } as const;
    expect(turnedInWords(adjuster("gantry.offset", { details: { drives: drives(screw), motorsOnY: 1 } }), 1.89)).toBe(
      "By hand that is about 3/8 of a turn of the right screw, 5 a turn.",
    );
    const onStops = { drives: drives(screw), squaresOnStops: true };
    expect(turnedInWords(adjuster("gantry.offset", { details: onStops }), 1.89)).toBeNull();
  });

  it("is a turn of a foot's screw on a bridge", () => {
    const foot = adjuster("bridge.yaw", { on: workedBridge, change: { screwPitchMm: 1.25 } });
    expect(turnedInWords(foot, 2.5)).toBe("By hand that is about 2 turns of the screw that sets it, 1.25 a turn.");
  });

  it("is within a sixteenth of a turn of the amount, whatever the pitch", () => {
    const value = (text: string) => {
      const [, whole = "0", over = "0", under = "1"] = /^(?:(\d+)(?: |$))?(?:(\d)\/(\d))?/.exec(text) ?? [];
      return Number(whole || 0) + Number(over || 0) / Number(under || 1);
    };
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        fc.double({ min: -0.6, max: 0.6, noNaN: true }),
        (pitch, amount) => {
          const said = turnedInWords(adjuster("beam.left", { change: { screwPitchMm: pitch } }), amount);
          if (amount === 0) return;
          const turns = Math.abs(amount) / pitch;
          const [, text] = /is (?:about )?(.*?) (?:of a )?turns?\b/.exec(said ?? "") ?? [];
          const told = { half: 0.5, "a quarter": 0.25, "half a": 0.5, "less than an eighth": 0 }[text] ?? value(text);
          expect(Math.abs(told - turns), said ?? "").toBeLessThanOrEqual(1 / 16 + 1e-9);
        },
      ),
      { seed: 8, numRuns: 300 },
    );
  });
});
