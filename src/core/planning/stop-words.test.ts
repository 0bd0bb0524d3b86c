import { describe, expect, it } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { simulatedInstruments } from "../../../tests/simulation/workshop.ts";
import { checkById } from "../checks/catalogue.ts";
import type { GeometricCheck } from "../checks/check.ts";
import type { StopAt } from "./plan.ts";
import { stopInWords } from "./stop-words.ts";

const machine = workedMachine("moving-gantry");
/** 0.05 to 1.00 by 0.05. */
const twenty = { leavesMm: Array.from({ length: 20 }, (_, i) => (i + 1) / 20), largestStack: 3 };
/** One hundredth apart up to 0.10, then by 0.05. */
const fine = { leavesMm: [0.03, 0.04, 0.05, 0.06, 0.07, 0.08, 0.09, ...twenty.leavesMm.slice(1)], largestStack: 3 };

function stopOn(
  id: string,
  family: string,
  stationKey: string,
  [reads, from, to]: readonly [number, number, number],
  more: {
    readonly against?: string;
    readonly options?: Record<string, string>;
    readonly setUp?: StopAt["setUp"];
    readonly homesFirst?: boolean;
  } = {},
): StopAt {
  const check = checkById(id) as GeometricCheck;
  const setup = { machine, options: more.options ?? {}, instrument: simulatedInstruments[family] };
  const stations = check.stations(setup);
  const find = (key: string) => {
    const station = stations.find((candidate) => candidate.key === key);
    if (!station) throw new Error(`${id} has no ${key}`);
    return station;
  };
  const against = more.against === undefined ? null : find(more.against);
  const { setUp = "anew", homesFirst = false } = more;
  const counted = { setUp, homesFirst, readsBefore: 0, changesBy: reads };
  return { check, setup, run: null, station: find(stationKey), against, reads, from, to, ...counted };
}

describe("a stop at a gap felt with leaves", () => {
  const stop = stopOn("gap-under-beam", "feeler", "front right", [0.64, 0.59, 0.69]);

  it("names what goes and what does not, and what is good enough", () => {
    expect(stopInWords(stop, { leaves: twenty })).toBe(
      "Stop when station 3 (front right) reads 0.60 goes and 0.65 does not. Anything from 0.59 to 0.69 is good enough.",
    );
  });

  it("does not ask for stacks that the feel cannot tell apart, however fine the set", () => {
    const text = stopInWords(stop, { leaves: fine });
    const [goes, doesNotGo] = /reads (\S+) goes and (\S+) does not/.exec(text)!.slice(1).map(Number);
    expect(goes).toBeLessThanOrEqual(0.64);
    expect(doesNotGo).toBeGreaterThan(0.64);
    expect(doesNotGo - goes).toBeGreaterThanOrEqual(2 * 0.02 - 1e-9);
  });

  it("leaves out a band that is narrower than the two stacks are apart", () => {
    const narrow = { ...stop, from: 0.62, to: 0.66 };
    expect(stopInWords(narrow, { leaves: twenty })).toBe(
      "Stop when station 3 (front right) reads 0.60 goes and 0.65 does not.",
    );
  });

  it("is a check only where leaves are laid at the joint", () => {
    expect(stopInWords(stop, { leaves: twenty, packed: true })).toMatch(
      /^The leaves laid settle the amount; as a check, station 3 \(front right\) reads 0\.60 goes and 0\.65 does not\./,
    );
  });

  it("is told in inches to somebody who works in inches", () => {
    const thou = { leavesMm: Array.from({ length: 24 }, (_, i) => (i + 2) * 0.0254), largestStack: 3 };
    expect(stopInWords(stop, { leaves: thou, system: "inch" })).toMatch(
      /reads 0\.02\d? in goes and 0\.02\d? in does not\. Anything from 0\.0235 in to 0\.0270 in is good enough\.$/,
    );
  });
});

describe("a stop at two gaps beside a square", () => {
  it("names the gap that is open and the one that is shut", () => {
    const left = stopOn("beam-upright", "feeler", "left", [-0.22, -0.3, -0.14]);
    expect(stopInWords(left, { leaves: twenty })).toBe(
      "Stop when the top gap at station 1 (left) is shut and the bottom gap reads 0.20 goes and 0.25 does not. Anything from 0.14 to 0.30 is good enough.",
    );
  });

  it("asks for nothing thinner than the thinnest leaf", () => {
    const left = stopOn("beam-upright", "feeler", "left", [0.02, -0.01, 0.05]);
    expect(stopInWords(left, { leaves: twenty })).toBe(
      "Stop when not even 0.05 goes into the top gap or the bottom gap at station 1 (left).",
    );
  });
});

