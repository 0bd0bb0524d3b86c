import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { createMachine, done, kilter, layouts, newLogbook } from "./kilter.ts";

const [machine] = layouts;

function fresh(): string {
  const file = newLogbook();
  createMachine(file, machine);
  return file;
}

describe("leaves of one's own on the command line", () => {
  it("are listed in mm, and decide which leaf is next and which sums can be made", () => {
    const file = fresh();
    done(["tool", file, "feeler-leaves", "--id", "mine", "--leaves", "0,03 0,07 0,20 0,50", "--stack", "2"]);
    expect(done(["tools", file])).toContain("feeler leaves, 4 of 0.03 to 0.50 mm");
    const read = (...readings: readonly string[]) =>
      kilter(["read", file, "gap-under-beam", ...readings, "--with", "mine", "--object", "block=block"]);
    expect(read("0.25").err).toContain("0.23");
    expect(read("0.03+0.07+0.20").err).toContain("stack-not-allowed");
    expect(read("0.20").status).toBe(0);
    // 0.20 goes alone: the next that this set makes is 0.03 and 0.20.
    expect(readFileSync(file, "utf8")).toMatch(/"goes":0\.2,"doesNotGo":0\.23/);
  });

  it("are listed in thousandths or in inches, and are then read in thousandths", () => {
    for (const list of ["1.5 2 3 10 thou", '.0015" .002" .003" .010"', "0.0015, 0.002, 0.003, 0.010 in"]) {
      const file = fresh();
      done(["tool", file, "feeler-leaves", "--id", "mine", "--leaves", list]);
      done(["read", file, "gap-under-beam", "10", "--with", "mine", "--object", "block=block"]);
      expect(readFileSync(file, "utf8"), list).toMatch(/"unit":"thou","goes":10,"doesNotGo":11\.5/);
    }
  });

  it("are corrected under the same id, unless a reading stands that the corrected ones cannot make", () => {
    const file = fresh();
    const list = (leaves: string) => kilter(["tool", file, "feeler-leaves", "--id", "mine", "--leaves", leaves]);
    expect(list("0.05 0.10 0.20").status).toBe(0);
    done(["read", file, "gap-under-beam", "0.20", "--with", "mine", "--object", "block=block"]);
    expect(list("0.05 0.10 0.20 0.30").status).toBe(0);
    const before = readFileSync(file, "utf8");
    expect(list("0.05 0.10 0.30").err).toContain("leaves-cannot-make");
    expect(readFileSync(file, "utf8")).toBe(before);
  });

  it("are refused where a leaf stands twice, or of a tool that has none", () => {
    const file = fresh();
    expect(kilter(["tool", file, "feeler-leaves", "--leaves", "0.05 0.05"]).err).toContain("leaf-listed-twice");
    expect(kilter(["tool", file, "calipers-150", "--leaves", "0.05"]).err).toContain("figure-of-other-instrument");
    expect(kilter(["tool", file, "feeler-leaves", "--stack", "9"]).err).toContain("word-form");
  });
});

describe("a tool that is put away", () => {
  it("is asked for by no check, keeps what was read with it, and can be taken out again", () => {
    const file = fresh();
    done(["tool", file, "feeler-leaves", "--id", "aaa", "--leaves", "0.05 0.10 0.20"]);
    const example = () => done(["check", "gap-under-beam", file]);
    done(["read", file, "gap-under-beam", "0.20", "--with", "feeler-leaves", "--object", "block=block"]);
    expect(example()).toContain("--with feeler-leaves");
    done(["put-away", file, "feeler-leaves", "--because", "rusty"]);
    expect(example()).toContain("--with aaa");
    expect(done(["tools", file])).toContain("put away: feeler leaves");
    expect(JSON.parse(done(["readings", file, "--json"]))).toHaveLength(1);
    done(["put-away", file, "feeler-leaves", "--back"]);
    expect(example()).toContain("--with feeler-leaves");
    expect(kilter(["put-away", file, "feeler-leafs"]).err).toContain("tool-not-there");
  });
});
