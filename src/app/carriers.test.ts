import { describe, expect, it } from "vitest";
import { demonstrationText } from "../../tests/stories/demonstration-events.ts";
import type { FindingResult } from "../core/findings/evaluate.ts";
import type { Demand } from "../core/work/demand.ts";
import { assess } from "./assess.ts";
import { carriersOfDemand } from "./carriers.ts";
import { carriersOf } from "./explain.ts";
import { demandResults } from "./plan-for.ts";
import { openSession } from "./session.ts";

const session = openSession(demonstrationText, "shared-workshop.jsonl");
if (!session.ok) throw new Error("the demonstration reads");
const assessment = assess(session.value.timeline);
const demands = demandResults(assessment).results.map(({ demand }) => demand);

describe("where the doubt of a demand comes from", () => {
  it("is the same as what carries the finding, where both are one and the same length", () => {
    const demand = demands.find(({ kind, title }) => kind === "scale" && title.endsWith("X")) as Demand;
    const finding = assessment.findings.find(({ finding: { id } }) => id === "scale.x") as FindingResult;
    const expected = carriersOf(assessment, finding);
    const carriers = carriersOfDemand(assessment.estimate, demand);
    expect(carriers.map(({ what }) => what)).toEqual(expected.map(({ what }) => what));
    carriers.forEach(({ share }, i) => {
      // A finding is taken as the machine is homed now, a demand as it will be homed: the slopes differ by as little.
      expect(share).toBeCloseTo(expected[i].share, 4);
    });
  });

  it("comes weightiest first, and is no more than the whole", () => {
    for (const demand of demands) {
      const shares = carriersOfDemand(assessment.estimate, demand).map(({ share }) => share);
      expect(shares.length).toBeGreaterThan(0);
      expect(shares).toEqual([...shares].sort((a, b) => b - a));
      const sum = shares.reduce((total, share) => total + share, 0);
      expect(sum).toBeGreaterThan(0.8);
      expect(sum).toBeLessThan(1 + 1e-9);
    }
  });

  it("counts the homing still to come in what depends on it, and nowhere else", () => {
    const whats = (kind: string) =>
      carriersOfDemand(assessment.estimate, demands.find((demand) => demand.kind === kind) as Demand).map(
        ({ what }) => what,
      );
    expect(whats("diagonals")).toContain("the next homing");
    expect(whats("scale")).not.toContain("the next homing");
  });
});
