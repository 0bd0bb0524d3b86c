import { describe, expect, it } from "vitest";
import { HiddenMachine, type JsonPlan } from "./hidden-machine.ts";
import { createMachine, done, json, kilter, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";

interface JsonHeldPlan extends JsonPlan {
  readonly heldBack: { readonly because: string; readonly failed: boolean; readonly lookAhead: boolean } | null;
}

// The tram and the bed are far out, and read; the machine itself has not been found fit to be measured.
describe.each(layouts)("a plan before the fit-to-measure round, on a $layout", (machine) => {
  const file = newLogbook();
  createMachine(file, machine);
  done(["skim", file, "no"]);
  const hidden = new HiddenMachine(file, { "slide.lean.side": 4, "bed.tilt.x": 1 }, 3);
  hidden.read("bed-touch", "touch-plate", 0.01);
  hidden.read("tram-sweep", "dial-indicator", 0.01);
  const said = (...more: readonly string[]) => done(["plan", file, ...more]).replaceAll(/\s+/g, " ");

  it("gives the notice first, and no move, in words and for machines", () => {
    const out = said();
    expect(out).toMatch(/^story Measure first: nothing is moved before the fit-to-measure round has been passed\./);
    expect(out).toMatch(/Chance that all demands are within, if nothing slips: now/);
    expect(out).toMatch(/still to do: feet-rock/);
    expect(out).toMatch(/kilter check feet-rock/);
    expect(out).not.toMatch(/Turn the|Raise |Lower |Lay |kilter done/);
    const plan = json<JsonHeldPlan>(["plan", file]);
    expect(plan).toMatchObject({ answer: "measure first", moves: [], minutes: 0 });
    expect(plan.heldBack).toEqual({ because: "fit to measure", failed: false, lookAhead: false });
    for (const { before, after } of plan.demands) expect(after).toEqual(before);
    expect(kilter(["plan", file, "--gate"]).status).toBe(1);
  });

  it("says of what the work comes out like after the plan that nothing is moved yet", () => {
    expect(done(["work", file, "--after"]).replaceAll(/\s+/g, " ")).toMatch(
      /Nothing is moved before that round has been passed: after it all is as it is now/,
    );
  });

  it("shows moves as a look ahead where that is asked for, and as nothing to be made", () => {
    const out = said("--look-ahead");
    expect(out).toMatch(/^story Measure first: .* are a look ahead, and are not to be made yet\./);
    expect(out).toMatch(/A look ahead, not to be made yet 1 /);
    expect(out).not.toMatch(/Ease |Nip |kilter done/);
    const plan = json<JsonHeldPlan>(["plan", file, "--look-ahead"]);
    expect(plan.answer).toBe("measure first");
    expect(plan.heldBack).toEqual({ because: "fit to measure", failed: false, lookAhead: true });
    expect(plan.moves.length).toBeGreaterThan(0);
  });

  it("says what was found loose is put right first", () => {
    const loose = newLogbook();
    createMachine(loose, machine);
    passFitToMeasure(loose, machine.layout);
    done(["read", loose, "grub-screws", "no", "yes", "yes"]);
    expect(done(["plan", loose]).replaceAll(/\s+/g, " ")).toMatch(
      /^story Put the machine right first: .*not passed: Grub screws, pulleys and couplings/,
    );
    const plan = json<JsonHeldPlan>(["plan", loose]);
    expect(plan).toMatchObject({ moves: [], heldBack: { failed: true } });
  });

  it("gives the moves when the round has been passed", () => {
    passFitToMeasure(file, machine.layout);
    const plan = json<JsonHeldPlan>(["plan", file]);
    expect(plan).toMatchObject({ answer: "move", heldBack: null });
    expect(plan.moves.length).toBeGreaterThan(0);
    expect(said()).toMatch(/kilter done/);
  });
});
