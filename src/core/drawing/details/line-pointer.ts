import { circle, line } from "../lines.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { named, plusArrow, secondLabel } from "./shop-tools.ts";

/** Point and line from above under the loupe: how far the point stands from the line. */
export function linePointer({ check }: DetailInput): Detail {
  const alongY = check.id === "line-along-y";
  const plus = alongY
    ? ({ from: [190, 208], to: [238, 208] } as const)
    : ({ from: [284, 176], to: [284, 128] } as const);
  const body = [
    circle("wide", [150, 112], 84, "solid"),
    circle("thin", [150, 112], 90),
    alongY
      ? line("thin", [140, 30], [140, 194]) + line("thin", [143, 30], [143, 194])
      : line("thin", [68, 120], [232, 120]) + line("thin", [68, 123], [232, 123]),
    alongY ? circle("wide", [160, 112], 4, "tint") : circle("wide", [150, 104], 4, "tint"),
    alongY ? line("hidden", [160, 112], [160, 52]) : line("hidden", [150, 104], [150, 44]),
    scale(alongY),
    plusArrow(plus.from, plus.to),
    alongY ? named("line", [44, 96], [139, 96], "end") : named("line", [40, 152], [84, 124], "end"),
    alongY ? named("point", [270, 96], [165, 111]) : named("point", [262, 60], [155, 102]),
    secondLabel(alongY ? "left" : "rear", alongY ? [16, 208] : [16, 24]),
    secondLabel(alongY ? "right" : "front", alongY ? [304, 208] : [16, 212], alongY ? "end" : "start"),
  ].join("");
  return {
    body,
    shows: `From above, under the loupe: the point of the pin beside the printed line. A point ${alongY ? "to the right" : "to the rear"} of the line reads plus.`,
    plus,
  };
}

/** Graduation of the loupe across the line. */
function scale(alongY: boolean): string {
  return Array.from({ length: 9 }, (_, i) => {
    const along = 110 + i * 10;
    const length = i % 4 === 0 ? 12 : 7;
    return alongY
      ? line("thin", [along, 136], [along, 136 + length])
      : line("thin", [176, along - 26], [176 + length, along - 26]);
  }).join("");
}
