import { describe, expect, it } from "vitest";
import { HiddenMachine } from "./hidden-machine.ts";
import { createMachine, done, json, kilter, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";

interface JsonSettling {
  readonly settling: readonly {
    readonly demand: string;
    readonly open: string;
    readonly settles: boolean;
    readonly lacks: readonly string[];
    readonly minutes: number;
    readonly checks: readonly {
      readonly check: string;
      readonly options: Readonly<Record<string, string>>;
      readonly instrument: string;
      readonly minutes: number;
    }[];
    readonly standardUncertaintyNow: number;
    readonly standardUncertaintyAfter: number;
    readonly sentence: string;
  }[];
}

describe.each(layouts)("what settles a demand that is not known yet, on a $layout", (machine) => {
  const file = newLogbook();
  createMachine(file, machine);
  passFitToMeasure(file, machine.layout);
  const hidden = new HiddenMachine(file, { "backlash.x": 0.5, "backlash.y": 0.03, "slide.lean.side": 6 }, 5);
  hidden.read("bed-touch", "touch-plate", 0.01);
  const commands = ["plan", "demands", "next"] as const;

  it.each(commands)("is said by `%s` for each of them: check, minutes, and what is then known", (command) => {
    const { settling } = json<JsonSettling>([command, file]);
    expect(settling.map(({ demand }) => demand)).toEqual(expect.arrayContaining(["play x", "tram 200", "runout"]));
    const out = done([command, file]).replaceAll(/\s+/g, " ");
    for (const one of settling) {
      expect(out).toContain(one.sentence);
      expect(one.minutes).toBe(one.checks.reduce((sum, { minutes }) => sum + minutes, 0));
      if (!one.settles || one.open === "close") continue;
      expect(one.checks.length, one.demand).toBeGreaterThan(0);
      expect(one.standardUncertaintyAfter).toBeLessThan(one.standardUncertaintyNow);
      expect(one.sentence).toMatch(/; \d+ min\)/);
    }
  });

  it("is the same for all three where nothing is to be moved", () => {
    const [plan, demands, next] = commands.map((command) => json<JsonSettling>([command, file]).settling);
    expect(next).toEqual(demands);
    const unread = ({ open }: JsonSettling["settling"][0]) => open === "unread";
    const ofPlan = plan.filter(unread).map(({ demand, checks }) => [demand, checks]);
    expect(ofPlan).toEqual(demands.filter(unread).map(({ demand, checks }) => [demand, checks]));
  });

  it("does settle it: read as it was said, each of them is in or out", () => {
    const { settling } = json<JsonSettling>(["demands", file]);
    for (const id of ["play x", "play y", "tram 200"]) {
      const named = settling.find(({ demand }) => demand === id);
      for (const { check, instrument, options } of named?.checks ?? []) hidden.read(check, instrument, 0.005, options);
    }
    const { demands } = json<{ demands: { id: string; verdict: string }[] }>(["demands", file]);
    const verdictOf = (id: string) => demands.find((demand) => demand.id === id)?.verdict;
    expect(verdictOf("play x")).toBe("out");
    expect(verdictOf("play y")).toBe("within");
    expect(verdictOf("tram 200")).toBe("out");
  });

  it("is named as lacking where nothing that is at hand decides it", () => {
    const bare = newLogbook();
    const { layout, travel, options } = machine;
    const named = ["create", bare, "--name", "bare", "--layout", layout, "--travel", travel, ...options];
    done([...named, "--tool", "steel-rule"]);
    const { settling } = json<JsonSettling>(["demands", bare]);
    const tram = settling.find(({ demand }) => demand === "tram 200");
    expect(tram?.lacks.length).toBe(1);
    expect(tram?.sentence).toMatch(
      /^Nothing that you have tells more of it .* it can be decided, by .* min\): ± \S+ mm then\.$/,
    );
    expect(kilter(["plan", bare, "--gate"]).status).toBe(1);
  });
});
