import { describe, expect, it } from "vitest";
import { createMachine, done, findingIn, findingsOf, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";

// The board is fixed turned by 1 mm in 600 (1.67 mm/m); the machine itself is square. A pointer along a printed X line
// then falls behind by 1.67 mm/m to the right, along a Y line it goes right by the same.
const turnPerMm = 1 / 600;
const fractions = [0.04, 0.27, 0.5, 0.73, 0.96];

describe.each(layouts)("a lying grid on a $layout", (machine) => {
  const [x, y] = machine.travel.split("x").map(Number);
  const file = newLogbook();
  createMachine(file, machine);
  passFitToMeasure(file, machine.layout);
  const line = (length: number, sign: 1 | -1) =>
    fractions.map((f) => (sign * turnPerMm * (f - fractions[0]) * length).toFixed(1));
  const eye = ["--with", "line-by-eye-with-loupe", "--unit", "mm"];
  done(["read", file, "line-along-x", ...line(x, -1), ...eye]);
  done(["read", file, "line-along-y", ...line(y, 1), ...eye]);
  done([
    "read",
    file,
    "beam-to-line",
    ...[0.05, 0.5, 0.95].map((f) => (-turnPerMm * (f - 0.05) * x).toFixed(1)),
    ...eye,
  ]);
  const before = findingsOf(file);
  // A rectangle of holes with equal diagonals: the motion is square, whatever is printed under it.
  const holes = ["near", "far"].flatMap((edge) => {
    const hole = edge === "near" ? -6 : 6;
    const diagonal = Math.hypot(210, 190);
    return [210, 210, 190, 190, diagonal, diagonal].map((length) => (length + hole).toFixed(2));
  });
  done(["read", file, "hole-rectangle", ...holes, "--with", "calipers-300"]);
  const after = findingsOf(file);

  it("does not know the machine's squareness from lines alone", () => {
    expect(findingIn(before, "squareness").expandedUncertainty).toBeGreaterThan(1.5);
  });

  it("settles by the diagonals of holes that it is the grid and not the frame", () => {
    const squareness = findingIn(after, "squareness");
    expect(Math.abs(squareness.value)).toBeLessThan(0.3);
    expect(squareness.expandedUncertainty).toBeLessThan(0.6);
    expect(squareness.verdict).toBe("within");
    const grid = findingIn(after, "grid-to-motion");
    expect(grid.value).toBeCloseTo(1.67, 0);
    expect(grid.low).toBeGreaterThan(0.8);
  });
});
