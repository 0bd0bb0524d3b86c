import { describe, expect, it } from "vitest";
import { checks } from "../../src/core/checks/catalogue.ts";
import type { Setup } from "../../src/core/checks/check.ts";
import { adjusterDrawing } from "../../src/core/drawing/adjuster-drawing.ts";
import { checkSetupDrawing } from "../../src/core/drawing/check-setup.ts";
import { signPictures } from "../../src/core/drawing/sign-conventions.ts";
import { examplesOf, otherMachines } from "./adjuster-drawings.ts";
import { bridge, drawings, gantry } from "./drawings.ts";
import { type LetteringBox, letteringBoxes } from "./lettering-boxes.ts";
import { oddWorkDrawings, workDrawings } from "./work-drawings.ts";

const setups = [gantry, bridge].flatMap((machine) =>
  checks
    .filter(({ layouts }) => layouts.includes(machine.layout.id))
    .flatMap((check) => {
      const questions = check.options.filter(({ answers }) => answers);
      let given: Setup["options"][] = [{}];
      for (const { key, answers = [] } of questions) {
        given = given.flatMap((options) => answers.map((answer) => ({ ...options, [key]: answer })));
      }
      return given.flatMap((options) =>
        (["wide", "narrow"] as const).map((shape) => ({
          name: [check.id, machine.layout.id, shape, ...Object.values(options)].join(", "),
          svg: checkSetupDrawing({ check, setup: { machine, options, instrument: null }, shape }),
        })),
      );
    }),
);

const moves = [gantry, bridge, ...otherMachines].flatMap((machine) =>
  examplesOf(machine).map((example) => ({
    name: ["adjuster", machine.description.name, machine.layout.id, example.adjuster.id, example.amount].join(", "),
    svg: adjusterDrawing({ machine, ...example }),
  })),
);

const all = [
  ...Object.entries({ ...drawings, ...workDrawings, ...oddWorkDrawings }).map(([name, draw]) => ({
    name,
    svg: draw(),
  })),
  ...signPictures(gantry).map(({ name, svg }) => ({ name, svg })),
  ...setups,
  ...moves,
];

describe("lettering", () => {
  it.each(all)("$name: no two lines of lettering touch", ({ svg }) => {
    const boxes = letteringBoxes(svg);
    const touching = boxes.flatMap((a, i) =>
      boxes
        .slice(i + 1)
        .filter((b) => touch(a, b))
        .map((b) => `${a.text} / ${b.text}`),
    );
    expect(touching).toEqual([]);
  });

  it.each(all)("$name: nothing is clipped at the edge", ({ svg }) => {
    const [, width, height] = /viewBox="0 0 (\d+) (\d+)"/.exec(svg)!.map(Number);
    const clipped = letteringBoxes(svg).filter(
      ({ left, right, top, bottom }) => left < 0 || right > width || top < 0 || bottom > height,
    );
    expect(clipped.map(({ text }) => text)).toEqual([]);
  });

  it("is never smaller than 12 px", () => {
    for (const { svg } of all) for (const { size } of letteringBoxes(svg)) expect(size).toBeGreaterThanOrEqual(12);
    for (const { svg } of all)
      for (const [, px] of svg.matchAll(/font-size:(\d+)px/g)) expect(Number(px)).toBeGreaterThanOrEqual(12);
  });
});

describe("every figure", () => {
  it("has a name and says what it shows", () => {
    for (const { svg } of all) expect(svg).toMatch(/<title>[^<]+<\/title><desc>[^<]+<\/desc>/);
  });

  it("closes every element that it opens", () => {
    for (const { svg } of all) expect(unclosed(svg)).toEqual([]);
  });
});

function touch(a: LetteringBox, b: LetteringBox): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

function unclosed(svg: string): readonly string[] {
  const open: string[] = [];
  for (const [, closes, name, empty] of svg.matchAll(/<(\/?)([a-z]+)[^>]*?(\/?)>/g)) {
    if (closes) {
      if (open.pop() !== name) return [name];
    } else if (!empty) open.push(name);
  }
  return open;
}
