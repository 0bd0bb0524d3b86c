import { arc, arrowhead, line, onCircle, outline, rectangle } from "../lines.ts";
import type { Detail } from "./detail.ts";
import { dialIndicator, label, secondLabel, spindleNose } from "./shop-tools.ts";

/** A ground pin in the collet, turned by hand, and a dial close to the collet. */
export function runoutPin(): Detail {
  const turn = [126, 150] as const;
  const body = [
    spindleNose([126, 190], 160),
    dialIndicator([246, 134], [132, 134]),
    outline("thin", rectangle(122, 132, 130, 190)),
    arc("wide", turn, 34, 200, 330),
    arrowhead(onCircle(turn, 34, 316), onCircle(turn, 34, 334), "ink", 1.2),
    line("thin", [130, 122], [176, 100]),
    label("close to the collet", [180, 100]),
    label("pin", [114, 206], "end"),
    secondLabel("turned by hand", [172, 196]),
  ].join("");
  return {
    body,
    shows:
      "A ground pin in the collet is turned by hand; the dial stands close to the collet. The whole swing is read, always plus.",
    plus: null,
  };
}
