import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { createMachine, done, findingsOf, kilter, layouts, newLogbook } from "./kilter.ts";

describe.each(layouts)("a typing slip on a $layout", (machine) => {
  const fresh = () => {
    const file = newLogbook();
    createMachine(file, machine);
    return file;
  };
  const leaves = ["--with", "feeler-leaves", "--object", "block=block"];

  it("refuses 13.5 by the range of the leaves, asks whether 1.35 was meant, and writes nothing", () => {
    const file = fresh();
    const before = readFileSync(file, "utf8");
    const { status, err } = kilter(["read", file, "gap-under-beam", "13.5", ...leaves]);
    expect(status).toBe(2);
    expect(err).toMatch(/1\.35/);
    expect(readFileSync(file, "utf8")).toBe(before);
  });

  it("refuses 0.53, which no stack of the set makes, and asks whether 0.35 was meant", () => {
    const { status, err } = kilter(["read", fresh(), "gap-under-beam", "0.53", ...leaves]);
    expect(status).toBe(2);
    expect(err).toMatch(/0\.35/);
  });

  /** A flat bed and a level beam: bed-touch reads 0 everywhere, the gap is 0.35/0.40 at every place. */
  const flatMachine = (rearMiddle: string) => {
    const file = fresh();
    done(["read", file, "bed-touch", ...Array.from({ length: 25 }, () => "0.00"), "--with", "touch-plate"]);
    const gaps = ["0.35/0.40", "0.35/0.40", "0.35/0.40", "0.35/0.40", rearMiddle, "0.35/0.40"];
    done(["read", file, "gap-under-beam", ...gaps, ...leaves]);
    return file;
  };

  it("flags 0.35/0.40 typed as 0.65/0.70 beside a bed-touch run, names the station and what would change without it", () => {
    const { oddReadings } = findingsOf(flatMachine("0.65/0.70"));
    expect(oddReadings).toHaveLength(1);
    expect(oddReadings[0].check).toBe("gap-under-beam");
    expect(oddReadings[0].station).toMatch(/rear, middle/);
    expect(findingsOf(flatMachine("0.35/0.40")).oddReadings).toHaveLength(0);
  });

  it("does not pretend to see a slip in a lone run of six", () => {
    const file = fresh();
    done([
      "read",
      file,
      "gap-under-beam",
      "0.35/0.40",
      "0.35/0.40",
      "0.35/0.40",
      "0.35/0.40",
      "0.45/0.50",
      "0.35/0.40",
      ...leaves,
    ]);
    expect(findingsOf(file).oddReadings).toHaveLength(0);
  });

  it("recognises a whole run in thousandths typed as mm, and one event corrects it", () => {
    const file = fresh();
    // Scale and play by two ways: the rule says 0.4 mm/m too much in X, the same as position-runs by dial.
    const x = Number(machine.travel.split("x")[0]);
    const lengths = [0.25, 0.5, 0.75, 0.95].map((f) => (f * x * 1.0004).toFixed(1));
    done(["read", file, "travel", ...lengths, "--with", "steel-rule-with-loupe", "--set", "axis=X"]);
    const targets = [0.06, 0.27, 0.52, 0.71, 0.94].flatMap((f) => [f, f]);
    const thousandths = targets.map((f) => (((f - 0.06) * x * 0.0004) / 0.0254).toFixed(1));
    done([
      "read",
      file,
      "position-runs",
      ...thousandths,
      "--with",
      "dial-indicator",
      "--unit",
      "mm",
      "--set",
      "axis=X",
    ]);
    const { runs } = findingsOf(file);
    const run = runs.find(({ check }) => check === "position-runs");
    expect(run?.misread?.factor).toBeCloseTo(0.0254, 4);
    done(["reinterpret", file, (run?.run ?? "").slice(-6), "0.0254", "--because", "typed in thousandths"]);
    const corrected = findingsOf(file).runs.find(({ check }) => check === "position-runs");
    expect(corrected?.misread).toBeNull();
    expect(corrected?.improbable).toBe(false);
  });

  it("recognises a run whose stem pointed the other way", () => {
    const file = fresh();
    const height = Number(machine.travel.split("x")[2]) * 0.85;
    const sweep = (slope: number) => [0, 1, 2, 3, 4].map((i) => ((slope * i * height) / 4).toFixed(2));
    const dial = ["--with", "test-indicator", "--unit", "mm", "--object", "square=square"];
    // A true square and a plunge that leans 8 mm/m, read three times; the third with the stem the other way, not said so.
    done(["tool", file, "square", "--id", "square", "--set", "squareMmPer100=0±0.01"]);
    done(["read", file, "upright-sweep", ...sweep(0.008), ...dial]);
    done(["read", file, "upright-sweep", ...sweep(0.008), ...dial]);
    done(["read", file, "upright-sweep", ...sweep(-0.008), ...dial]);
    const misread = findingsOf(file).runs.map((run) => run.misread?.factor ?? null);
    expect(misread).toEqual([null, null, -1]);
  });
});
