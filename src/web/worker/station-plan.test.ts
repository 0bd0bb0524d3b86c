import { describe, expect, it } from "vitest";
import { usualMachine } from "../../app/usual-machine.ts";
import { checkById } from "../../core/checks/catalogue.ts";
import type { Check } from "../../core/checks/check.ts";
import { machineFromDescription } from "../../core/machine/machine.ts";
import { stationPlan } from "./station-plan.ts";

const setup = { machine: machineFromDescription(usualMachine), options: {}, instrument: null };

function numbersShown(id: string, number: number): readonly number[] {
  const check = checkById(id) as Check;
  const now = check.stations(setup)[number - 1].key;
  const plan = stationPlan({ check, setup, read: [], now }, 168);
  const marks = plan.match(/<g class="mark[^"]*">.*?<\/g>/g) ?? [];
  return marks.map((mark) => Number(/>(\d+)<\/text>/.exec(mark)?.[1])).sort((a, b) => a - b);
}

describe("the plan of the station that is read", () => {
  it("shows the swing at the present place and no other", () => {
    expect(numbersShown("tram-sweep", 1)).toEqual([1, 2, 3, 4]);
    expect(numbersShown("tram-sweep", 20)).toEqual([17, 18, 19, 20]);
  });

  it("shows the push along the present axis", () => {
    expect(numbersShown("push-and-release", 3)).toEqual([3, 4]);
  });

  it("shows every station of a check that is read in one go", () => {
    expect(numbersShown("gap-under-beam", 1)).toEqual([1, 2, 3, 4, 5, 6]);
  });
});

it("goes round in the order in which the steps of the sweep name the ends", () => {
  const { words, stations } = checkById("tram-sweep") as Check;
  const ends = stations(setup)
    .slice(0, 4)
    .map(({ key }) => key.split(", ")[1]);
  for (const step of words.steps.filter((text) => /right.*rear.*left.*front/.test(text)))
    expect([...step.matchAll(/\b(right|rear|left|front)\b/g)].map(([end]) => end)).toEqual(ends);
  expect(words.steps.filter((text) => /\brear\b/.test(text))).toHaveLength(2);
});