describe("a stop on a gauge that shows a number", () => {
  it("counts against another station where the zero is free", () => {
    const stop = stopOn("tram-sweep", "dial", "centre, right", [0.1234, 0.081, 0.169], { against: "centre, left" });
    expect(stopInWords(stop)).toMatch(
      /^Stop when station \d+ \(centre, right\) reads 0\.12 more than station \d+ \(centre, left\)\. Anything from 0\.09 to 0\.16 more is good enough\.$/,
    );
  });

  it("says less for what is less, and both where the band goes across nothing", () => {
    const stop = stopOn("tram-sweep", "dial", "centre, right", [-0.02, -0.061, 0.022], { against: "centre, left" });
    expect(stopInWords(stop)).toMatch(
      /reads 0\.02 less than .* Anything from 0\.06 less to 0\.02 more is good enough\.$/,
    );
  });

  it("reads lost motion at once by a dial", () => {
    const stop = stopOn("turnaround", "dial", "nose", [0.03, 0.015, 0.08], { options: { axis: "X" } });
    expect(stopInWords(stop)).toBe(
      "Stop when station 1 (nose) reads 0.03 on the dial. Anything from 0.02 to 0.08 is good enough.",
    );
  });

  it("rounds to the step that a level shows", () => {
    const stop = stopOn("rail-wind", "level", "rear", [0.333, 0.27, 0.4], { against: "front" });
    expect(stopInWords(stop)).toBe(
      "Stop when station 5 (rear) reads 0.34 mm/m more than station 1 (front). Anything from 0.28 mm/m to 0.40 mm/m more is good enough.",
    );
  });
});

describe("a stop that shows only after a homing", () => {
  it("says to home first and what would undo that, and calls two lengths by their ends", () => {
    const more = { options: { marks: "pricks" }, against: "rising", homesFirst: true };
    const stop = stopOn("hole-rectangle", "rule", "falling", [0.1, -0.2, 0.4], more);
    expect(stopInWords(stop)).toMatch(
      /^Home first, and leave the drives on until all is read: .* It is right when station 6 \(diagonal from front right to rear left\) reads 0\.1 more than station 5 \(diagonal from front left to rear right\)\./,
    );
  });
});

describe("a stop that hangs on how a run was set up", () => {
  const options = { lies: "corner front left" };

  it("is set up and read before the joint is opened, and counts from there", () => {
    const stop = stopOn("square-sweep", "dial", "stock 4", [-1.384, -1.5, -1.27], {
      options,
      setUp: "before the move",
    });
    expect(stopInWords(stop)).toMatch(
      /^Before the joint is opened, set this up and leave it standing\. Lay the square .*\. Read station 4 \(stock 4\) once\. Stop when station 4 \(stock 4\) reads 1\.38 less than then\. Anything from 1\.27 to 1\.50 less is good enough\.$/,
    );
    const gaps = stopOn("stop-gaps", "feeler", "first press", [2.31, 2, 2.6], { setUp: "before the move" });
    expect(stopInWords(gaps)).toMatch(/Stop when the right gap has gained 2\.32 on the left gap at station 1/);
    const none = stopOn("square-sweep", "dial", "stock 4", [0, -0.1, 0.1], { options, setUp: "before the move" });
    expect(stopInWords(none)).toMatch(/reads the same as then\./);
  });

  it("goes on as it stood, and says what to do when it has been touched", () => {
    const stop = stopOn("square-sweep", "dial", "blade 4", [0.42, 0.38, 0.46], { options, setUp: "as it stood" });
    expect(stopInWords(stop)).toMatch(
      /^Stop when station 8 \(blade 4\) reads 0\.42 on the dial\. .* If anything of that run's set-up has been touched since, set it up before the joint is opened, read station 8 \(blade 4\) once, and stop when it reads 0\.42 more than then\.$/,
    );
  });

  it("says nothing of a set-up where it reads the same however often it is set up", () => {
    expect(stopInWords(stopOn("gap-under-beam", "feeler", "front right", [0.64, 0.59, 0.69]))).not.toMatch(/set up/);
  });
});
