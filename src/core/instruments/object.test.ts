import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type ObjectFamily,
  type ObjectId,
  type ObjectKind,
  type ObjectKindId,
  type ObjectPriors,
  objectFromKind,
  priorOfUnknown,
  type Statements,
  squareSdFromLimit,
} from "./object.ts";

function kindOf(family: ObjectFamily, priors: ObjectPriors = {}): ObjectKind {
  return { id: `some-${family}` as ObjectKindId, name: family, family, priors, source: "for tests" };
}

const square = kindOf("square", { squareSdMmPer100: 0.2 });
const block = kindOf("block", { overhangSdMmPer100: 0.03 });
const cutter = kindOf("cutter", { diameterSdMm: 0.2, angleSdDeg: 0.5 });
const straightedge = kindOf("straightedge", { bowSdMm: 0.1 });
const usual = { mean: 7, sd: 99 };

function objectOf(
  kind: ObjectKind,
  stated?: Statements,
  written: { diameterMm?: number; includedAngleDeg?: number } = {},
) {
  const outcome = objectFromKind(kind, { id: "one" as ObjectId, kind: kind.id, ...written, ...(stated && { stated }) });
  if (!outcome.ok) throw new Error(outcome.diagnostics[0]!.code);
  return outcome.value;
}

describe("what an object carries unknown", () => {
  test("nothing stated, it is its kind's", () => {
    expect(priorOfUnknown(objectOf(square), "square", usual)).toEqual({ mean: 0, sd: 0.2 });
    expect(priorOfUnknown(objectOf(straightedge), "bow", usual)).toEqual({ mean: 0, sd: 0.1 });
    expect(priorOfUnknown(objectOf(block), "overhang fore", usual)).toEqual({ mean: 0, sd: 0.03 });
    expect(priorOfUnknown(objectOf(cutter), "cutter", usual)).toEqual({ mean: 0, sd: 0.2 });
    expect(priorOfUnknown(objectOf(cutter), "angle", usual)).toEqual({ mean: 0, sd: 0.5 });
  });

  test("where the object says nothing, or none is named, it is the check's", () => {
    expect(priorOfUnknown(objectOf(block), "block", usual)).toEqual(usual);
    expect(priorOfUnknown(null, "square", usual)).toEqual(usual);
    expect(priorOfUnknown(objectOf(square), "toString", usual)).toEqual(usual);
  });

  test("a certificate stands in the place of the kind's prior, its expanded uncertainty divided by its factor", () => {
    const stated = { squareMmPer100: { value: 0.03, expandedUncertainty: 0.01, coverageFactor: 2 } };
    expect(priorOfUnknown(objectOf(square, stated), "square", usual)).toEqual({ mean: 0.03, sd: 0.005 });
    const height = { heightMm: { value: 75.02, expandedUncertainty: 0.1, coverageFactor: 2 } };
    expect(priorOfUnknown(objectOf(block, height), "block", usual)).toEqual({ mean: 75.02, sd: 0.05 });
    expect(priorOfUnknown(objectOf(block, height), "overhang side", usual)).toEqual({ mean: 0, sd: 0.03 });
  });

  test("a grade counts as anywhere within its limit, and a value beside it counts instead", () => {
    // Grade 2 over 200 mm: 40 µm, so 20 µm over 100 [DIN 875-1].
    const squareGrade = { grade: "2", lengthMm: 200 } as const;
    expect(priorOfUnknown(objectOf(square, { squareGrade }), "square", usual)).toEqual({
      mean: 0,
      sd: expect.closeTo(0.02 / Math.sqrt(3), 12),
    });
    const both = { squareGrade, squareMmPer100: { value: 0.01, expandedUncertainty: 0.004, coverageFactor: 2 } };
    expect(priorOfUnknown(objectOf(square, both), "square", usual)).toEqual({ mean: 0.01, sd: 0.002 });
    expect(priorOfUnknown(objectOf(straightedge, { bowLimitMm: 0.03 }), "bow", usual).sd).toBeCloseTo(
      0.03 / Math.sqrt(3),
      12,
    );
  });

  test("a cutter's real size is kept as what it differs from the size that is written on it", () => {
    const stated = {
      effectiveDiameterMm: { value: 5.94, expandedUncertainty: 0.04, coverageFactor: 2 },
      measuredAngleDeg: { value: 60.4, expandedUncertainty: 0.2, coverageFactor: 2 },
    };
    const object = objectOf(cutter, stated, { diameterMm: 6, includedAngleDeg: 60 });
    expect(priorOfUnknown(object, "cutter", usual)).toEqual({ mean: expect.closeTo(-0.06, 12), sd: 0.02 });
    expect(priorOfUnknown(object, "angle", usual)).toEqual({ mean: expect.closeTo(0.4, 12), sd: 0.1 });
    const nameless = { id: "one" as ObjectId, kind: cutter.id, stated };
    expect(objectFromKind(cutter, nameless)).toMatchObject({
      ok: false,
      diagnostics: [{ code: "statement-needs-nominal" }],
    });
  });

  test("a statement about something that the object does not have is refused", () => {
    const own = { id: "one" as ObjectId, kind: square.id, stated: { bowLimitMm: 0.03 } };
    expect(objectFromKind(square, own, { event: "e1" })).toMatchObject({
      ok: false,
      diagnostics: [
        {
          code: "statement-of-other-object",
          where: { event: "e1" },
          data: { of: "bowLimitMm", expected: "squareMmPer100, squareGrade" },
        },
      ],
    });
  });

  test("the same limit over a longer blade is a truer square", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 50, max: 1000 }), (limitUm, lengthMm) => {
        expect(squareSdFromLimit(limitUm, 2 * lengthMm)).toBeCloseTo(squareSdFromLimit(limitUm, lengthMm) / 2, 12);
      }),
      { seed: 20250129 },
    );
  });
});
