import { describe, expect, it } from "vitest";
import { checkById } from "../../src/core/checks/catalogue.ts";
import type { GeometricCheck, Setup, Station } from "../../src/core/checks/check.ts";
import { adjusterDrawing } from "../../src/core/drawing/adjuster-drawing.ts";
import { sceneOf } from "../../src/core/drawing/adjuster-views.ts";
import type { ViewName } from "../../src/core/drawing/projection.ts";
import type { Adjuster } from "../../src/core/machine/adjusters/adjuster.ts";
import { adjustersOf } from "../../src/core/machine/adjusters/catalogue.ts";
import type { DirectionWord } from "../../src/core/machine/adjusters/direction.ts";
import { directionOf, sentenceOf } from "../../src/core/machine/adjusters/sentence.ts";
import { valuesOnly } from "../../src/core/machine/kinematics.ts";
import { type Machine, nominalState } from "../../src/core/machine/machine.ts";
import { constant } from "../../src/core/numerics/dual.ts";
import { examplesOf, otherMachines } from "./adjuster-drawings.ts";
import { bridge, gantry } from "./drawings.ts";
import { exactWayMm } from "./exact-way.ts";

const machines = [gantry, bridge, ...otherMachines];
const cases = machines.flatMap((machine) =>
  examplesOf(machine)
    .filter(({ adjuster }) => adjuster.moves !== null)
    .map((example) => ({
      ...example,
      machine,
      name: `${machine.description.name}, ${machine.layout.id}, ${example.adjuster.id}, ${example.amount}`,
    })),
);

describe("a move", () => {
  it.each(cases)("$name: arrow, sentence and exact model go the same way", ({ machine, adjuster, amount, leaves }) => {
    const { moves } = adjuster;
    const sign = Math.sign(exactWayMm(machine, adjuster, amount));
    const axis = moves!.along.findIndex((component) => component !== 0);
    const modelled = wayWords[axis]![sign * moves!.along[axis]! > 0 ? 0 : 1];
    const arrows = arrowsOf(adjusterDrawing({ machine, adjuster, amount, leaves }));
    // One at the part, and once more beside the amount.
    expect(arrows).toHaveLength(2);
    for (const arrow of arrows) expect(wordOfArrow(sceneOf(machine, adjuster).view, arrow)).toBe(modelled);
    expect(wordOfSentence(sentenceOf(adjuster, amount, { leaves }), adjuster)).toBe(modelled);
    expect(directionOf(adjuster, amount)).toBe(modelled);
  });

  it.each(cases)("$name: the sentence without its leaves goes the same way", ({ adjuster, amount }) => {
    expect(wordOfSentence(sentenceOf(adjuster, amount), adjuster)).toBe(directionOf(adjuster, amount));
  });
});

const withChecks = machines.flatMap((machine) =>
  adjustersOf(machine)
    .filter(({ readAgain }) => readAgain !== null)
    .map((adjuster) => ({
      machine,
      adjuster,
      name: `${machine.description.name}, ${machine.layout.id}, ${adjuster.id}`,
    })),
);

describe("what is read again", () => {
  it.each(withChecks)("$name: one of its checks shows the move, whatever the run's zero", ({ machine, adjuster }) => {
    const shown = adjuster.readAgain!.checks.map((id) => response(machine, adjuster, id));
    // A unit of the amount is at least half a millimetre, or half a mm/m over a few hundred mm.
    expect(Math.max(...shown)).toBeGreaterThan(0.05);
  });

  it("falls at the stops when the right one goes to the rear, and grows between rails pushed apart", () => {
    const [stagger, toe] = ["frame.stagger", "frame.toe"].map(
      (id) => adjustersOf(gantry).find((one) => one.id === id)!,
    );
    expect(changes(gantry, stagger!, "stop-gaps")).toEqual([-1, -1, -1]);
    const [front, , rear] = changes(gantry, toe!, "rail-spacing");
    expect(rear! - front!).toBeCloseTo(1, 9);
  });

  it("is a check of the layout", () => {
    for (const { machine, adjuster } of withChecks) {
      for (const id of adjuster.readAgain!.checks) expect(checkById(id)?.layouts).toContain(machine.layout.id);
    }
  });
});

