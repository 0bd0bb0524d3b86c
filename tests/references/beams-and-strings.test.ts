import { test } from "vitest";
import {
  cantileverDeflectionMm,
  sagUnderCentreLoadMm,
  sagUnderEvenLoadMm,
  sagUnderTwoLoadsMm,
  secondMomentOfRectangle_mm4,
} from "../../src/core/standards/beam-deflection.ts";
import { noteFromTensionHz, tensionFromNoteN } from "../../src/core/standards/taut-string.ts";
import { openReference } from "./reference.ts";

test("sag of an aluminium bar 40 × 80 mm, and of a steel beam under two loads", () => {
  const beams = openReference("[Beam tables]");
  const bar = { elasticModulus_N_per_mm2: 69_000, secondMoment_mm4: secondMomentOfRectangle_mm4(40, 80) };
  const short = { ...bar, spanMm: 1000 };
  const long = { ...bar, spanMm: 1500 };
  const status = "closed form";
  beams.number({ what: "I of 40 × 80, mm⁴", expected: "1706666.7", got: bar.secondMoment_mm4, status });
  beams.number({
    what: "1 m resting, 100 N in the middle, mm",
    expected: "0.0176913",
    got: sagUnderCentreLoadMm(short, "resting", 100),
    status,
  });
  beams.number({
    what: "1 m clamped, 100 N in the middle, mm",
    expected: "0.00442284",
    got: sagUnderCentreLoadMm(short, "clamped", 100),
    status,
  });
  beams.number({
    what: "1 m cantilever, 100 N at its end, mm",
    expected: "0.283062",
    got: cantileverDeflectionMm(short, 100),
    status,
  });
  beams.number({
    what: "1.5 m resting, 200 N in the middle, mm",
    expected: "0.119417",
    got: sagUnderCentreLoadMm(long, "resting", 200),
    status,
  });
  beams.number({
    what: "1.5 m clamped, 200 N in the middle, mm",
    expected: "0.0298542",
    got: sagUnderCentreLoadMm(long, "clamped", 200),
    status,
  });
  const steel = { spanMm: 6000, elasticModulus_N_per_mm2: 200_000, secondMoment_mm4: 400e6 };
  beams.number({
    what: "6 m of steel, 200 kN at 1.5 m from either end, mm",
    expected: "15.46875",
    got: sagUnderTwoLoadsMm(steel, 200_000, 1500),
    status: "independent program",
  });
  // 5/384 against 1/48 for the same whole load, and a fifth of it when clamped.
  const even = sagUnderEvenLoadMm(short, "resting", 0.1);
  beams.number({
    what: "even load against the same load in the middle",
    expected: "0.625",
    got: even / sagUnderCentreLoadMm(short, "resting", 100),
    status,
  });
  beams.number({
    what: "even load, clamped against resting",
    expected: "0.2",
    got: sagUnderEvenLoadMm(short, "clamped", 0.1) / even,
    status,
  });
});

test("the note of a taut span and the pull that gives it", () => {
  const string = openReference("[Taut string]");
  string.number({
    what: "0.65 m of 1 g/m at 73 N, Hz",
    expected: "207.8",
    got: noteFromTensionHz(650, 1, 73),
    status: "published",
  });
  string.number({
    what: "the pull that gives this note back, N",
    expected: "73.0000",
    got: tensionFromNoteN(650, 1, noteFromTensionHz(650, 1, 73)),
    status: "closed form",
  });
});
