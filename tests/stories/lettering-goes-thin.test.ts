import { existsSync, mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { HiddenMachine, type JsonPlan } from "./hidden-machine.ts";
import { createMachine, done, findingIn, findingsOf, json, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";

interface JsonWork {
  readonly demands: readonly { readonly id: string; readonly kind: string; readonly value: number }[];
  readonly pictures: readonly {
    readonly picture: string;
    readonly numbers: readonly {
      readonly words: string;
      readonly now: { readonly value: number };
      readonly after?: { readonly value: number };
    }[];
  }[];
}

// The bed rises to the right by 0.8 in a metre: letters come out thin at the left and thick at the right.
describe.each(layouts)("lettering that goes thin, on a $layout", (machine) => {
  const file = newLogbook();
  createMachine(file, machine);
  passFitToMeasure(file, machine.layout);
  done(["tool", file, "v-cutter"]);
  done(["demands", file, "choose", "lettering"]);
  const hidden = new HiddenMachine(file, { "bed.tilt.x": 0.8 }, 8);
  for (const along of ["X", "Y"]) hidden.read("groove-widths", "calipers-300", 0.01, { along });
  const stroke = (work: JsonWork, words: RegExp) => {
    const numbers = work.pictures.find(({ picture }) => picture === "stroke")?.numbers ?? [];
    const found = numbers.find((number) => words.test(number.words));
    if (!found) throw new Error(`no number ${words}`);
    return found;
  };

  it("shows from the widths of grooves how much deeper it cuts at one end than at the other", () => {
    const work = json<JsonWork>(["work", file]);
    const map = work.pictures.find(({ picture }) => picture === "depth-map");
    const spread = map?.numbers.find(({ words }) => words === "spread");
    const [x] = machine.travel.split("x").map(Number);
    expect(spread?.now.value).toBeGreaterThan(0.5e-3 * x);
    expect(stroke(work, /thick less thin/).now.value).toBeGreaterThan(0.2);
  });

  it("names the cause: the bed, or what carries the beam over it, sloping from left to right and not from front to rear", () => {
    const findings = findingsOf(file);
    const across = findingIn(findings, "over-bed.x");
    expect(Math.abs(across.value)).toBeGreaterThan(across.expandedUncertainty);
    expect(Math.abs(Math.abs(across.value) - 0.8)).toBeLessThan(across.expandedUncertainty);
    const along = findingIn(findings, "over-bed.y");
    expect(Math.abs(along.value)).toBeLessThan(along.expandedUncertainty);
    const { apart } = json<{ apart: string }>(["explain", file, "over-bed.x"]);
    expect(apart).toMatch(/the bed, left to right/);
    expect(apart).toMatch(/the work need not know/);
  });

  it("cures it with a skim where the bed will be skimmed, and says how the strokes come out then", () => {
    const plan = json<JsonPlan>(["plan", file, "--skim", "yes"]);
    expect(plan.moves.at(-1)?.adjuster).toBe("bed.skim");
    const depth = plan.demands.find(({ before }) => before.kind === "depth-spread");
    expect(depth?.before.verdict).toBe("out");
    expect(depth?.after.value).toBeLessThan(0.2 * (depth?.before.value ?? 0));
  });

  it("names a cure, and shows the strokes thick and thin before and after it", () => {
    const plan = json<JsonPlan>(["plan", file]);
    expect(plan.answer).toBe("move");
    const cures = plan.moves.map(({ adjuster }) => adjuster);
    expect(
      cures.some((id) => id === "bed.skim" || /^(bed|beam|rail)\./.test(id)),
      cures.join(),
    ).toBe(true);
    const after = stroke(json<JsonWork>(["work", file, "--after"]), /thick less thin/);
    expect(after.after?.value).toBeLessThan(0.5 * after.now.value);
  });

  it("cures it with leaves under the bed's corners where the bed is not skimmed", () => {
    const ids = ["bed.front.left", "bed.front.right", "bed.rear.left", "bed.rear.right"];
    const plan = json<JsonPlan>(["plan", file, "--skim", "no", ...ids.flatMap((id) => ["--only", id])]);
    expect(plan.moves.map(({ adjuster }) => adjuster)).toEqual(["bed.front.left", "bed.rear.left"]);
    for (const { sentence } of plan.moves) expect(sentence).toMatch(/^Lay .* under the bed's/);
  });

  it("draws the strokes and the depth over the bed", () => {
    const folder = mkdtempSync(join(tmpdir(), "kilter-"));
    done(["work", file, "--after", "--out", folder]);
    for (const name of ["stroke.svg", "depth-map.svg"]) {
      expect(existsSync(join(folder, name)), name).toBe(true);
      expect(readFileSync(join(folder, name), "utf8")).toMatch(/^<svg/);
    }
  });
});
