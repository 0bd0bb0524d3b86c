import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Drive, stepsPerMm } from "./drives.ts";
import { nameGrossScale } from "./gross-scale.ts";

const motor = { fullStepsPerTurn: 200, microsteps: 16 };
const belt: Drive = { ...motor, kind: "belt", pitchMm: 2, teeth: 20 };
const screw: Drive = { ...motor, kind: "screw", leadMm: 8 };

describe("an axis that moves by a wrong factor", () => {
  const causes = (gone: number, drive?: Drive) =>
    nameGrossScale(100, gone, drive).explanations.map(({ cause }) => cause);
  const words = (gone: number, drive?: Drive) =>
    nameGrossScale(100, gone, drive).explanations.map((found) => found.words);

  test("100 for 100 within two is as commanded", () => {
    for (const gone of [98, 99.5, 100, 102])
      expect(nameGrossScale(100, gone)).toMatchObject({ verdict: "as commanded" });
    expect(nameGrossScale(100, 97)).toMatchObject({ verdict: "wrong factor", explanations: [] });
  });

  test.each([
    [50, ["microsteps", "motor", "teeth", "lead"]],
    [80, ["teeth", "lead"]],
    [125, ["teeth", "lead"]],
    [200, ["microsteps", "motor", "teeth", "lead"]],
    [25.4, ["inches"]],
  ])("%f of 100 has its usual causes", (gone, expected) => {
    expect(causes(gone)).toEqual(expect.arrayContaining(expected));
    expect(nameGrossScale(100, gone).verdict).toBe("wrong factor");
  });

  test("inches for millimetres are named both ways", () => {
    expect(nameGrossScale(4, 101.6).explanations[0]).toMatchObject({ cause: "inches", factor: 25.4 });
    expect(words(4)[0]).toBe("Millimetres are taken where inches are meant.");
    expect(nameGrossScale(100, 254).explanations[0]!.words).toMatch(/decimal mark/);
  });

  test("where the drive is known, the teeth or the lead are named by number", () => {
    expect(words(80, belt)).toEqual(["The pulley has 16 teeth, and the steps per mm count on 20."]);
    expect(words(125, screw)).toEqual(["The screw moves 10 mm a turn, and the steps per mm count on 8 mm."]);
    expect(words(50, belt)).toContain(
      "The motor's driver makes 2 times the microsteps that the steps per mm count on: 32 in a step instead of 16.",
    );
    expect(words(50, belt)).toContain("The motor has 400 steps a turn, and the steps per mm count on 200.");
    expect(words(80, belt).join()).not.toMatch(/screw/);
  });

  test("an axis that runs backwards is said to, an axis that stands still has no factor", () => {
    expect(nameGrossScale(100, -100)).toMatchObject({ verdict: "as commanded", runsBackwards: true });
    expect(nameGrossScale(100, -50)).toMatchObject({ verdict: "wrong factor", runsBackwards: true, factor: 0.5 });
    expect(nameGrossScale(100, 0.5)).toMatchObject({ verdict: "stands still", explanations: [] });
  });

  test("what is wrong with a drive is found again from the way that it makes the axis go", () => {
    fc.assert(
      fc.property(fc.constantFrom(16, 18, 24, 30, 40), fc.constantFrom(2, 3, 5), (real, pitchMm) => {
        const assumed: Drive = { ...motor, kind: "belt", pitchMm, teeth: 20 };
        const gone = (100 * stepsPerMm(assumed)) / stepsPerMm({ ...assumed, teeth: real });
        expect(nameGrossScale(100, Math.round(gone), assumed).explanations.map(({ words }) => words)).toContain(
          `The pulley has ${real} teeth, and the steps per mm count on 20.`,
        );
      }),
      { seed: 20250132, numRuns: 30 },
    );
  });

  test("every factor offered lies near the one read, the nearest first", () => {
    fc.assert(
      fc.property(fc.double({ min: 3, max: 3000, noNaN: true }), (gone) => {
        const { explanations, factor } = nameGrossScale(100, gone);
        const distances = explanations.map((explanation) => Math.abs(explanation.factor - factor));
        expect([...distances].sort((a, b) => a - b)).toEqual(distances);
        for (const distance of distances) expect(distance).toBeLessThanOrEqual(0.01 * factor + 0.01);
      }),
      { seed: 20250133 },
    );
  });
});
