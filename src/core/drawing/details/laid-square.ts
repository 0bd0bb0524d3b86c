import { optionOf } from "../../checks/check.ts";
import { outline, type Point } from "../lines.ts";
import { frontOfMachine, stationRing } from "../marks.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { dialIndicator, label, plusArrow } from "./shop-tools.ts";

/** A square that lies on the bed, from above: the stem on its blade and on its stock. */
export function laidSquare({ check, setup, stations }: DetailInput): Detail {
  const turned = optionOf(check, setup, "lies") !== "corner front left";
  const side = turned ? -1 : 1;
  const cx = 160 - side * 46;
  const cy = 158;
  const at = (across: number, up: number): Point => [cx + side * across, cy - up];
  // The inner edges face the dial on the blade from the corner's outside; the stock is touched from the front.
  const plus = { from: at(-98, 40), to: at(-54, 40) };
  const body = [
    outline("wide", [at(0, 0), at(150, 0), at(150, 22), at(18, 22), at(18, 132), at(0, 132)], "tint"),
    dialIndicator(at(-58, 110), at(0, 110)),
    dialIndicator(at(108, -52), at(108, 0)),
    ...stations.map(({ station, number, state }) => {
      const s = Math.abs(station.figures?.s as number);
      const longest = Math.max(...stations.map((other) => Math.abs(other.station.figures?.s as number)));
      const blade = station.figures?.blade === 1;
      return stationRing(blade ? at(30, 22 + (s / longest) * 106) : at(14 + (s / longest) * 132, 11), number, state);
    }),
    plusArrow(plus.from, plus.to),
    label("blade", at(48, 84), side > 0 ? "start" : "end"),
    label("stock", at(64, 32), side > 0 ? "start" : "end"),
    frontOfMachine([side > 0 ? 60 : 260, 186]),
  ].join("");
  return {
    body,
    shows: `The square lies on the bed, ${turned ? "turned over, corner front right" : "corner front left"}. On the blade the stem points ${turned ? "left" : "right"}, on the stock to the rear. The tool going where the stem points reads plus.`,
    plus,
  };
}
