import { optionOf } from "../../checks/check.ts";
import { circle, line, outline, rectangle } from "../lines.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { label, plusArrow, secondLabel, spindleNose } from "./shop-tools.ts";

/** A level lies on the carriage while it rides. */
export function levelCarriage({ check, setup }: DetailInput): Detail {
  const fore = optionOf(check, setup, "lies") === "fore";
  const plus = { from: [282, 92], to: [282, 44] } as const;
  const body = [
    outline("wide", rectangle(92, 106, 228, 118), "tint"),
    outline("wide", rectangle(104, 118, 216, 176), "solid"),
    spindleNose([160, 208], 60, "thin", 24),
    level(76, 82, 168),
    line("limit", [20, 146], [98, 146]),
    line("limit", [222, 146], [300, 146]),
    plusArrow(plus.from, plus.to),
    label("level", [84, 72]),
    label("carriage", [160, 140], "middle"),
    secondLabel(fore ? "front" : "left", [16, 20]),
    secondLabel(fore ? "rear" : "right", [304, 20], "end"),
    label("high", [282, 116], "middle"),
  ].join("");
  return {
    body,
    shows: `The level lies on the carriage ${fore ? "from front to rear" : "from left to right"} and rides with it. Its ${fore ? "rear" : "right"} end high reads plus.`,
    plus,
  };
}

/** A spirit level from the side, its upper left corner given. */
export function level(x: number, y: number, length: number): string {
  const middle = x + length / 2;
  return (
    outline("wide", rectangle(x, y, x + length, y + 24), "solid") +
    outline("thin", rectangle(middle - 26, y + 5, middle + 26, y + 15)) +
    line("thin", [middle - 9, y + 5], [middle - 9, y + 15]) +
    line("thin", [middle + 9, y + 5], [middle + 9, y + 15]) +
    circle("wide", [middle, y + 10], 5)
  );
}
