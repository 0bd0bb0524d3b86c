import { describe, expect, it } from "vitest";
import { createMachine, done, findingIn, findingsOf, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";

// Any one instrument biased: the fit says so, or the interval covers the truth.
describe.each(layouts)("one instrument that lies, on a $layout", (machine) => {
  const [x] = machine.travel.split("x").map(Number);
  const fresh = () => {
    const file = newLogbook();
    createMachine(file, machine);
    passFitToMeasure(file, machine.layout);
    return file;
  };
  const travels = (scale: number) => [0.25, 0.5, 0.75, 0.95].map((f) => (f * x * (1 + scale)).toFixed(1));

  it("covers the truth when the rule is a third of a millimetre a metre too long", () => {
    const file = fresh();
    // A true machine read with a rule that reads 0.3 mm/m too much, one and a half times its standard uncertainty.
    for (let run = 0; run < 5; run++)
      done(["read", file, "travel", ...travels(0.0003), "--with", "steel-rule-with-loupe", "--set", "axis=X"]);
    const { low, high, expandedUncertainty } = findingIn(findingsOf(file), "scale.x");
    expect(low).toBeLessThanOrEqual(0.001);
    expect(high).toBeGreaterThan(0);
    // Five runs do not make a rule truer: 0.2 mm/m of doubt about it stays.
    expect(expandedUncertainty).toBeGreaterThan(0.38);
  });

  it("says that the runs do not hang together when two rules differ far more than rules do", () => {
    const file = fresh();
    done(["tool", file, "steel-rule-with-loupe", "--id", "other-rule"]);
    done(["read", file, "travel", ...travels(0), "--with", "steel-rule-with-loupe", "--set", "axis=X"]);
    done(["read", file, "travel", ...travels(0.004), "--with", "other-rule", "--set", "axis=X"]);
    const { fit, runs, findings } = findingsOf(file);
    const scale = findings.find(({ id }) => id === "scale.x");
    const covers = scale !== undefined && scale.low <= 0 && scale.high >= 0;
    expect(
      fit.probability < 0.001 || runs.some(({ improbable, misread }) => improbable || misread !== null) || covers,
    ).toBe(true);
  });

  it("covers the truth when the block is not as high as was written on it", () => {
    const file = fresh();
    done([
      "read",
      file,
      "gap-under-beam",
      "0.75/0.80",
      "0.75/0.80",
      "0.75/0.80",
      "0.75/0.80",
      "0.75/0.80",
      "0.75/0.80",
      "--with",
      "feeler-leaves",
      "--object",
      "block=block",
    ]);
    const { low, high } = findingIn(findingsOf(file), "beam-over-bed.front");
    expect(low).toBeLessThanOrEqual(0);
    expect(high).toBeGreaterThanOrEqual(0);
  });

  it("covers the truth when the same hand pushes every reading of one gauge", () => {
    const file = fresh();
    // A dial that always shows 0.02 too much on a machine without play in X: permissible, and lasting.
    for (let run = 0; run < 3; run++)
      done(["read", file, "turnaround", "0.02", "0.02", "--with", "dial-indicator", "--unit", "mm"]);
    const { low } = findingIn(findingsOf(file), "lost-motion.x");
    expect(low).toBeLessThan(0.03);
  });
});
