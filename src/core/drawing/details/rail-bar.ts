import { line, outline, rectangle } from "../lines.ts";
import { frontOfMachine } from "../marks.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { level } from "./level-carriage.ts";
import { label, plusArrow, secondLabel } from "./shop-tools.ts";

/** A bar with a level across both rails; seen from the front. */
export function railBar(): Detail {
  const plus = { from: [302, 92], to: [302, 46] } as const;
  const body = [
    rails(),
    outline("wide", rectangle(30, 104, 290, 118), "tint"),
    level(86, 80, 148),
    plusArrow(plus.from, plus.to),
    label("bar", [42, 96]),
    label("level", [160, 70], "middle"),
    label("left rail", [56, 196], "middle"),
    label("right rail", [264, 196], "middle"),
  ].join("");
  return {
    body,
    shows: "Seen from the front: a bar across both rails with a level on it. The right rail high reads plus.",
    plus,
  };
}

/** A stick between the rails and the gap at its end; seen from the front. */
export function railStick(): Detail {
  const plus = { from: [236, 82], to: [286, 82] } as const;
  const body = [
    rails(),
    outline("wide", rectangle(67, 122, 243, 132), "tint"),
    line("act", [245.5, 112], [245.5, 140]),
    line("act", [249.5, 112], [249.5, 140]),
    plusArrow(plus.from, plus.to),
    label("stick", [150, 114], "middle"),
    label("gap", [232, 154], "end"),
    label("left rail", [56, 196], "middle"),
    label("right rail", [264, 196], "middle"),
    label("further apart", [226, 86], "end"),
  ].join("");
  return {
    body,
    shows:
      "Seen from the front: a stick between the faces that guide, and the gap at its end. Rails further apart read plus.",
    plus,
  };
}

/** Frame from above with both diagonals between the ends of the rails. */
export function frameDiagonalsPicture({ check }: DetailInput): Detail {
  const entries = check.entries ?? ["", ""];
  const plus = { from: [252, 62], to: [290, 32] } as const;
  const body = [
    outline("wide", rectangle(70, 36, 84, 176), "tint"),
    outline("wide", rectangle(236, 36, 250, 176), "tint"),
    outline("thin", rectangle(84, 50, 236, 66)),
    outline("thin", rectangle(84, 146, 236, 162)),
    line("wide", [70, 176], [250, 36]),
    line("thin", [250, 176], [70, 36]),
    plusArrow(plus.from, plus.to),
    secondLabel("rear", [160, 30], "middle"),
    frontOfMachine([160, 184]),
  ].join("");
  return {
    body,
    shows: `The frame from above with both diagonals between the outer ends of the rails: ${entries.join(", and ")}. The diagonal to the rear right being the longer one reads plus.`,
    plus,
  };
}

function rails(): string {
  const rail = (x: number) =>
    outline("wide", rectangle(x - 10, 118, x + 10, 140), "solid") +
    outline("wide", rectangle(x - 24, 140, x + 24, 178), "solid");
  return rail(56) + rail(264) + line("thin", [80, 160], [240, 160]) + line("thin", [80, 174], [240, 174]);
}
