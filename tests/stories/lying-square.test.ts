import { describe, expect, it } from "vitest";
import { createMachine, done, findingIn, findingsOf, json, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";

// A square 0.2 wide over 100 on a machine whose plunge leans 1 mm/m to the right. Stem readings by hand:
// stem to the right: lean·z + square·z/100; stem to the left, the square turned about: −lean·z + square·z/100.
const squareMm = 0.2;
const leanPerMm = 1e-3;

describe.each(layouts)("a lying square on a $layout", (machine) => {
  const height = Number(machine.travel.split("x")[2]) * 0.85;
  const sweep = (sigma: 1 | -1) =>
    [0, 1, 2, 3, 4].map((i) => {
      const z = (i / 4) * height;
      return (sigma * leanPerMm * z + (squareMm * z) / 100).toFixed(2);
    });
  const read = (file: string, sigma: 1 | -1, extra: readonly string[]) =>
    done([
      "read",
      file,
      "upright-sweep",
      ...sweep(sigma),
      "--with",
      "test-indicator",
      "--unit",
      "mm",
      "--object",
      "square=square",
      "--set",
      "towards=side",
      ...extra,
    ]);

  it("cannot know from one stand, says so, and says what to do", () => {
    const file = newLogbook();
    createMachine(file, machine);
    passFitToMeasure(file, machine.layout);
    read(file, 1, []);
    const { expandedUncertainty, verdict } = findingIn(findingsOf(file), "plunge-to-bed.side");
    // 0.2 in 100 of doubt about the square is 2 mm/m of doubt about the plunge, whatever the dial reads.
    expect(expandedUncertainty).toBeGreaterThan(2);
    expect(verdict).not.toBe("within");
    const { apart, sharpenedBy } = json<{ apart: string; sharpenedBy: string[] }>([
      "explain",
      file,
      "plunge-to-bed.side",
    ]);
    expect(apart).toMatch(/cannot be told from the square's own angle/);
    // The same sweep with the square turned over, or the square tried against itself.
    expect(sharpenedBy[0]).toMatch(/^Travel in Z along a square \(side, .*square left or front\) .* U falls from/);
    expect(sharpenedBy.join("\n")).toMatch(/^Square against itself .* U falls from/m);
  });

  it("finds the square's error and the machine's once it has been turned about", () => {
    const file = newLogbook();
    createMachine(file, machine);
    passFitToMeasure(file, machine.layout);
    read(file, 1, []);
    read(file, -1, ["--set", "stem=left or front", "--set", "square=left or front"]);
    const { value, expandedUncertainty } = findingIn(findingsOf(file), "plunge-to-bed.side");
    expect(expandedUncertainty).toBeLessThan(0.8);
    expect(Math.abs(value - 1)).toBeLessThan(expandedUncertainty);
    const { learnt } = json<{ learnt: { id: string; value: number; expandedUncertainty: number }[] }>(["tools", file]);
    const square = learnt.find(({ id }) => id === "object square: square");
    expect(square?.expandedUncertainty).toBeLessThan(0.08);
    expect(Math.abs((square?.value ?? 0) - squareMm)).toBeLessThan(square?.expandedUncertainty ?? 0);
  });
});
