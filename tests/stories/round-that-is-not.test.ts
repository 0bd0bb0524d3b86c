import { describe, expect, it } from "vitest";
import type { JsonPlan } from "./hidden-machine.ts";
import { createMachine, done, findingIn, findingsOf, json, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";
import { diameters, gamma, play, scale } from "./three-discs.ts";

describe.each(layouts)("a circle that is not round, on a $layout", (machine) => {
  const disc = (file: string, r: number, direction: 1 | -1) =>
    done([
      "read",
      file,
      "ring-diameters",
      ...diameters(r, direction),
      "--with",
      "calipers-300",
      "--object",
      "cutter=cutter",
      "--set",
      `radiusMm=${r}`,
      "--set",
      `direction=${direction === 1 ? "counter-clockwise" : "clockwise"}`,
    ]);
  const fresh = () => {
    const file = newLogbook();
    createMachine(file, machine);
    passFitToMeasure(file, machine.layout);
    return file;
  };

  it("tells squareness, scale and play of both axes apart from three discs", () => {
    const file = fresh();
    disc(file, 60, 1);
    disc(file, 60, -1);
    disc(file, 25, 1);
    const findings = findingsOf(file);
    const truths = [
      ["squareness", 1000 * gamma],
      ["scale.x", 1000 * scale.x],
      ["scale.y", 1000 * scale.y],
      ["lost-motion.x", play.x],
      ["lost-motion.y", play.y],
    ] as const;
    for (const [id, truth] of truths) {
      const { low, high, value, expandedUncertainty } = findingIn(findings, id);
      expect(low, id).toBeLessThan(truth);
      expect(high, id).toBeGreaterThan(truth);
      expect(Math.abs(value - truth), id).toBeLessThan(expandedUncertainty + 1e-9);
    }
    expect(findingIn(findings, "squareness").expandedUncertainty).toBeLessThan(0.8);
    expect(findingIn(findings, "lost-motion.x").expandedUncertainty).toBeLessThan(0.08);
  });

  it("does as well with a slot of the same cutter in the place of the small disc", () => {
    const file = fresh();
    disc(file, 60, 1);
    disc(file, 60, -1);
    const without = findingIn(findingsOf(file), "scale.x");
    const slot = ["slot-width", "6.00", "--with", "calipers-300", "--object", "cutter=cutter"];
    done(["read", file, ...slot, "--set", "cutterMm=6"]);
    const findings = findingsOf(file);
    for (const [id, truth] of [
      ["squareness", 1000 * gamma],
      ["scale.x", 1000 * scale.x],
      ["scale.y", 1000 * scale.y],
    ] as const) {
      const { low, high } = findingIn(findings, id);
      expect(low, id).toBeLessThan(truth);
      expect(high, id).toBeGreaterThan(truth);
    }
    expect(findingIn(findings, "scale.x").expandedUncertainty).toBeLessThan(0.8 * without.expandedUncertainty);
  });

  it("says what a circle comes out like, and what to move for a rounder one", () => {
    const file = fresh();
    disc(file, 60, 1);
    disc(file, 60, -1);
    disc(file, 25, 1);
    done(["skim", file, "no"]);
    done(["demands", file, "set", "circle", "--limit", "0.2", "--size", "radius=60"]);
    const { answer, moves, demands } = json<JsonPlan>(["plan", file]);
    expect(answer).toBe("move");
    const circle = demands.find(({ before }) => before.kind === "circle");
    // Skew, scales and play of these discs, all within what a first machine has.
    expect(circle?.before.verdict).toBe("out");
    expect(circle?.after.value).toBeLessThan(circle?.before.limit ?? 0);
    const bring = moves.filter(({ brings }) => brings.some(({ demand }) => demand === circle?.before.id));
    expect(bring.length).toBeGreaterThan(0);
    for (const { adjuster } of bring) expect(adjuster).toMatch(/^(play|steps)\.[xy]$|offset|yaw|^frame\./);
  });

  it("says with one disc alone what it cannot tell: skew from unequal play, scale from the cutter's size", () => {
    const file = fresh();
    disc(file, 60, 1);
    const one = findingsOf(file);
    expect(findingIn(one, "squareness").expandedUncertainty).toBeGreaterThan(1.2);
    expect(findingIn(one, "scale.x").expandedUncertainty).toBeGreaterThan(2);
    const { apart } = json<{ apart: string }>(["explain", file, "squareness"]);
    expect(apart).toMatch(/play of/);
    expect(json<{ apart: string }>(["explain", file, "scale.x"]).apart).toMatch(/cutter|scale/);
  });

  it("refuses a diameter within ten degrees of a quadrant and says why", () => {
    const file = fresh();
    expect(() => done(["read", file, "ring-diameters", "5°=114.0", "--with", "calipers-300"])).toThrow(
      /jaws|quadrant|step/,
    );
  });
});
