import { describe, expect, it } from "vitest";
import type { JsonPlan } from "./hidden-machine.ts";
import { done, findingIn, findingsOf, json, kilter, layouts, newLogbook } from "./kilter.ts";

interface JsonDemands {
  readonly demands: readonly { readonly id: string; readonly kind: string; readonly verdict: string | null }[];
}

// Only a block, leaves and a square, an eye along a line, a rule, and a tune that somebody hears: the right side hangs
// low over the bed, front and rear alike.
describe.each(layouts)("block and feeler on a $layout", (machine) => {
  const { layout, travel, options } = machine;
  const file = newLogbook();
  const tools = ["feeler-leaves", "square", "block", "line-by-eye", "look", "tuner", "steel-rule"];
  const named = ["create", file, "--name", "story", "--layout", layout, "--travel", travel, ...options];
  done([...named, ...tools.flatMap((tool) => ["--tool", tool])]);
  const leaves = ["--with", "feeler-leaves"];
  done(["read", file, "feet-rock", "0.05/0.10", "<0.05", "<0.05", "<0.05", ...leaves]);
  done(["read", file, "grub-screws", "yes", "yes", "yes"]);
  done(["read", file, "belt-note", ...(layout === "moving-gantry" ? ["61", "60"] : ["61"]), "--with", "tuner"]);
  done(["read", file, "wheel-preload", "yes", "yes", "yes", "yes"]);
  // Without a dial: the gap that opens at a block under a pull, and what of it stays.
  const pulled = ["0.35/0.40", "<0.05", "0.30/0.35", "<0.05", "0.15/0.20", "<0.05"];
  done(["read", file, "push-and-release", ...pulled, ...leaves]);
  if (layout === "moving-gantry") done(["read", file, "side-push", "0.45/0.50", "<0.05", ...leaves]);
  for (const axis of ["X", "Y"]) {
    done(["read", file, "there-and-back", "0.0", "--with", "steel-rule", "--set", `axis=${axis}`]);
  }
  done(["read", file, "gross-scale", "100", "100", "--with", "steel-rule"]);
  // Low by 0.18 from the left to the right station, which stand eight tenths of the travel apart.
  const gaps = ["0.55/0.60", "0.45/0.50", "0.35/0.45"];
  done(["read", file, "gap-under-beam", ...gaps, ...gaps, ...leaves, "--object", "block=block"]);
  const eye = ["--with", "line-by-eye", "--unit", "mm"];
  done(["read", file, "line-along-x", "0", "0", "0.3", "0.3", ...eye]);
  done(["read", file, "line-along-y", "0", "0", "0", "0.3", "0.3", ...eye]);
  done(["read", file, "upright-gap", "0.10/0.15:0", ...leaves, "--object", "square=square"]);
  const findings = findingsOf(file);

  it("passes the fit-to-measure round without a dial", () => {
    expect(findings.fitToMeasure.passed).toBe(true);
  });

  it("finds the right end low by 0.18, front and rear alike", () => {
    for (const end of ["front", "rear"]) {
      const { value, low, high } = findingIn(findings, `beam-over-bed.${end}`);
      expect(Math.abs(value + 0.18)).toBeLessThan(0.03);
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
    expect(apart).toMatch(/rail's/);
    expect(apart).toMatch(/the bed/);
  });

  it("never lists a single rail end or beam end with a limit: no reading can see it", () => {
    for (const { id } of findings.findings) expect(id).not.toMatch(/^(rail\.(left|right)|beam\.(left|right))/);
  });

  it("offers the short round, fit-to-measure first", () => {
    const checks = json<{ id: string }[]>(["checks", file]);
    expect(checks[0].id).toBe("feet-rock");
    expect(checks.map(({ id }) => id)).toContain("gap-under-beam");
  });

  describe("and a plan for a depth that may spread by 0.15", () => {
    done(["skim", file, "no"]);
    const asked = json<JsonDemands>(["demands", file]).demands;
    for (const { id, kind } of asked) if (kind !== "depth-spread") done(["demands", file, "drop", id]);
    const [spread] = asked.filter(({ kind }) => kind === "depth-spread");
    done(["demands", file, "limit", spread.id, "0.15"]);
    const depthIn = ({ demands }: JsonPlan) =>
      demands.find(({ after: { kind } }) => kind === "depth-spread") as JsonPlan["demands"][0];

    it("levels the beam over the bed at the screws of one side plate or column, and nothing else", () => {
      const plan = json<JsonPlan>(["plan", file]);
      expect(plan.answer).toBe("move");
      const moved = plan.moves.map(({ adjuster }) => adjuster);
      expect(moved).toEqual([expect.stringMatching(/^beam\.(left|right)$/)]);
      const { before, after } = depthIn(plan);
      expect(before.value).toBeGreaterThan(before.limit);
      expect(after.value).toBeLessThan(0.6 * before.value);
    });

    it("raises the right end by 0.29 at its screws: the right station then rises by 0.24 and the left one by 0.06", () => {
      const { moves } = json<JsonPlan>(["plan", file, "--only", "beam.right"]);
      const [{ amount, sentence, adjuster, stop }] = moves;
      expect(adjuster).toBe("beam.right");
      expect(Math.abs(amount - 0.29)).toBeLessThan(0.05);
      expect(sentence).toMatch(/^Raise the beam's right end by 0\.\d+ mm\.$/);
      // The same run of gaps goes on: at the right station it read between 0.35 and 0.45 before, at the left 0.575.
      expect(stop).toMatchObject({ check: "gap-under-beam", station: expect.stringMatching(/right$/) });
      expect(stop?.run).not.toBeNull();
      const rises = (stop?.reads ?? 0) - 0.4;
      expect(Math.abs(rises - 0.24)).toBeLessThan(0.04);
      const [x] = travel.split("x").map(Number);
      const [left, right] = layout === "moving-gantry" ? [-90, 690] : [-60, 460];
      // A rigid beam turns about its left end: stations at a tenth and nine tenths of the travel.
      expect(rises / amount).toBeCloseTo((0.9 * x - left) / (right - left), 1);
      expect(((0.1 * x - left) / (right - left)) * amount).toBeCloseTo(0.06, 1);
      // Until they agree.
      expect(Math.abs((stop?.reads ?? 0) - (0.575 + 0.06))).toBeLessThan(0.04);
      expect(stop?.words).toMatch(/stop when station 3 \(front right\) reads 0\.60 goes and 0\.65 does not/i);
    });

    it("finds another way where the side plates must stay", () => {
      const { moves } = json<JsonPlan>(["plan", file, "--lock", "beam.left", "--lock", "beam.right"]);
      for (const { adjuster } of moves) expect(adjuster).not.toMatch(/^beam\./);
      const nothing = json<JsonPlan>(["plan", file, "--only", "beam.right", "--lock", "beam.right"]);
      expect(nothing.moves).toEqual([]);
    });

    it("comes in when the move has been made, noted with its gauge, and the gaps have been read again", () => {
      const [{ amount, stop }] = json<JsonPlan>(["plan", file, "--only", "beam.right"]).moves;
      const gauge = ["--run", stop?.run ?? "", "--station", stop?.station ?? ""];
      const noted = ["--nipped", "0.55/0.60", "--final", "0.60/0.65"];
      done(["done", file, "beam.right", "--amount", amount.toFixed(2), ...gauge, ...noted]);
      const again = ["0.60/0.65", "0.60/0.65", "0.60/0.65"];
      done(["read", file, "gap-under-beam", ...again, ...again, ...leaves, "--object", "block=block"]);
      const { value, low, high } = findingIn(findingsOf(file), "beam-over-bed.front");
      expect(Math.abs(value)).toBeLessThan(0.05);
      expect(low).toBeLessThan(0);
      expect(high).toBeGreaterThan(0);
      const after = json<JsonPlan>(["plan", file]);
      expect(after.moves).toEqual([]);
      expect(depthIn(after).before.value).toBeLessThan(depthIn(after).before.limit);
      // With leaves alone the depth between the stations is not known; the plan names what settles it.
      expect(kilter(["plan", file, "--gate"]).status).toBe(depthIn(after).before.verdict === "within" ? 0 : 1);
    });
  });
});
