import type { Machine } from "../machine.ts";
import type { Adjuster, ReadAgain } from "./adjuster.ts";

/** All places where this machine can be changed, upstream first. */
export function adjustersOf(machine: Machine): readonly Adjuster[] {
  return [
    ...railPacking(machine),
    ...framePushes(machine),
    ...beamScrews(),
    ...yawOffsets(machine),
    ...slideAndMount(machine),
    ...playTakeUps(),
    ...bedCorners(machine),
    add("bed.turn", "the bed's fixing screws, bed turned", "mm/m", { "grid.yaw": 1 }, [-10, 10], 0.3, 8, 4),
    ...(["x", "y", "z"] as const).map((axis) =>
      add(
        `steps.${axis}`,
        `steps per mm of ${axis.toUpperCase()}`,
        "mm/m",
        { [`scale.${axis}`]: 1 },
        [-50, 50],
        0,
        1,
        5,
      ),
    ),
    { ...add("bed.skim", "the bed, skimmed", "", {}, [0, 1], 0.02, 45, 6), kind: "skim" },
  ];
}

function railPacking(machine: Machine): readonly Adjuster[] {
  const { packingPlaces } = machine.dimensions.details;
  const sides = ["left", "right"] as const;
  return sides.flatMap((side) =>
    (["front", "rear"] as const).map((end) => {
      const v = packingPlaces[end];
      const effect = { [`rail.${side}.front`]: 1 - v, [`rail.${side}.rear`]: v };
      return add(
        `rail.${side}.${end}`,
        `packing under the ${side} rail's ${end} end`,
        "mm",
        effect,
        [0, 1],
        0.02,
        10,
        0,
      );
    }),
  );
}

function framePushes(machine: Machine): readonly Adjuster[] {
  if (machine.layout.workBranch.length > 0) return [];
  const frees = { "gantry.rack": 1 };
  return [
    add(
      "frame.stagger",
      "the frame's corner screws, one rail pushed lengthwise",
      "mm",
      { "frame.stagger": 1 },
      [-3, 3],
      0.2,
      25,
      0,
      frees,
    ),
    add(
      "frame.toe",
      "the frame's corner screws, rails pushed apart at the rear",
      "mm",
      { "rail.toe": 1 },
      [-3, 3],
      0.2,
      25,
      0,
      frees,
    ),
  ];
}

function beamScrews(): readonly Adjuster[] {
  return (["left", "right"] as const).map((side) =>
    add(`beam.${side}`, `the ${side} side-plate screws`, "mm", { [`beam.${side}`]: 1 }, [-0.6, 0.6], 0.03, 4, 1, {
      "beam.roll": 0.2,
    }),
  );
}

function yawOffsets(machine: Machine): readonly Adjuster[] {
  const perMm = 1000 / machine.dimensions.W;
  if (machine.layout.workBranch.length > 0) {
    return [
      add(
        "bridge.yaw",
        "the bridge's foot screws, right foot to the rear",
        "mm",
        { "bridge.yaw": perMm },
        [-6, 6],
        0.05,
        6,
        1,
      ),
    ];
  }
  return [
    add(
      "gantry.offset",
      "the right side's drive or home offset, right side to the rear",
      "mm",
      { "gantry.rack": perMm },
      [-6, 6],
      0.05,
      6,
      1,
    ),
  ];
}

