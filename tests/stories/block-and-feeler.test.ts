import { describe, expect, it } from "vitest";
import { createMachine, done, findingIn, findingsOf, json, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";

// Only a block, leaves and a square: the right side hangs low over the bed, front and rear alike.
describe.each(layouts)("block and feeler on a $layout", (machine) => {
  const file = newLogbook();
  createMachine(file, machine);
  passFitToMeasure(file, machine.layout);
  const gaps = ["0.65/0.70", "0.55/0.60", "0.45/0.50", "0.65/0.70", "0.55/0.60", "0.45/0.50"];
  done(["read", file, "gap-under-beam", ...gaps, "--with", "feeler-leaves", "--object", "block=block"]);
  done([
    "read",
    file,
    "line-along-x",
    "0",
    "0.1",
    "0.1",
    "0.2",
    "0.2",
    "--with",
    "line-by-eye-with-loupe",
    "--unit",
    "mm",
  ]);
  done([
    "read",
    file,
    "line-along-y",
    "0",
    "0",
    "0.1",
    "0.1",
    "0.1",
    "--with",
    "line-by-eye-with-loupe",
    "--unit",
    "mm",
  ]);
  done(["read", file, "upright-gap", "0.10/0.15:0", "--with", "feeler-leaves", "--object", "square=square"]);
  const findings = findingsOf(file);

  it("finds the right end low by two tenths, front and rear alike", () => {
    for (const end of ["front", "rear"]) {
      const { value, low, high } = findingIn(findings, `beam-over-bed.${end}`);
      expect(value).toBeCloseTo(-0.2, 1);
      expect(low).toBeLessThan(-0.1);
      expect(high).toBeGreaterThan(-0.3);
      expect(high).toBeLessThan(0);
    }
  });

  it("finds the beam's path and the bed not wound against each other", () => {
    const front = findingIn(findings, "beam-over-bed.front");
    const rear = findingIn(findings, "beam-over-bed.rear");
    expect(Math.abs(front.value - rear.value)).toBeLessThan(0.03);
  });

  it("says that bed, seat and rail ends cannot be told apart against the bed, and that the work need not know", () => {
    const { apart } = json<{ apart: string }>(["explain", file, "over-bed.x"]);
    expect(apart).toMatch(/do not tell these apart/);
    expect(apart).toMatch(/need not know/);
    expect(apart).toMatch(/beam's seat/);
  });

  it("never lists a single rail end or beam end with a limit: no reading can see it", () => {
    for (const { id } of findings.findings) expect(id).not.toMatch(/^(rail\.(left|right)|beam\.(left|right))/);
  });

  it("offers the short round, fit-to-measure first", () => {
    const checks = json<{ id: string }[]>(["checks", file]);
    expect(checks[0].id).toBe("feet-rock");
    expect(checks.map(({ id }) => id)).toContain("gap-under-beam");
  });
});
