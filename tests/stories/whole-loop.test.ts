import { describe, expect, it } from "vitest";
import { HiddenMachine, type JsonPlan } from "./hidden-machine.ts";
import { createMachine, done, json, layouts, newLogbook, passFitToMeasure } from "./kilter.ts";

// What is out of these machines, in the modes' units; the logbook learns of it only through readings.
const truths = {
  "moving-gantry": { "beam.right": -0.3, "slide.lean.side": 3, "backlash.x": 0.25, "bed.tilt.x": 0.4 },
  "fixed-bridge": { "slide.lean.side": -3, "bed.tilt.x": 0.8, "backlash.y": 0.25 },
} as const;

describe.each(layouts)("measure, plan, move, and again, on a $layout", (machine) => {
  it("brings a machine whose truth is hidden within all limits of its work in two rounds", () => {
    const file = newLogbook();
    createMachine(file, machine);
    passFitToMeasure(file, machine.layout);
    done(["skim", file, "no"]);
    for (const id of ["runout", "scale x", "scale y", "diagonals"]) done(["demands", file, "drop", id]);
    const hidden = new HiddenMachine(file, truths[machine.layout], 6);
    const start = hidden.worst();
    expect(start).toBeGreaterThan(1.2);
    let worst = start;
    for (let round = 0; round < 2; round++) {
      hidden.read("bed-touch", "touch-plate", 0.015);
      hidden.read("tram-sweep", "dial-indicator", 0.01);
      for (const axis of ["X", "Y"]) hidden.read("turnaround", "dial-indicator", 0.01, { axis });
      const plan = json<JsonPlan>(["plan", file]);
      if (round === 0) expect(plan.moves.length).toBeGreaterThan(0);
      for (const move of plan.moves) hidden.move(move);
      worst = hidden.worst();
    }
    expect(worst).toBeLessThan(1);
    expect(worst).toBeLessThan(start);
  });
});
