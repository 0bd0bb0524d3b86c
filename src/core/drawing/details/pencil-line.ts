import { circle, line, outline, rectangle, wayArrow } from "../lines.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { bedSection, dialIndicator, label, named, secondLabel, spindleNose } from "./shop-tools.ts";

/** Looks: a line across two parts that must not shift, a wheel turned by hand, work pressed down. */
export function pencilLine(input: DetailInput): Detail {
  switch (input.check.id) {
    case "grub-screws":
      return pulley();
    case "wheel-preload":
      return wheel();
    case "mount-line":
      return mount();
    case "work-flat":
      return work();
    default:
      return shank();
  }
}

function pulley(): Detail {
  const body = [
    outline("wide", rectangle(30, 96, 118, 128), "solid"),
    outline("wide", rectangle(118, 72, 178, 152), "tint"),
    outline("wide", rectangle(178, 88, 208, 136), "solid"),
    outline("wide", rectangle(208, 100, 290, 124), "solid"),
    line("centre", [18, 112], [304, 112]),
    outline("wide", rectangle(188, 80, 198, 96), "tint"),
    line("act", [186, 128], [248, 120]),
    named("grub screw", [214, 62], [196, 80]),
    named("line of paint", [236, 162], [220, 125]),
    label("pulley", [148, 66], "middle"),
    label("motor's shaft", [34, 88]),
  ].join("");
  return {
    body,
    shows:
      "Pulley on its shaft with grub screw, and a line of paint from one on to the other: unbroken as long as nothing slips.",
    plus: null,
  };
}

function wheel(): Detail {
  const body = [
    outline("wide", rectangle(16, 96, 304, 116), "tint"),
    circle("wide", [100, 68], 28, "solid"),
    circle("wide", [100, 68], 6),
    circle("wide", [220, 68], 28, "solid"),
    circle("wide", [220, 68], 6),
    circle("wide", [160, 144], 28, "solid"),
    circle("wide", [160, 144], 6),
    wayArrow([126, 172], [196, 172]),
    label("rail", [24, 111]),
    label("turned by hand", [160, 196], "middle"),
    label("wheel", [272, 62], "middle"),
  ].join("");
  return {
    body,
    shows: "Every wheel or block carries and runs: a wheel can be turned by hand against the rail, with drag.",
    plus: null,
  };
}

function shank(): Detail {
  const body = [
    spindleNose([150, 200], 172, "wide", 32),
    line("act", [136, 146], [164, 146]),
    line("act", [150, 118], [150, 160]),
    named("face of the nut", [196, 126], [162, 142]),
    named("line round the shank", [182, 172], [156, 147]),
  ].join("");
  return {
    body,
    shows:
      "A fine line round the shank at the face of the nut, and a stroke along shank and nut: they still meet after the cut.",
    plus: null,
  };
}

function mount(): Detail {
  const body = [
    outline("wide", rectangle(112, 24, 188, 196), "solid"),
    outline("wide", rectangle(92, 70, 208, 140), "tint"),
    outline("wide", rectangle(208, 48, 232, 168), "solid"),
    line("centre", [150, 22], [150, 202]),
    line("act", [126, 54], [126, 92]),
    line("thin", [100, 22], [125, 58]),
    line("act", [196, 128], [224, 128]),
    label("stroke on body and mount", [16, 18]),
    label("stroke on mount and slide", [150, 218]),
    line("thin", [236, 206], [214, 131]),
    label("mount", [160, 110]),
    label("slide", [238, 64]),
  ].join("");
  return {
    body,
    shows:
      "One stroke across body and mount, and one across mount and slide: each still runs straight through after the cut.",
    plus: null,
  };
}

function work(): Detail {
  const body = [
    bedSection(16, 304, 190),
    outline(
      "wide",
      [
        [40, 190],
        [40, 170],
        [250, 158],
        [250, 178],
      ],
      "tint",
    ),
    outline("wide", rectangle(46, 140, 66, 168), "solid"),
    line("act", [226, 184], [296, 184]),
    dialIndicator([200, 96], [200, 161]),
    wayArrow([154, 108], [154, 160]),
    label("thumb", [146, 126], "end"),
    label("clamp", [56, 132], "middle"),
    named("leaf", [262, 150], [276, 183]),
    secondLabel("the dial stands still", [304, 66], "end"),
  ].join("");
  return {
    body,
    shows: "No leaf goes under the work, and the dial stands still while a thumb presses beside it.",
    plus: null,
  };
}
