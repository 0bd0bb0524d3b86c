import { describe, expect, it } from "vitest";
import { HiddenMachine, type JsonPlan } from "./hidden-machine.ts";
import { createMachine, done, json, kilter, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";

interface Compared {
  readonly findings: readonly { readonly id: string; readonly verdict: string }[];
  readonly demands: readonly {
    readonly before: { readonly id: string; readonly verdict: string };
    readonly after: { readonly verdict: string };
  }[];
}

interface Explained {
  readonly value: number;
  readonly history: readonly { readonly date: string; readonly value: number; readonly expandedUncertainty: number }[];
}

// Four months lie between the two rounds; the slide has turned on its plate meanwhile, the bed has stayed.
describe.each(layouts)("a season later, on a $layout", (machine) => {
  const file = newLogbook();
  createMachine(file, machine);
  passFitToMeasure(file, machine.layout);
  for (const id of ["runout", "play x", "play y", "scale x", "scale y", "diagonals"]) {
    done(["demands", file, "drop", id]);
  }
  const hidden = new HiddenMachine(file, {}, 11);
  const day = 24 * 3600 * 1000;
  const round = (monthsAgo: number) => {
    const at = new Date(Date.now() - monthsAgo * 30 * day - 3600 * 1000).toISOString().slice(0, 19);
    hidden.read("bed-touch", "touch-plate", 0.01, {}, `${at}Z`);
    hidden.read("tram-sweep", "dial-indicator", 0.01, {}, `${at}Z`);
    hidden.read("turnaround", "dial-indicator", 0.01, { axis: "X" }, `${at}Z`);
  };
  round(4);
  hidden.shift("slide.lean.side", 2.5);
  round(0);

  it("shows what moved, beyond its uncertainty, and that the path over the bed is as good as it was", () => {
    const { history } = json<Explained>(["explain", file, "tram.side"]);
    const [first, last] = [history[0], history[history.length - 1]];
    expect(first.date < last.date).toBe(true);
    const moved = Math.abs(last.value - first.value);
    expect(moved).toBeGreaterThan(first.expandedUncertainty + last.expandedUncertainty);
    const stayed = json<Explained>(["explain", file, "over-bed.x"]).history;
    const [before, after] = [stayed[0], stayed[stayed.length - 1]];
    // In mm/m both: a tram over 200 is five times as much over a metre. A season lets everything give way a little, and
    // what the dial has seen turn is put down to the beam for a small part.
    expect(Math.abs(after.value - before.value)).toBeLessThan((5 * moved) / 6);
    expect(Math.abs(after.value) + after.expandedUncertainty).toBeLessThan(1);
  });

  it("lists what moved and what stayed beside each other, and what the work came out like before and after", () => {
    const { findings, demands } = json<Compared>(["compare", file]);
    const verdictOf = (id: string) => findings.find((finding) => finding.id === id)?.verdict;
    expect(verdictOf("tram.side")).toBe("moved");
    for (const id of ["over-bed.y", "over-bed.twist"]) expect(verdictOf(id), id).not.toBe("moved");
    // Read by none of the three checks: a season's drift alone is no reason to say that it has stayed.
    for (const id of ["scale.y", "runout", "lost-motion.z"]) expect(verdictOf(id), id).toBe("not read on both sides");
    const tram = demands.find(({ before }) => before.id.startsWith("tram"));
    expect(tram?.before.verdict).toBe("within");
    expect(tram?.after.verdict).toBe("out");
    const text = done(["compare", file]);
    expect(text).toMatch(/^Read on both sides: \d+\. \d+ of them ha(ve|s) moved/);
    expect(text).toMatch(/Not read on both sides:.*\n {2}not shown by any reading on either\s+side: .*Runout/s);
    expect(text).toMatch(/In between: 4 months/);
    expect(text.split("\n").every((line) => line.length <= 80)).toBe(true);
  });

  it("refuses two times that are none", () => {
    const { status, err } = kilter(["compare", file, "--from", "2020-01-01"]);
    expect(status).toBe(2);
    expect(err).toMatch(/two times/);
  });

  it("says that it is no longer good for the work, and which move brings it back", () => {
    const { status } = kilter(["work", file, "--gate"]);
    expect(status).toBe(1);
    const plan = json<JsonPlan>(["plan", file, "--skim", "no"]);
    const byKind = (kind: string) => plan.demands.find(({ before }) => before.kind === kind);
    expect(byKind("tram")?.before.verdict).toBe("out");
    expect(byKind("depth-spread")?.before.verdict).toBe("within");
    expect(plan.moves.map(({ adjuster }) => adjuster)).toEqual([
      expect.stringMatching(/^(slide\.side|mount\.side|beam\.left|beam\.right)$/),
    ]);
    expect(byKind("tram")?.after.verdict).toBe("within");
    expect(kilter(["plan", file, "--skim", "no", "--gate"]).status).toBe(0);
  });
});
