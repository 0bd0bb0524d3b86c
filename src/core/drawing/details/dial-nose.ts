import { optionOf } from "../../checks/check.ts";
import { line, outline, rectangle, wayArrow } from "../lines.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { bedSection, dialIndicator, label, plusArrow, secondLabel, spindleNose } from "./shop-tools.ts";

/**
 * A dial that stands on the bed, on the side to which the tool goes in plus, its stem on the nose: the tool coming in
 * plus pushes the stem in. X is seen from the front, Y from the right, Z with the dial under the tip.
 */
export function dialNose(input: DetailInput): Detail {
  const { check, setup } = input;
  const axis =
    check.id === "home-repeat"
      ? "Y"
      : check.options.some(({ key }) => key === "axis")
        ? String(optionOf(check, setup, "axis"))
        : "X";
  const both = check.id === "turnaround" || check.id === "position-runs";
  return axis === "Z" ? underTip(both, check.id === "turnaround") : besideNose(axis, both, input);
}

function besideNose(axis: string, both: boolean, { check }: DetailInput): Detail {
  const back = check.id === "there-and-back" || check.id === "hose-lift" || check.id === "same-again-slower";
  // Lost motion, and a change with the hose or the feed, have no direction of their own.
  const undirected = ["turnaround", "hose-lift", "same-again-slower"].includes(check.id);
  const plus = undirected ? null : ({ from: [34, 150], to: [76, 150] } as const);
  const body = [
    bedSection(16, 304, 196),
    spindleNose([116, 172], 136),
    outline("wide", rectangle(246, 176, 286, 196), "tint"),
    line("wide", [266, 176], [266, 150]),
    dialIndicator([240, 130], [132, 130]),
    line("wide", [252, 143], [266, 156]),
    both ? wayArrow([34, 74], [76, 74]) + wayArrow([206, 74], [164, 74]) : "",
    both ? label("in plus", [55, 64], "middle") + label("in minus", [187, 64], "middle") : "",
    back ? wayArrow([190, 74], [164, 74]) + wayArrow([190, 74], [216, 74]) : "",
    plus ? plusArrow(plus.from, plus.to) : "",
    label("dial", [270, 120]),
    label("nose", [84, 120], "end"),
    secondLabel(axis === "Y" ? "front" : "left", [16, 20]),
    secondLabel(axis === "Y" ? "rear" : "right", [304, 20], "end"),
  ].join("");
  return {
    body,
    shows: `Seen from ${axis === "Y" ? "the right, front at the left" : "the front"}: the dial stands on the bed on the ${axis === "Y" ? "rear" : "right"} side of the nose. ${plus ? "The tool coming in plus pushes the stem in and reads plus" : "The tool coming in plus pushes the stem in"}.`,
    plus,
  };
}

function underTip(both: boolean, undirected: boolean): Detail {
  const plus = undirected ? null : ({ from: [270, 128], to: [270, 76] } as const);
  const body = [
    bedSection(16, 304, 196),
    spindleNose([160, 110], 84),
    outline("wide", rectangle(60, 182, 108, 196), "tint"),
    line("wide", [84, 182], [84, 166], [142, 166]),
    dialIndicator([160, 166], [160, 112]),
    both ? wayArrow([216, 120], [216, 70]) + wayArrow([228, 70], [228, 120]) : "",
    plus ? plusArrow(plus.from, plus.to) : "",
    label("dial, stem up", [186, 172]),
    label("tip", [142, 112], "end"),
  ].join("");
  return {
    body,
    shows:
      "The dial stands on the bed under the tip, its stem up; its reading is taken with the other sign, so that up is plus.",
    plus,
  };
}
