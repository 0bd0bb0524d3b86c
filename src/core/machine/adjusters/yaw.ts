import type { Machine } from "../machine.ts";
import type { Fasteners } from "./adjuster.ts";
import { axisRolls, handsIn, markFirst, noKeysLeft, oneJoint } from "./cautions.ts";
import type { AdjusterDraft } from "./draft.ts";
import { type Place, toTheRear } from "./place.ts";
import { turnedOfSide } from "./turned.ts";

/** The right end of the beam set to the rear or to the front: by its drive, its switch, its stop or its foot. */
export function yawOffsets(machine: Machine): readonly AdjusterDraft[] {
  const { dimensions: d, layout } = machine;
  const shared = { unit: "mm", range: [-6, 6], sd: 0.05, minutes: 6, level: 1 } as const;
  const perMm = 1000 / d.W;
  if (layout.workBranch.length > 0) {
    const stands: Place = [d.Lx / 2, d.Ly / 2, d.Lz];
    const yb = stands[1] - d.ty;
    return [
      {
        ...shared,
        id: "bridge.yaw",
        words: "the bridge's foot screws, right foot to the rear",
        effect: { "bridge.yaw": perMm },
        fasteners: {
          words: "the screws of the bridge's right foot, usually M8",
          places: [45, -45].flatMap((dy) => [-27, 27].map((dx): Place => [d.xR + dx, yb + dy, d.zr - 14])),
          member: "bridge",
          seenFrom: "above",
        },
        stands,
        moves: {
          words: "the bridge's right foot",
          member: "bridge",
          place: [d.xR, yb, d.zr],
          along: toTheRear,
          heldAt: [d.xL, yb, d.zr],
        },
        whatHolds: {
          alsoLoose: null,
          cautions: [
            handsIn,
            "Ease the left foot's screws to a nip, so that the bridge turns about it; at no time are both feet free. A tall bridge can tip: let a second person hold it.",
            oneJoint,
            markFirst,
            noKeysLeft,
          ],
        },
      },
    ];
  }
  const { squaresOnStops, drives, motorsOnY } = d.details;
  const homesTo = comesHomeBy(machine);
  // The gantry stands at its home, at the front.
  const stands: Place = [d.Lx / 2, 0, d.Lz];
  return [
    {
      ...shared,
      id: "gantry.offset",
      words: "the right side's drive or home offset, right side to the rear",
      effect: { "gantry.rack": perMm },
      cure: "soft",
      fasteners: offsetFasteners(machine),
      // A machine that squares itself on its stops takes no offset by its drive.
      ...(squaresOnStops ? {} : { turned: turnedOfSide(drives.y, "right", motorsOnY) }),
      stands,
      moves: {
        words: "the right end of the beam",
        member: "beam",
        place: [d.xR, stands[1] - d.ty, d.zb],
        along: toTheRear,
        heldAt: [d.xL, stands[1] - d.ty, d.zb],
      },
      ...(homesTo === null ? {} : { homesTo }),
      whatHolds: { alsoLoose: null, cautions: offsetCautions(machine) },
    },
  ];
}

/** By what the beam comes to stand anew; null where the drive itself holds it, so that it stands there at once. */
function comesHomeBy({ dimensions: { details } }: Machine): string | null {
  const shows =
    "What that has done shows on marks that the machine makes after it, and not on gaps read with the drives free.";
  if (details.squaresOnStops)
    return `Then put the plug in and let the machine square itself on its stops: only then does the beam stand anew. ${shows}`;
  if (details.motorsOnY === 2)
    return `Then put the plug in and home: only a homing brings the beam to its new place. ${shows}`;
  return null;
}

function offsetCautions({ dimensions: { details } }: Machine): readonly string[] {
  const { squaresOnStops, motorsOnY, drives } = details;
  if (squaresOnStops || motorsOnY === 2) {
    const [left, back] = squaresOnStops
      ? ["stop", "Draw a fine line in front of the stop, so that there is a way back."]
      : [
          "home switch and its number",
          "Write the old number down, or draw a fine line beside the switch, so that there is a way back.",
        ];
    return [
      handsIn,
      back,
      `The left ${left} ${squaresOnStops ? "stays as it is" : "stay as they are"}.`,
      `Stand by to cut the power at the first ${squaresOnStops ? "squaring" : "homing"} after it: the beam is driven to a place that is new.`,
      oneJoint,
      noKeysLeft,
    ];
  }
  return [
    handsIn,
    drives.y.kind === "belt"
      ? `The belt goes slack when its clamp opens: pull it to the same note again. ${axisRolls}`
      : "Turn one screw against the other only by the marks on both couplings, a part of a turn at a time.",
    "The other side stays as it is.",
    oneJoint,
    markFirst,
    noKeysLeft,
  ];
}

/** What sets one side ahead of the other: stop, home switch, or the drive itself. */
function offsetFasteners({ dimensions: d }: Machine): Fasteners {
  const { squaresOnStops, motorsOnY, drives } = d.details;
  // Just in front of the side plate where it stands at home, or just behind it.
  const away = d.b / 2 + 36;
  const pair = (words: string, y: number, member: "frame" | "rails"): Fasteners => ({
    words,
    places: [-16, 16].map((dx): Place => [d.xR + dx, y, d.zr]),
    member,
    seenFrom: "above",
  });
  if (squaresOnStops) return pair("the screws of the right front stop, usually M5", -d.ty - away, "frame");
  if (motorsOnY === 2) {
    return pair(
      "the right home switch's screws, usually M3, where the controller has no number for that side's home",
      -d.ty - away,
      "frame",
    );
  }
  const words =
    drives.y.kind === "belt"
      ? "the right belt's clamp screws, usually M4"
      : "the clamp screws of the right screw's coupling, usually M4";
  return pair(words, -d.ty + away, "rails");
}
