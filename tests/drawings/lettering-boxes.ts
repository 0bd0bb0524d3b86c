import { textWidth } from "../../src/core/drawing/lettering.ts";

export interface LetteringBox {
  readonly text: string;
  readonly size: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Where every line of lettering of one of our drawings stands on its sheet, px. */
export function letteringBoxes(svg: string): readonly LetteringBox[] {
  const boxes: LetteringBox[] = [];
  const shifts: [number, number][] = [[0, 0]];
  const marks: boolean[] = [false];
  const tokens = svg.matchAll(/<g([^>]*)>|<\/g>|<text([^>]*)>([^<]*)<\/text>/g);
  for (const [whole, groupAttributes, textAttributes, content] of tokens) {
    const [x0, y0] = shifts[shifts.length - 1];
    if (whole === "</g>") {
      shifts.pop();
      marks.pop();
    } else if (textAttributes === undefined) {
      const shift = /translate\((\S+) (\S+)\)/.exec(groupAttributes ?? "");
      shifts.push([x0 + Number(shift?.[1] ?? 0), y0 + Number(shift?.[2] ?? 0)]);
      marks.push(/class="mark/.test(groupAttributes ?? ""));
    } else {
      const box = boxOf(textAttributes, unescaped(content), x0, y0);
      boxes.push(marks[marks.length - 1] ? aroundRing(box) : box);
    }
  }
  return boxes;
}

function boxOf(attributes: string, text: string, x0: number, y0: number): LetteringBox {
  const size = /\bs17\b/.test(attributes) ? 17 : /\bs15\b/.test(attributes) ? 15 : 13;
  const width = textWidth(text, size);
  const turned = /translate\((\S+) (\S+)\) rotate\(-90\)/.exec(attributes);
  const x = x0 + Number(turned?.[1] ?? /\bx="([^"]+)"/.exec(attributes)?.[1]);
  const y = y0 + Number(turned?.[2] ?? /\by="([^"]+)"/.exec(attributes)?.[1]);
  const anchor =
    /text-anchor="(\w+)"/.exec(attributes)?.[1] ??
    (/^\d+$/.test(text) && !attributes.includes("class") ? "middle" : "start");
  const before = anchor === "start" ? 0 : anchor === "middle" ? width / 2 : width;
  const [up, down] = [0.72 * size, 0.2 * size];
  return turned
    ? { text, size, left: x - up, right: x + down, top: y - (width - before), bottom: y + before }
    : { text, size, left: x - before, right: x - before + width, top: y - up, bottom: y + down };
}

/** A number in a ring takes the ring's room. */
function aroundRing(box: LetteringBox): LetteringBox {
  const x = (box.left + box.right) / 2;
  const y = (box.top + box.bottom) / 2;
  return { ...box, left: x - 9.5, right: x + 9.5, top: y - 9.5, bottom: y + 9.5 };
}

function unescaped(text: string): string {
  return text
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, "&");
}
