import { optionOf } from "../../checks/check.ts";
import { outline, rectangle } from "../lines.ts";
import { stationRing } from "../marks.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { bedSection, dialIndicator, label, plusArrow, secondLabel } from "./shop-tools.ts";

/** A straightedge along the travel, in plan or upright, with the stem as the set-up states. */
export function straightedgePicture({ check, setup, stations }: DetailInput): Detail {
  const upright = optionOf(check, setup, "across") === "upright";
  const alongX = optionOf(check, setup, "along") === "along the beam";
  const onwards = optionOf(check, setup, "stem") === "rear, right or up";
  // In plan with the edge along Y the picture is turned: its up is the right.
  const up = upright ? "up" : alongX ? "rear" : "right";
  const down = upright ? "down" : alongX ? "front" : "left";
  const way = onwards ? -1 : 1;
  const edgeY = onwards ? 84 : 132;
  const dialY = edgeY - way * 64;
  const plus = { from: [44, edgeY - way * 62], to: [44, edgeY - way * 18] } as const;
  const ringY = edgeY + way * 15;
  const body = [
    upright && !onwards ? bedSection(16, 304, 182, 14) : "",
    outline("wide", rectangle(20, Math.min(edgeY, edgeY + way * 30), 300, Math.max(edgeY, edgeY + way * 30)), "tint"),
    upright && !onwards
      ? outline("wide", rectangle(40, 162, 70, 182), "solid") + outline("wide", rectangle(250, 162, 280, 182), "solid")
      : "",
    dialIndicator([160, dialY], [160, edgeY]),
    ...stations.map(({ number, state }, i) =>
      stationRing([40 + (i * 240) / Math.max(1, stations.length - 1), ringY], number, state),
    ),
    plusArrow(plus.from, plus.to),
    label("straightedge", [304, edgeY + way * 44 + (way > 0 ? 4 : 6)], "end"),
    secondLabel(up, [304, 18], "end"),
    secondLabel(down, [304, 214], "end"),
  ].join("");
  return {
    body,
    shows: `The straightedge lies ${alongX ? "along the beam" : "from front to rear"} and is read ${upright ? "upright" : "in plan"}; the stem points ${up === "up" ? (onwards ? "up" : "down") : `to the ${onwards ? up : down}`}. The tool going where the stem points reads plus.`,
    plus,
  };
}
