import { describe, expect, it } from "vitest";
import { bridge, gantry } from "../../../../tests/drawings/drawings.ts";
import { correctedStepsPerMm } from "../drives.ts";
import { machineFromDescription } from "../machine.ts";
import type { Adjuster } from "./adjuster.ts";
import { adjustersOf } from "./catalogue.ts";
import { amountForWay, handWayMm } from "./direction.ts";
import { amountForFactor, fasteningOf, newSteps, sentenceOf, stepsFactor } from "./sentence.ts";

const adjuster = (id: string, machine = gantry): Adjuster => adjustersOf(machine).find((one) => one.id === id)!;

describe("a move in a sentence", () => {
  it("raises, lowers and pushes", () => {
    expect(sentenceOf(adjuster("beam.right"), 0.29)).toBe("Raise the beam's right end by 0.29 mm.");
    expect(sentenceOf(adjuster("beam.left"), -0.1)).toBe("Lower the beam's left end by 0.1 mm.");
    expect(sentenceOf(adjuster("gantry.offset"), 0.6)).toBe(
      "Let the right end of the beam come home 0.6 mm further to the rear.",
    );
    expect(sentenceOf(adjuster("bridge.yaw", bridge), -0.6)).toBe("Push the bridge's right foot 0.6 mm to the front.");
    expect(sentenceOf(adjuster("frame.toe"), -0.4)).toBe("Push the right rail's rear end 0.4 mm to the left.");
  });

  it("says an angle as a way over a length that can be seen", () => {
    expect(sentenceOf(adjuster("slide.side"), -3)).toBe(
      "Turn the slide's top 0.36 mm to the left, over the 120 mm between its upper and lower screws.",
    );
    expect(sentenceOf(adjuster("bed.turn"), 2)).toBe(
      "Turn the bed's right edge 1.36 mm to the rear, over the 680 mm from edge to edge.",
    );
  });

  it("is found back from the way that the hand went, and from the number that was typed in", () => {
    for (const id of ["beam.right", "slide.side", "bed.turn"]) {
      const { moves } = adjuster(id);
      for (const amount of [0.3, 2]) expect(amountForWay(moves!, handWayMm(moves!, -amount))).toBeCloseTo(amount, 12);
    }
    for (const scaleNow of [-3, 0, 20])
      expect(amountForFactor(stepsFactor(1.4, scaleNow), scaleNow)).toBeCloseTo(1.4, 9);
    expect(newSteps(adjuster("steps.y"), 1, { stepsPerMmNow: 80, scaleNow: 0 })).toEqual({
      now: "80",
      becomes: "80.08",
    });
  });

  it("names leaves one by one, and what comes out before them", () => {
    const rail = adjuster("rail.left.front");
    const lay = { place: "only", layMm: [0.2, 0.15], takeOutMm: 0, restMm: 0.35 } as const;
    expect(sentenceOf(rail, 0.35, { leaves: lay })).toBe("Lay 0.35 mm under the left rail's front end: 0.20 + 0.15.");
    expect(sentenceOf(rail, -0.15, { leaves: { ...lay, takeOutMm: 0.5 } })).toBe(
      "Take out the 0.50 mm under the left rail's front end, and lay 0.35 mm there: 0.20 + 0.15.",
    );
    expect(sentenceOf(rail, -0.5, { leaves: { place: "only", layMm: [], takeOutMm: 0.5, restMm: 0 } })).toBe(
      "Take out the 0.50 mm under the left rail's front end.",
    );
    expect(sentenceOf(rail, 0.038, { leaves: { ...lay, layMm: [0.038] } })).toBe(
      "Lay 0.038 mm under the left rail's front end.",
    );
    expect(sentenceOf(rail, 0.35)).toBe("Lay 0.35 mm more under the left rail's front end.");
    expect(sentenceOf(rail, -0.35)).toBe("Take 0.35 mm out from under the left rail's front end.");
  });

  it("says which end of a slide comes forward, from top to bottom in one go", () => {
    const slide = adjuster("slide.packing");
    const leaves = [
      { place: "top", layMm: [], takeOutMm: 0.1, restMm: 0 },
      { place: "bottom", layMm: [0.15], takeOutMm: 0, restMm: 0.15 },
    ] as const;
    expect(sentenceOf(slide, -0.25, { leaves })).toBe(
      "Take out the 0.10 mm behind the slide's upper screws. Lay 0.15 mm behind the slide's lower screws. That brings the slide's top to the rear.",
    );
  });

  it("gives the old and the new number where the old one is known, else by what it is multiplied", () => {
    const steps = adjuster("steps.x");
    expect(sentenceOf(steps, -10)).toBe("Multiply the steps per mm of X by 0.9901.");
    expect(sentenceOf(steps, -10, { stepsPerMmNow: 80 })).toBe("Change the steps per mm of X from 80 to 79.208.");
    const drives = { ...gantry.dimensions.details.drives, x: { kind: "belt", stepsPerMm: 80 } } as const;
    const described = machineFromDescription({ ...gantry.description, details: { drives } });
    expect(sentenceOf(adjuster("steps.x", described), 10)).toBe("Change the steps per mm of X from 80 to 80.808.");
  });

  it("leaves alone what would not move by a hundredth", () => {
    expect(sentenceOf(adjuster("beam.right"), 0.004)).toBe("Leave the beam's right end as it is.");
    expect(sentenceOf(adjuster("bed.front.left"), 0)).toBe(
      "Leave the packing under the bed's front left corner as it is.",
    );
    expect(sentenceOf(adjuster("gantry.offset"), -0.001)).toBe("Leave the right end of the beam as it is.");
  });

  it("is in inches where inches are asked for", () => {
    expect(sentenceOf(adjuster("beam.right"), 0.254, { system: "inch" })).toBe(
      "Raise the beam's right end by 0.01 in.",
    );
  });

  it("is one or more whole sentences for every adjuster and both ways", () => {
    for (const machine of [gantry, bridge]) {
      for (const one of adjustersOf(machine)) {
        for (const amount of [0.5, -0.5]) expect(sentenceOf(one, amount)).toMatch(/^[A-Z][^−]*\.$/);
      }
    }
  });
});

describe("steps per mm", () => {
  it("bring a measured scale to nothing, as the drive's own formula does", () => {
    for (const scale of [-40, -3, 12, 45])
      expect(80 * stepsFactor(-scale)).toBeCloseTo(correctedStepsPerMm(80, scale), 9);
  });

  it("change a scale by the amount from wherever it is", () => {
    expect((1 + 20 / 1000) * stepsFactor(-15, 20)).toBeCloseTo(1 + 5 / 1000, 12);
  });
});

describe("the screws of a joint", () => {
  it("are eased by their names and nipped up crosswise", () => {
    const { loosen, tighten } = fasteningOf(adjuster("beam.right"))!;
    expect(loosen).toBe(
      "Ease H1 to H4 by a quarter turn each: the screws in the slots of the right side plate, usually M6.",
    );
    expect(tighten).toBe("Nip up H1, H4, H2 and H3, read again, then tighten in the same order.");
  });

  it("are none where a number, a drive or a cutter does the work", () => {
    for (const machine of [gantry, bridge]) {
      const without = adjustersOf(machine).filter((one) => fasteningOf(one) === null);
      expect(without.map(({ id }) => id.split(".")[0])).toEqual([
        ...["play", "play", "play"],
        ...["steps", "steps", "steps"],
        "bed",
      ]);
      for (const { fasteners } of without)
        expect([fasteners.member, fasteners.words.length > 20]).toEqual([null, true]);
    }
  });
});
