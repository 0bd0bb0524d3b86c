import { test } from "vitest";
import { normalQuantile } from "../../src/core/numerics/distributions.ts";
import { globalRisks, normalPrior } from "../../src/core/standards/jcgm106.ts";
import { openReference } from "./reference.ts";

const source = openReference("[RP-19]");

test("false accepts and conditional false accepts of items in tolerance by a given share", () => {
  const rows = [
    [0.6, "4.83860326", "8.26008199"],
    [0.7, "3.92234109", "5.72322042"],
    [0.8, "2.85583037", "3.63227145"],
    [0.9, "1.59995312", "1.79880430"],
    [0.95, "0.87100925", "0.92389664"],
    [0.99, "0.19991684", "0.20243866"],
  ] as const;
  for (const [share, falseAccept, conditional] of rows) {
    // Tolerance ±1, centred production; the test is four times as fine as the production is wide.
    const deviation = 1 / normalQuantile((1 + share) / 2);
    const risks = globalRisks(normalPrior(0, deviation), deviation / 4, { lower: -1, upper: 1 });
    const name = `in tolerance ${share}`;
    const tolerance = { within: 1e-6, because: "the source integrates coarsely" };
    source.number({
      what: `${name}: false accept, %`,
      expected: falseAccept,
      got: 100 * risks.consumersRisk,
      status: "published",
      ...tolerance,
    });
    source.number({
      what: `${name}: among the accepted, %`,
      expected: conditional,
      got: (100 * risks.consumersRisk) / risks.accepted,
      status: "published",
      ...tolerance,
    });
  }
});