function slideAndMount(machine: Machine): readonly Adjuster[] {
  const { ty, details } = machine.dimensions;
  // Where the slide hangs in front of the beam, packing behind its top screws pushes the top to the front.
  const hangs = ty < 0 ? -1 : 1;
  const slide = (hangs * 1000) / details.slideScrewsMm.up;
  const mount = (hangs * 1000) / details.mountScrewsMm.up;
  return [
    add(
      "slide.side",
      "the slide's plate screws, slide turned",
      "mm/m",
      { "slide.lean.side": 1 },
      [-15, 15],
      0.15,
      5,
      2,
      { "slide.lean.fore": 0.1 },
    ),
    add(
      "slide.packing",
      "packing behind the slide: top screws (+) or bottom screws (−)",
      "mm",
      { "slide.lean.fore": slide },
      [-1.2, 1.2],
      0.01,
      8,
      2,
      { "slide.lean.side": 0.15 },
    ),
    add(
      "mount.side",
      "the spindle mount's screws, mount turned",
      "mm/m",
      { "spindle.tilt.side": 1 },
      [-12, 12],
      0.15,
      5,
      3,
      { "spindle.tilt.fore": 0.1 },
    ),
    add(
      "mount.packing",
      "packing behind the spindle's mount: top screws (+) or bottom screws (−)",
      "mm",
      { "spindle.tilt.fore": mount },
      [-0.6, 0.6],
      0.01,
      8,
      3,
      { "spindle.tilt.side": 0.15 },
    ),
  ];
}

function playTakeUps(): readonly Adjuster[] {
  return (["x", "y", "z"] as const).map((axis) => ({
    ...add(`play.${axis}`, `take up the play of ${axis.toUpperCase()}`, "", {}, [0, 1], 0, 10, 2),
    kind: "assign" as const,
    leaves: { [`backlash.${axis}`]: [0.03, 0.015] as const },
  }));
}

/** One unit under one corner: a quarter of the height, half an extent's slope both ways, a quarter of the twist. */
function bedCorners(machine: Machine): readonly Adjuster[] {
  const { Lx, Ly, details } = machine.dimensions;
  const wide = details.bedMm.right - details.bedMm.left;
  const deep = details.bedMm.rear - details.bedMm.front;
  const corners = [
    ["front left", -1, -1],
    ["front right", 1, -1],
    ["rear left", -1, 1],
    ["rear right", 1, 1],
  ] as const;
  return corners.map(([corner, right, rear]) =>
    add(
      `bed.${corner.replace(" ", ".")}`,
      `packing under the bed's ${corner} corner`,
      "mm",
      {
        "bed.height": 0.25,
        "bed.tilt.x": (right * 500) / wide,
        "bed.tilt.y": (rear * 500) / deep,
        "bed.twist": (right * rear * Lx * Ly) / (4 * wide * deep),
      },
      [0, 1.5],
      0.05,
      8,
      4,
    ),
  );
}

const readAgain = {
  sidePlates: { group: "beam over bed", checks: ["gap-under-beam"], minutes: 10 },
  slide: { group: "axis", checks: ["tram-sweep"], minutes: 15 },
  frame: { group: "frame", checks: ["stop-gaps", "square-sweep"], minutes: 21 },
  bed: { group: "bed", checks: ["bed-touch"], minutes: 15 },
} as const satisfies Readonly<Record<string, ReadAgain>>;

/** Joints by the first word of the adjuster's name. */
const readAgainOf: Readonly<Record<string, ReadAgain>> = {
  rail: readAgain.sidePlates,
  beam: readAgain.sidePlates,
  frame: readAgain.frame,
  slide: readAgain.slide,
  mount: readAgain.slide,
};

function add(
  id: string,
  words: string,
  unit: Adjuster["unit"],
  effect: Adjuster["effect"],
  range: Adjuster["range"],
  sd: number,
  minutes: number,
  level: number,
  frees: Adjuster["frees"] = {},
): Adjuster {
  const [joint, part] = id.split(".");
  const isBedCorner = joint === "bed" && (part === "front" || part === "rear");
  const packed = joint === "rail" || isBedCorner ? "one place" : part === "packing" ? "top or bottom" : "none";
  const soft =
    packed !== "none" || joint === "steps" || joint === "play" || id === "gantry.offset" || id === "bed.skim";
  return {
    id,
    words,
    kind: "add",
    unit,
    effect,
    range,
    sd,
    frees,
    minutes,
    level,
    readAgain: isBedCorner ? readAgain.bed : (readAgainOf[joint] ?? null),
    cure: soft ? "soft" : "structural",
    packing: packed,
  };
}
