import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fittedText, lettering, textWidth, wrappedText } from "./lettering.ts";
import { hatching, rectangle } from "./lines.ts";
import { drawingStyles } from "./stylesheet.ts";
import { element, escapeText, numberText } from "./svg.ts";

describe("SVG as text", () => {
  it("escapes whatever a person may have named a machine", () => {
    expect(lettering('<b a="1">R&D</b>', [0, 0])).toBe(
      '<text x="0" y="0">&lt;b a=&quot;1&quot;&gt;R&amp;D&lt;/b&gt;</text>',
    );
    expect(element("g", { class: 'a"b' })).toBe('<g class="a&quot;b"/>');
  });

  it("lets no character through that an XML document may not hold", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not be there
        expect(escapeText(text)).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f<>"\ufffe\uffff]/);
      }),
      { seed: 7 },
    );
  });

  it("writes numbers with two decimals at most and never a minus nothing", () => {
    expect([1 / 3, -0.001, 12, 1e-9, Number.NaN].map(numberText)).toEqual(["0.33", "0", "12", "0", "0"]);
  });

  it("keeps lines their width in whatever is drawn through a reference: that rule has no ancestor before it", () => {
    const rule = drawingStyles.split("\n").find((line) => line.includes("non-scaling-stroke"));
    expect(rule).toMatch(/^path,rect,circle/);
  });
});

describe("lettering", () => {
  it("fits what it is given room for", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 80 }), fc.integer({ min: 40, max: 400 }), (text, room) => {
        expect(textWidth(fittedText(text, room))).toBeLessThanOrEqual(room);
        for (const line of wrappedText(text, room)) expect(textWidth(line)).toBeLessThanOrEqual(room);
      }),
      { seed: 8 },
    );
  });
});

describe("hatching", () => {
  it("stays inside the area and runs at 45°", () => {
    const strokes = [...hatching(rectangle(10, 20, 110, 60)).matchAll(/M(\S+) (\S+?)L(\S+) ([^M"]+)/g)].map(
      ([, ...n]) => n.map(Number),
    );
    expect(strokes.length).toBeGreaterThan(8);
    for (const [x0, y0, x1, y1] of strokes) {
      for (const x of [x0, x1]) expect(x >= 9.99 && x <= 110.01).toBe(true);
      for (const y of [y0, y1]) expect(y >= 19.99 && y <= 60.01).toBe(true);
      expect(x1 - x0).toBeCloseTo(y0 - y1, 1);
    }
  });
});
