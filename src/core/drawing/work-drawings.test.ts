import { describe, expect, test } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { workStateWith } from "../../../tests/simulation/work-state-with.ts";
import { workSheetDrawings } from "./work-drawings.ts";

describe.each(["moving-gantry", "fixed-bridge"] as const)("drawings of the work of a %s", (layout) => {
  const machine = workedMachine(layout);
  const tilted = workStateWith(machine, { "bed.tilt.x": 1, "backlash.x": 0.1 }, { "bed.tilt.x": 0.1 });
  const better = workStateWith(machine, { "bed.tilt.x": 0.05 }, { "bed.tilt.x": 0.1 });

  test("are seven, each with a title, numbers and a drawing at both widths", () => {
    const list = workSheetDrawings(tilted);
    expect(list.map(({ id }) => id)).toEqual([
      "square",
      "circle",
      "depth-map",
      "stroke",
      "surfacing",
      "holes-and-walls",
      "dimension",
    ]);
    for (const { drawing } of list) {
      if (!drawing.ok) throw new Error("refused");
      expect(drawing.value.rows.length).toBeGreaterThan(3);
      expect(drawing.value.rows.every(({ after, afterText }) => after === null && afterText === null)).toBe(true);
      expect(drawing.value.draw("wide", "page")).toContain('viewBox="0 0 760 ');
      expect(drawing.value.draw("narrow", "page")).toContain('viewBox="0 0 358 ');
    }
  });

  test("say every number of theirs to who cannot see them, after the plan as well", () => {
    for (const { drawing } of workSheetDrawings(tilted, better)) {
      if (!drawing.ok) throw new Error("refused");
      const [, told] = /<desc>([^<]*)<\/desc>/.exec(drawing.value.draw("wide", "page")) as RegExpExecArray;
      for (const { words, nowText, afterText } of drawing.value.rows) {
        expect(told).toContain(`${words}: ${nowText}, after the plan ${afterText}`);
      }
    }
  });

  test("compare two maps in the same steps", () => {
    const contoursOf = (...states: Parameters<typeof workSheetDrawings>) => {
      const { drawing } = workSheetDrawings(...states).find(({ id }) => id === "depth-map")!;
      if (!drawing.ok) throw new Error("refused");
      return drawing.value.draw("wide", "page").split('fill-opacity="0.08"').length - 1;
    };
    // By itself the flatter map is drawn in finer steps than beside the other.
    expect(contoursOf(tilted, better) - contoursOf(tilted)).toBeLessThan(contoursOf(better));
    expect(contoursOf(better, tilted)).toBe(contoursOf(tilted, better));
  });

  test("refuse what cannot be had and draw the others", () => {
    const list = workSheetDrawings(tilted, better, { circle: { radius: 5000 }, square: { alongX: 120, alongY: 80 } });
    const refused = list.filter(({ drawing }) => !drawing.ok);
    expect(refused.map(({ id }) => id)).toEqual(["circle"]);
    const [square] = list;
    expect(square.drawing.ok && square.drawing.value.title).toBe("Rectangle of 120 × 80");
  });
});
