import { describe, expect, it } from "vitest";
import { plannedTimeline, workedMachine } from "../../../tests/simulation/simulate.ts";
import type { Timeline } from "../fit/timeline.ts";
import type { Entry } from "../instruments/entry.ts";
import { gateFromTimeline } from "./gate.ts";

const machine = workedMachine("moving-gantry");
const yes: Entry = { form: "verdict", passed: true };
const value = (number: number): Entry => ({ form: "value", value: number });

type Done = readonly [
  check: string,
  readings: Readonly<Record<string, Entry>>,
  options?: Readonly<Record<string, string>>,
];

const sound: readonly Done[] = [
  [
    "feet-rock",
    {
      "front left foot": value(0.05),
      "front right foot": value(0),
      "rear left foot": value(0),
      "rear right foot": value(0),
    },
  ],
  ["grub-screws", { X: yes, Y: yes, Z: yes }],
  ["belt-note", { "left belt": value(60), "right belt": value(62) }],
  ["wheel-preload", { "left side": yes, "right side": yes, carriage: yes, slide: yes }],
  [
    "push-and-release",
    Object.fromEntries(
      ["X", "Y", "Z"].flatMap((axis) => [
        [`${axis}, gives under 20 N`, value(0.4)],
        [`${axis}, stays`, value(0.02)],
      ]),
    ),
  ],
  ["side-push", { "far end, gives under 20 N": value(0.5), "far end, stays": value(0.05) }],
  ["there-and-back", { "X, after twenty trips": value(0.02) }, { axis: "X" }],
  ["there-and-back", { "Y, after twenty trips": value(0.02) }, { axis: "Y" }],
  ["gross-scale", { "X, 100 commanded": value(100), "Y, 100 commanded": value(99.5) }],
];

function timelineOf(done: readonly Done[]): Timeline {
  const empty = plannedTimeline(machine, []);
  const runs = done.map(([check, , options], r) => ({
    id: `run ${r}`,
    check,
    at: r,
    instrument: null,
    objects: {},
    options: options ?? {},
    conditions: {},
    factor: 1,
    withdrawn: null,
  }));
  const readings = done.flatMap(([, entries], r) =>
    Object.entries(entries).map(([station, entry]) => ({
      id: `${r} ${station}`,
      run: `run ${r}`,
      at: r,
      station,
      entries: [entry] as const,
      withdrawn: null,
    })),
  );
  return { ...empty, runs, readings };
}

function stateOf(check: string, ...later: readonly Done[]) {
  const gate = gateFromTimeline(machine, timelineOf([...sound, ...later]));
  const { state, where } = gate.checks.find((judged) => judged.check.id === check) as (typeof gate.checks)[number];
  return { passed: gate.passed, state, where: where.join("; ") };
}

describe("the fit-to-measure round", () => {
  it("is passed when all eight are, and by nothing less", () => {
    expect(gateFromTimeline(machine, timelineOf(sound)).passed).toBe(true);
    for (let left = 0; left < sound.length; left++) {
      expect(gateFromTimeline(machine, timelineOf(sound.filter((_, i) => i !== left))).passed, sound[left][0]).toBe(
        false,
      );
    }
  });

  it("holds two belts against each other: more than a semitone apart is not passed", () => {
    const { passed, state, where } = stateOf("belt-note", [
      "belt-note",
      { "left belt": value(60), "right belt": value(66) },
    ]);
    expect([passed, state]).toEqual([false, "failed"]);
    expect(where).toBe("left belt against right belt");
  });

  it("names what makes an axis go half the way", () => {
    const { state, where } = stateOf("gross-scale", [
      "gross-scale",
      { "X, 100 commanded": value(50), "Y, 100 commanded": value(100) },
    ]);
    expect(state).toBe("failed");
    expect(where).toMatch(/^X, 100 commanded: .*microsteps/);
  });

  it("counts each axis by its latest run", () => {
    const lost: Done = ["there-and-back", { "Y, after twenty trips": value(0.8) }, { axis: "Y" }];
    expect(stateOf("there-and-back", lost).state).toBe("failed");
    expect(
      stateOf("there-and-back", lost, ["there-and-back", { "Y, after twenty trips": value(0.01) }, { axis: "Y" }])
        .state,
    ).toBe("passed");
  });

  it("is not passed by a no, by rock, or by a foot that takes paper", () => {
    expect(
      stateOf("grub-screws", ["grub-screws", { X: yes, Y: { form: "verdict", passed: false }, Z: yes }]).where,
    ).toBe("Y");
    expect(
      stateOf("feet-rock", [
        "feet-rock",
        {
          "front left foot": value(0.15),
          "front right foot": value(0),
          "rear left foot": value(0),
          "rear right foot": value(0),
        },
      ]).where,
    ).toBe("front left foot");
  });
});
