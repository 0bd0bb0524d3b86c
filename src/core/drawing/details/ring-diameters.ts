import { optionOf } from "../../checks/check.ts";
import { arc, arrowhead, circle, line, onCircle } from "../lines.ts";
import { stationRing } from "../marks.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { label, plusArrow, secondLabel } from "./shop-tools.ts";

/** The disc or the pocket from above, its six diameters, and the way round it was cut. */
export function ringPicture({ check, setup, stations }: DetailInput): Detail {
  const clockwise = optionOf(check, setup, "direction") === "clockwise";
  const pocket = optionOf(check, setup, "piece") === "pocket";
  const centre = [150, 110] as const;
  const r = 66;
  const plus = { from: [272, 176], to: [300, 148] } as const;
  const from = clockwise ? 118 : 62;
  const tip = onCircle(centre, 30, clockwise ? 62 : 118);
  const before = onCircle(centre, 30, clockwise ? 80 : 100);
  const body = [
    circle("wide", centre, r, pocket ? "solid" : "tint"),
    ...stations.flatMap(({ station, number, state }) => {
      const f = station.figures?.f as number;
      return [
        line("thin", onCircle(centre, r, f), onCircle(centre, r, f + 180)),
        stationRing(onCircle(centre, r + 16, f), number, state),
      ];
    }),
    line("centre", [150 - r - 20, 110], [150 + r + 20, 110]),
    line("centre", [150, 110 - r - 12], [150, 110 + r + 18]),
    arc("wide", centre, 30, from, clockwise ? 68 : 112) + arrowhead(before, tip, "ink", 1.2),
    plusArrow(plus.from, plus.to),
    label(`cut ${clockwise ? "clockwise" : "counter-clockwise"}`, [150, 216], "middle"),
    label("wider", [268, 200], "middle"),
    secondLabel("X", [250, 106]),
    secondLabel("Y", [150, 14], "middle"),
  ].join("");
  return {
    body,
    shows: `The ${pocket ? "pocket" : "disc"} from above with its ${stations.length} diameters; it was cut ${clockwise ? "clockwise" : "counter-clockwise"}. A wider diameter reads plus.`,
    plus,
  };
}
