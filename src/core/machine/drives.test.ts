import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  areOneNote,
  beltTension,
  correctedStepsPerMm,
  type Drive,
  fullStepMm,
  semitonesAbove,
  stepsPerMm,
  stepsPerMmFromDescription,
  travelPerTurnMm,
} from "./drives.ts";

const motor = { fullStepsPerTurn: 200, microsteps: 16 };
const belt: Drive = { ...motor, kind: "belt", pitchMm: 2, teeth: 20 };
const screw: Drive = { ...motor, kind: "screw", leadMm: 8 };
const rack: Drive = { ...motor, kind: "rack", moduleMm: 1, teeth: 20, reduction: 3 };

const drives = fc.oneof(
  // Pitches, leads, teeth and gears that a small router can have.
  fc.record({
    kind: fc.constant("belt" as const),
    pitchMm: fc.constantFrom(2, 3, 5),
    teeth: fc.integer({ min: 10, max: 60 }),
  }),
  fc.record({ kind: fc.constant("screw" as const), leadMm: fc.constantFrom(1, 2, 4, 5, 8, 10) }),
  fc.record({
    kind: fc.constant("rack" as const),
    moduleMm: fc.constantFrom(0.5, 1, 1.25),
    teeth: fc.integer({ min: 12, max: 30 }),
  }),
);

describe("steps per mm", () => {
  test("a turn goes pitch times teeth, the lead, or the pinion's pitch circle", () => {
    expect(travelPerTurnMm(belt)).toBe(40);
    expect(travelPerTurnMm(screw)).toBe(8);
    expect(travelPerTurnMm(rack)).toBeCloseTo(62.8318530718, 9);
    expect(stepsPerMm(rack)).toBeCloseTo(9600 / 62.8318530718, 9);
  });

  test("a full step of a belt is a fifth of a millimetre, of a screw a twenty-fifth", () => {
    expect(fullStepMm(belt)).toBe(0.2);
    expect(fullStepMm(screw)).toBe(0.04);
    expect(fullStepMm({ ...belt, reduction: 4 })).toBe(0.05);
  });

  test("a turn of the motor is as many steps as the way of the turn holds", () => {
    fc.assert(
      fc.property(
        drives,
        fc.constantFrom(1, 2, 8, 16, 32),
        fc.integer({ min: 1, max: 10 }),
        (kind, microsteps, reduction) => {
          const drive: Drive = { ...kind, fullStepsPerTurn: 200, microsteps, reduction };
          expect(stepsPerMm(drive) * travelPerTurnMm(drive)).toBeCloseTo(200 * microsteps * reduction, 6);
          expect(stepsPerMm(drive) * fullStepMm(drive)).toBeCloseTo(microsteps, 9);
        },
      ),
      { seed: 20250130 },
    );
  });

  test("a description gives what is stated, else what follows, else nothing", () => {
    expect(stepsPerMmFromDescription({ kind: "belt", stepsPerMm: 80.4, motorStepsPerTurn: 200 })).toBe(80.4);
    expect(
      stepsPerMmFromDescription({ kind: "belt", motorStepsPerTurn: 200, microsteps: 16, travelPerTurnMm: 40 }),
    ).toBe(80);
    expect(stepsPerMmFromDescription({ kind: "belt", motorStepsPerTurn: 200 })).toBeNull();
  });
});

describe("curing a scale", () => {
  test("an axis that goes too far gets fewer steps", () => {
    expect(correctedStepsPerMm(80, 10)).toBeCloseTo(79.20792, 5);
    expect(correctedStepsPerMm(80, -10)).toBeCloseTo(80.80808, 5);
    expect(correctedStepsPerMm(80, 0)).toBe(80);
  });

  test("with the corrected steps a commanded metre is a metre", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 2000, noNaN: true }),
        fc.double({ min: -500, max: 500, noNaN: true }),
        (steps, scale) => {
          const trueMmPerStep = (1 + scale / 1000) / steps;
          expect(1000 * correctedStepsPerMm(steps, scale) * trueMmPerStep).toBeCloseTo(1000, 8);
        },
      ),
      { seed: 20250131 },
    );
  });
});

describe("the note of a belt", () => {
  const exactly = (value: number) => ({ value, standardUncertainty: 0 });

  test("nine grams a metre, half a metre, 60 Hz pull 32 N", () => {
    expect(beltTension(exactly(500), exactly(9), exactly(60)).tensionN).toBeCloseTo(32.4, 10);
  });

  test("a note known to one hundredth is a pull known to two", () => {
    const { tensionN, standardUncertaintyN } = beltTension(exactly(500), exactly(9), {
      value: 60,
      standardUncertainty: 0.6,
    });
    expect(standardUncertaintyN / tensionN).toBeCloseTo(0.02, 12);
  });

  test("its uncertainty is what small changes of span, mass and note make of the pull, added in squares", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 1500, noNaN: true }),
        fc.double({ min: 3, max: 40, noNaN: true }),
        fc.double({ min: 10, max: 300, noNaN: true }),
        (span, mass, note) => {
          const u = [1, 0.1, 0.5] as const;
          const pull = (s: number, m: number, n: number) => beltTension(exactly(s), exactly(m), exactly(n)).tensionN;
          const h = 1e-6;
          const slopes = [
            (pull(span * (1 + h), mass, note) - pull(span * (1 - h), mass, note)) / (2 * h * span),
            (pull(span, mass * (1 + h), note) - pull(span, mass * (1 - h), note)) / (2 * h * mass),
            (pull(span, mass, note * (1 + h)) - pull(span, mass, note * (1 - h))) / (2 * h * note),
          ];
          const expected = Math.hypot(...slopes.map((slope, index) => slope * u[index]!));
          const got = beltTension(
            { value: span, standardUncertainty: u[0] },
            { value: mass, standardUncertainty: u[1] },
            { value: note, standardUncertainty: u[2] },
          ).standardUncertaintyN;
          expect(Math.abs(got - expected) / expected).toBeLessThan(1e-6);
        },
      ),
      { seed: 20250134 },
    );
  });

  test("a semitone is about six per cent of the note and twelve of the pull", () => {
    expect(semitonesAbove(880, 440)).toBeCloseTo(12, 12);
    expect(areOneNote(60, 63.5)).toBe(true);
    expect(areOneNote(60, 64)).toBe(false);
    expect(areOneNote(64, 60)).toBe(false);
    const pull = (note: number) => beltTension(exactly(500), exactly(9), exactly(note)).tensionN;
    expect(pull(60 * 2 ** (1 / 12)) / pull(60)).toBeCloseTo(1.122, 3);
  });
});