const wayWords: readonly (readonly [DirectionWord, DirectionWord])[] = [
  ["to the right", "to the left"],
  ["to the rear", "to the front"],
  ["up", "down"],
];

type Arrow = { readonly dx: number; readonly dy: number };

/** Arrows of the act-here kind: the fourth corner is the tip, the root lies between the first and the last. */
function arrowsOf(svg: string): readonly Arrow[] {
  return [...svg.matchAll(/<path class="here way" d="([^"]+)"/g)].map(([, d]) => {
    const corners = d!
      .replace("z", "")
      .split(/[ML]/)
      .filter((text) => text !== "")
      .map((text) => text.split(" ").map(Number));
    const [root, tip] = [[0, 1].map((i) => (corners[0]![i]! + corners[6]![i]!) / 2), corners[3]!];
    return { dx: tip[0]! - root[0]!, dy: tip[1]! - root[1]! };
  });
}

/** What a way on the sheet is on the machine, by the view's own labels: plan and elevations in third angle. */
function wordOfArrow(view: ViewName, { dx, dy }: Arrow): DirectionWord {
  if (Math.abs(dy) > Math.abs(dx)) {
    if (view === "plan") return dy < 0 ? "to the rear" : "to the front";
    return dy < 0 ? "up" : "down";
  }
  if (view === "right") return dx > 0 ? "to the rear" : "to the front";
  if (view === "left") return dx > 0 ? "to the front" : "to the rear";
  return dx > 0 ? "to the right" : "to the left";
}

function wordOfSentence(sentence: string, adjuster: Adjuster): DirectionWord | undefined {
  const factor = /^Multiply .* by ([\d.]+)\.$/.exec(sentence);
  if (factor) return wayWords[["x", "y", "z"].indexOf(adjuster.id.slice(-1))]![Number(factor[1]) > 1 ? 0 : 1];
  const stacks = /^Take out the ([\d.]+) .*lay ([\d.]+)(?: mm)? there/.exec(sentence);
  if (stacks) return Number(stacks[2]) > Number(stacks[1]) ? "up" : "down";
  const horizontal = /to the (right|left|rear|front)\b(?!'s)/.exec(sentence)?.[0];
  if (horizontal) return horizontal as DirectionWord;
  if (/^(Raise|Lay .* under)/.test(sentence)) return "up";
  return /^(Lower|Take .* out from under)/.test(sentence) ? "down" : undefined;
}

/** By how much each reading of a check changes for one unit of the amount. */
function changes(machine: Machine, adjuster: Adjuster, id: string): readonly number[] {
  const check = checkById(id) as GeometricCheck;
  const setup: Setup = { machine, options: {}, instrument: null };
  const state = nominalState(machine);
  for (const [mode, perUnit] of Object.entries(adjuster.effect)) state[machine.parameterIndex.get(mode)!] = perUnit;
  const reading = (of: Float64Array, station: Station) =>
    check.predict(valuesOnly(machine, of), station, setup, () => constant(0, 0)).value;
  return check.stations(setup).map((station) => reading(state, station) - reading(nominalState(machine), station));
}

/** The largest of them, beside what a free zero takes up. */
function response(machine: Machine, adjuster: Adjuster, id: string): number {
  const check = checkById(id) as GeometricCheck;
  const setup: Setup = { machine, options: {}, instrument: null };
  const all = changes(machine, adjuster, id);
  const groups = new Map<string, number[]>();
  check.stations(setup).forEach((station, i) => {
    const free = check.unknowns(setup, station).filter(({ sd }) => sd >= 3);
    const key = free.map((unknown) => unknown.key).join();
    groups.set(key, [...(groups.get(key) ?? (key === "" ? [0] : [])), all[i]!]);
  });
  return Math.max(...[...groups.values()].map((group) => Math.max(...group) - Math.min(...group)));
}
