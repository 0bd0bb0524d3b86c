import { describe, expect, it } from "vitest";
import type { JsonPlan } from "./hidden-machine.ts";
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

  describe("and a plan for a depth that may spread by 0.2", () => {
    done(["skim", file, "no"]);
    for (const id of ["tram", "runout", "play x", "play y", "scale x", "scale y"]) done(["demands", file, "drop", id]);
    const [spread] = json<{ demands: { id: string; kind: string }[] }>(["demands", file]).demands.filter(
      ({ kind }) => kind === "depth-spread",
    );
    done(["demands", file, "limit", spread.id, "0.2"]);

    it("levels the beam over the bed at the screws of one side plate or column, and nothing else", () => {
      const { answer, moves, demands } = json<JsonPlan>(["plan", file]);
      expect(answer).toBe("move");
      const moved = moves.map(({ adjuster }) => adjuster);
      expect(moved).toEqual([expect.stringMatching(/^beam\.(left|right)$/)]);
      const { before, after } = demands.find(
        ({ after: { kind } }) => kind === "depth-spread",
      ) as JsonPlan["demands"][0];
      expect(before.value).toBeGreaterThan(before.limit * 0.75);
      expect(after.value).toBeLessThan(0.6 * before.value);
    });

    it("raises the right end at its screws by more than the gap at the station has to grow", () => {
      const { moves } = json<JsonPlan>(["plan", file, "--only", "beam.right"]);
      const [{ amount, sentence, adjuster, stop }] = moves;
      expect(adjuster).toBe("beam.right");
      expect(amount).toBeGreaterThan(0.15);
      expect(amount).toBeLessThan(0.4);
      expect(sentence).toMatch(/^Raise the beam's right end by 0\.\d+\.$/);
      // The same run of gaps goes on: at the right station it read between 0.45 and 0.50 before.
      expect(stop).toMatchObject({ check: "gap-under-beam", station: expect.stringMatching(/right$/) });
      expect(stop?.run).not.toBeNull();
      const grows = (stop?.reads ?? 0) - 0.475;
      expect(grows).toBeGreaterThan(0.1);
      expect(grows).toBeLessThan(amount);
      expect(stop?.words).toMatch(/reads 0\.\d\d goes and 0\.\d\d does not/);
    });

    it("finds another way where the side plates must stay", () => {
      const { moves } = json<JsonPlan>(["plan", file, "--lock", "beam.left", "--lock", "beam.right"]);
      for (const { adjuster } of moves) expect(adjuster).not.toMatch(/^beam\./);
      const nothing = json<JsonPlan>(["plan", file, "--only", "beam.right", "--lock", "beam.right"]);
      expect(nothing.moves).toEqual([]);
    });
  });
});
