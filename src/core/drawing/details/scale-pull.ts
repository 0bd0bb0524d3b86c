import { circle, line, outline, type Point, rectangle, wayArrow } from "../lines.ts";
import { frontOfMachine } from "../marks.ts";
import type { Svg } from "../svg.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { bedSection, dialIndicator, label, secondLabel, spindleNose } from "./shop-tools.ts";

/** A luggage scale pulls at the nose, at one end of the gantry, or at the axis that is to run. */
export function scalePull({ check }: DetailInput): Detail {
  if (check.id === "side-push") return oneEnd();
  if (check.id === "drag-force") return dragged();
  const body = [
    bedSection(16, 304, 196),
    spindleNose([146, 176], 140),
    line("wide", [100, 124], [142, 124]),
    luggageScale([70, 124]),
    wayArrow([52, 124], [18, 124]),
    outline("wide", rectangle(252, 178, 288, 196), "tint"),
    line("wide", [270, 178], [262, 140]),
    dialIndicator([250, 128], [150, 128]),
    label("20 N", [22, 112]),
    label("dial", [278, 122]),
    secondLabel("hands off to read what stays", [304, 20], "end"),
  ].join("");
  return {
    body,
    shows:
      "A loop of cord round the nose is pulled with 20 N; a dial in line with the pull shows what the nose yields, and what stays after letting go.",
    plus: null,
  };
}

function oneEnd(): Detail {
  const body = [
    outline("thin", rectangle(48, 20, 66, 190)),
    outline("thin", rectangle(254, 20, 272, 190)),
    outline("wide", rectangle(57, 88, 263, 110), "solid"),
    outline("wide", rectangle(36, 66, 48, 134), "solid"),
    outline("wide", rectangle(272, 66, 284, 134), "solid"),
    line("wide", [84, 88], [84, 62]),
    luggageScale([84, 50], true),
    wayArrow([84, 34], [84, 8]),
    dialIndicator([236, 166], [236, 110]),
    label("20 N", [96, 24]),
    label("dial", [212, 172], "end"),
    label("gantry", [150, 104], "middle"),
    frontOfMachine([160, 188]),
  ].join("");
  return {
    body,
    shows: "From above: one end of the gantry is pulled to the rear with 20 N, and the dial is read at its other end.",
    plus: null,
  };
}

function dragged(): Detail {
  const body = [
    bedSection(16, 304, 178),
    outline(
      "wide",
      [
        [176, 156],
        [176, 120],
        [200, 92],
        [200, 46],
        [252, 46],
        [252, 92],
        [276, 120],
        [276, 156],
      ],
      "solid",
    ),
    outline("wide", rectangle(16, 156, 304, 170), "tint"),
    line("wide", [132, 132], [176, 132]),
    luggageScale([102, 132]),
    wayArrow([84, 132], [40, 132]),
    label("steady pull", [16, 112]),
    label("gantry", [226, 130], "middle"),
    secondLabel("front", [16, 20]),
    secondLabel("rear", [304, 20], "end"),
  ].join("");
  return {
    body,
    shows:
      "The moving part is drawn along its rails by the scale, slowly and steadily; the pull is read at each place.",
    plus: null,
  };
}

function luggageScale([x, y]: Point, upright = false): Svg {
  const body = upright ? rectangle(x - 9, y - 16, x + 9, y + 12) : rectangle(x - 18, y - 9, x + 12, y + 9);
  const eye: Point = upright ? [x, y + 12] : [x + 30, y];
  return (
    outline("wide", body, "tint") +
    (upright ? "" : line("wide", [x + 12, y], [x + 26, y])) +
    circle("wide", upright ? [x, y - 4] : [x - 3, y], 5, "solid") +
    (upright ? "" : circle("wide", eye, 3))
  );
}
