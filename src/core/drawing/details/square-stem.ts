import { optionOf } from "../../checks/check.ts";
import { line, type Point } from "../lines.ts";
import { stationRing } from "../marks.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { bedSection, dialIndicator, label, plusArrow, secondLabel, spindleNose, standingSquare } from "./shop-tools.ts";

/** A dial in the spindle runs up the upright edge of a square; stem and square stand as the set-up states. */
export function squareStem({ check, setup, stations }: DetailInput): Detail {
  const fore = optionOf(check, setup, "towards") === "fore";
  const stem = optionOf(check, setup, "stem") === "right or rear" ? 1 : -1;
  const bodySide = optionOf(check, setup, "square") === "right or rear" ? 1 : -1;
  const edge = 160 + stem * 50;
  const dial: Point = [160 - stem * 30, 138];
  const tip: Point = [edge, 138];
  // Where the body lies on the dial's side of the edge, the stem reaches past it to an edge of the stock's other face.
  const heights = stations.map((_, i) => 150 - (i * 112) / Math.max(1, stations.length - 1));
  const ringsAt = edge + stem * 60;
  const plus = { from: [160 - stem * 40, 186 - 12], to: [160 + stem * 8, 186 - 12] } as const;
  const body = [
    bedSection(16, 304, 196),
    standingSquare([edge, 196], bodySide, 172, bodySide === stem ? 84 : 72),
    spindleNose([dial[0], 106], 84, "thin"),
    line("wide", [dial[0], 106], [dial[0], 122]),
    dialIndicator(dial, tip),
    ...heights.map(
      (y, i) =>
        line("thin", [edge + (bodySide === stem ? stem * 18 : stem * 3), y], [ringsAt - stem * 10, y]) +
        stationRing([ringsAt, y], stations[i].number, stations[i].state),
    ),
    plusArrow(plus.from, plus.to),
    label("square", [edge + bodySide * (bodySide === stem ? 50 : 44), 191], "middle"),
    secondLabel(fore ? "front" : "left", [16, 20]),
    secondLabel(fore ? "rear" : "right", [304, 20], "end"),
  ].join("");
  return {
    body,
    shows: `Seen from ${fore ? "the right, front at the left" : "the front"}: the stem points to the ${stem > 0 ? (fore ? "rear" : "right") : fore ? "front" : "left"} and touches the upright edge of the square at ${stations.length} heights. The tool going where the stem points reads plus.`,
    plus,
  };
}
