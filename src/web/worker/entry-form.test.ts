import { describe, expect, test } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { instrumentKinds } from "../../app/catalog.ts";
import { readingFields } from "../../app/take-run.ts";
import { checkById, checks } from "../../core/checks/catalogue.ts";
import type { Check } from "../../core/checks/check.ts";
import { usualInstrument } from "../../core/instruments/instrument.ts";
import { entryForm } from "./entry-form.ts";

const machine = workedMachine("moving-gantry");

function toolsFor(check: Check) {
  const kinds = [...instrumentKinds.values()].filter(({ family }) => check.instruments.includes(family));
  return kinds.map((kind) => usualInstrument(kind));
}

describe("the fields of a station", () => {
  const bothWays = checks.filter((check) => check.bothWays).map((check) => [check.id, check] as const);

  test("offer a sign wherever the check asks for one in words", () => {
    const asking = checks.filter(({ words }) => words.steps.some((step) => /\bwith a minus\b/.test(step)));
    expect(asking.map(({ id }) => id)).toContain("gross-scale");
    for (const check of asking) expect(check.bothWays, check.id).toBe(true);
  });

  test.each(bothWays)("of %s take a minus with every tool that it is read with, leaves apart", (_, check) => {
    for (const tool of toolsFor(check)) {
      if (tool.measures !== "length" || tool.leaves) continue;
      expect(entryForm(check, tool, null).signed, tool.name).toBe(true);
      const text = tool.rangeMm && tool.rangeMm.to < 1 ? "-0.05" : "-0.5";
      expect(readingFields(check, tool, { text }, {}).ok, tool.name).toBe(true);
    }
  });

  test("refuse a minus where a length is read from end to end", () => {
    const check = checkById("hole-rectangle") as Check;
    const [station] = check.stations({ machine, options: {}, instrument: null });
    expect(station.nominal).toBeGreaterThan(0);
    for (const tool of toolsFor(check)) {
      if (tool.measures === "length" && tool.readsDifference) continue;
      expect(entryForm(check, tool, null).signed, tool.name).toBe(false);
      expect(readingFields(check, tool, { text: "-100" }, {}).ok, tool.name).toBe(false);
    }
  });
});
