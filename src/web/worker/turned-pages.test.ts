import { beforeEach, describe, expect, it } from "vitest";
import { demonstrationEvents as events } from "../../../tests/stories/demonstration-events.ts";
import { shapeNumbers } from "../../app/drawn-machine.ts";
import { addEvents, assessmentOf, forgetMachine } from "./held.ts";
import { turnedPage } from "./turned-pages.ts";

const machine = "00000000000000000000000000000001";

function page() {
  const answer = turnedPage(machine);
  if (!answer.ok) throw new Error(JSON.stringify(answer.told));
  return answer.value;
}

describe("the machine to be turned", () => {
  beforeEach(() => forgetMachine(machine));

  it("stands as it should be before anything has been measured", () => {
    addEvents(machine, events.slice(0, 1));
    const { solids, magnified, numbers } = page();
    expect(solids.estimate).toBeNull();
    expect(solids.nominal.length).toBeGreaterThan(5);
    expect(magnified).toMatch(/^Nothing has been measured yet/);
    expect(numbers).toEqual([]);
  });

  it("stands as estimated beside how it should be, with the numbers of its drawing", () => {
    addEvents(machine, events);
    const { solids, magnified, numbers } = page();
    expect(solids.estimate).toHaveLength(solids.nominal.length);
    expect(magnified).toContain(`exaggerated ${solids.exaggeration.factor} times`);
    const assessed = assessmentOf(machine);
    if (!assessed.ok) throw new Error("the demonstration reads");
    expect(numbers).toEqual(shapeNumbers(assessed.value));
    expect(numbers.length).toBeGreaterThan(0);
  });
});
