import { test } from "vitest";
import { beltTension, type Drive, stepsPerMm, travelPerTurnMm } from "../../src/core/machine/drives.ts";
import { openReference } from "./reference.ts";

const motor = { fullStepsPerTurn: 200, microsteps: 16 };

test("a motor of 1.8° in sixteenths on a belt and on two screws", () => {
  const steps = openReference("[Step drives]");
  const belt: Drive = { ...motor, kind: "belt", pitchMm: 2, teeth: 20 };
  steps.number({ what: "belt 2 mm, 20 teeth, steps/mm", expected: "80", got: stepsPerMm(belt), status: "closed form" });
  for (const [leadMm, expected] of [
    [8, "400"],
    [5, "640"],
  ] as const) {
    const got = stepsPerMm({ ...motor, kind: "screw", leadMm });
    steps.number({ what: `screw, lead ${leadMm} mm, steps/mm`, expected, got, status: "closed form" });
  }
});

test("the way of a pulley's turn on belts with pitches in inches", () => {
  const pitches = openReference("[ISO 5296]");
  for (const [name, pitchInches, expected] of [
    ["MXL", 0.08, "2.032"],
    ["XL", 0.2, "5.080"],
    ["L", 0.375, "9.525"],
  ] as const) {
    const drive: Drive = { ...motor, kind: "belt", pitchMm: pitchInches * 25.4, teeth: 10 };
    const what = `belt ${name}, way of one tooth, mm`;
    pitches.number({ what, expected, got: travelPerTurnMm(drive) / 10, status: "published" });
  }
});

test("the pull of a taut span from its note", () => {
  const string = openReference("[Taut string]");
  const exactly = (value: number) => ({ value, standardUncertainty: 0 });
  const span = beltTension(exactly(810), exactly(2 / 0.81), exactly(394));
  string.number({ what: "0.81 m of 2 g at 394 Hz, N", expected: "1005.9", got: span.tensionN, status: "published" });
});
