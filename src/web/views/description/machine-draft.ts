import type {
  DriveDescription,
  LayoutId,
  MachineDescription,
  MachineDetails,
} from "../../../core/machine/description.ts";
import type { UserCoordinates } from "../../../core/machine/user-coordinates.ts";
import { type NumberAsked, typedNumber } from "../../parts/typed-number.ts";

/** The eight numbers, as they are typed. */
export interface EightTexts {
  readonly travelX: string;
  readonly travelY: string;
  readonly travelZ: string;
  readonly railLeft: string;
  readonly railRight: string;
  readonly wheelbase: string;
  readonly beamCentre: string;
  readonly toolFromBeam: string;
}

export interface AxisTexts {
  readonly named: string;
  readonly grows: "plus" | "minus";
  readonly zero: string;
}

/** A machine as a form holds it: texts until they are numbers. */
export interface MachineDraft {
  readonly name: string;
  readonly layout: LayoutId;
  readonly eight: EightTexts;
  readonly drives: Readonly<Record<"x" | "y" | "z", { readonly kind: "belt" | "screw"; readonly stepsPerMm: string }>>;
  readonly motorsOnY: "1" | "2";
  readonly gridPitch: string;
  readonly ownAxes: boolean;
  readonly tried: boolean;
  readonly axes: Readonly<Record<"x" | "y" | "z", AxisTexts>>;
  /** What else is known of the machine, carried along as it is. */
  readonly others: Partial<MachineDetails>;
}

const across: NumberAsked = { quantity: "length", from: 20, to: 5000 };
const place: NumberAsked = { quantity: "length", from: -5000, to: 5000 };

/** What each of the eight is, where it is measured, and in which range it can lie. */
export const eightNumbers: readonly {
  readonly key: keyof EightTexts;
  readonly label: string;
  readonly hint: string;
  readonly asked: NumberAsked;
  /** Fields of the description that a problem with this number is told about. */
  readonly field: string;
}[] = [
  {
    key: "travelX",
    label: "Travel to the right",
    hint: "How far the tool goes from left to right (X).",
    asked: across,
    field: "travelMm.x",
  },
  {
    key: "travelY",
    label: "Travel to the rear",
    hint: "How far it goes from front to rear (Y).",
    asked: across,
    field: "travelMm.y",
  },
  {
    key: "travelZ",
    label: "Travel upwards",
    hint: "How far it goes up (Z).",
    asked: { quantity: "length", from: 5, to: 1000 },
    field: "travelMm.z",
  },
  {
    key: "railLeft",
    label: "Left rail",
    hint: "From the left end of the travel to the left rail; outside it is a minus.",
    asked: place,
    field: "railPlanesMm.left",
  },
  {
    key: "railRight",
    label: "Right rail",
    hint: "From the left end of the travel to the right rail.",
    asked: place,
    field: "railPlanesMm.right",
  },
  {
    key: "wheelbase",
    label: "Wheelbase",
    hint: "Between the front and the rear foot of one side.",
    asked: { quantity: "length", from: 10, to: 3000 },
    field: "wheelbaseMm",
  },
  {
    key: "beamCentre",
    label: "Height of the beam",
    hint: "From the bed to the middle of the beam.",
    asked: { quantity: "length", from: 10, to: 3000 },
    field: "beamCentreMm",
  },
  {
    key: "toolFromBeam",
    label: "Tool from the beam",
    hint: "From the middle of the beam to the tool; in front of it is a minus.",
    asked: { quantity: "length", from: -1000, to: 1000 },
    field: "toolFromBeamMm",
  },
];

const stepsAsked: NumberAsked = { quantity: "length", from: 0.01, to: 1_000_000 };
export const gridAsked: NumberAsked = { quantity: "length", from: 0.5, to: 500 };
export const zeroAsked: NumberAsked = place;

/** A machine of usual size, to be typed over. */
export const usualDraft: MachineDraft = {
  name: "",
  layout: "moving-gantry",
  eight: {
    travelX: "600",
    travelY: "500",
    travelZ: "70",
    railLeft: "-90",
    railRight: "690",
    wheelbase: "140",
    beamCentre: "105",
    toolFromBeam: "-75",
  },
  drives: {
    x: { kind: "belt", stepsPerMm: "" },
    y: { kind: "belt", stepsPerMm: "" },
    z: { kind: "screw", stepsPerMm: "" },
  },
  motorsOnY: "2",
  gridPitch: "",
  ownAxes: false,
  tried: false,
  axes: {
    x: { named: "X", grows: "plus", zero: "0" },
    y: { named: "Y", grows: "plus", zero: "0" },
    z: { named: "Z", grows: "plus", zero: "0" },
  },
  others: {},
};

/** The description that the draft comes to; null while a number is missing or impossible. */
export function descriptionFrom(draft: MachineDraft): MachineDescription | null {
  const numbers = Object.fromEntries(
    eightNumbers.map(({ key, asked }) => [key, typedNumber(draft.eight[key], asked).value]),
  ) as Record<keyof EightTexts, number | null>;
  const grid = typedNumber(draft.gridPitch, gridAsked);
  if (Object.values(numbers).includes(null) || grid.problem !== "") return null;
  const n = numbers as Record<keyof EightTexts, number>;
  return {
    // A name comes last to many; the drawing need not wait for it.
    name: draft.name.trim() === "" ? "New machine" : draft.name.trim(),
    layout: draft.layout,
    travelMm: { x: n.travelX, y: n.travelY, z: n.travelZ },
    railPlanesMm: { left: n.railLeft, right: n.railRight },
    wheelbaseMm: n.wheelbase,
    beamCentreMm: n.beamCentre,
    toolFromBeamMm: n.toolFromBeam,
    details: {
      ...draft.others,
      ...(grid.value !== null && { gridPitchMm: grid.value }),
      drives: { x: driveFrom(draft, "x"), y: driveFrom(draft, "y"), z: driveFrom(draft, "z") },
      ...(draft.layout === "moving-gantry" && { motorsOnY: draft.motorsOnY === "2" ? 2 : 1 }),
    },
  };
}

function driveFrom({ drives, others }: MachineDraft, axis: "x" | "y" | "z"): DriveDescription {
  const { kind, stepsPerMm } = drives[axis];
  const steps = typedNumber(stepsPerMm, stepsAsked).value;
  const { stepsPerMm: _, ...known } = others.drives?.[axis] ?? { kind };
  return { ...known, kind, ...(steps !== null && { stepsPerMm: steps }) };
}

/** The user's own axes; null where they are Kilter's, or not whole yet. */
export function coordinatesFrom({ ownAxes, axes, tried }: MachineDraft): UserCoordinates | null {
  if (!ownAxes) return null;
  const own = (["x", "y", "z"] as const).map((axis) => {
    const { named, grows, zero } = axes[axis];
    return {
      named: named.trim(),
      direction: grows === "plus" ? (1 as const) : (-1 as const),
      zeroMm: typedNumber(zero, zeroAsked).value,
    };
  });
  if (own.some(({ named, zeroMm }) => named === "" || zeroMm === null)) return null;
  const [x, y, z] = own as { named: string; direction: 1 | -1; zeroMm: number }[];
  return { axes: { x, y, z }, tried };
}

/** A machine that is described already, as a draft to be changed. */
export function draftFrom(machine: MachineDescription, coordinates: UserCoordinates | null): MachineDraft {
  const { travelMm, railPlanesMm, details = {} } = machine;
  const { drives, motorsOnY, gridPitchMm, ...others } = details;
  const drive = (axis: "x" | "y" | "z") => ({
    kind: drives?.[axis].kind ?? usualDraft.drives[axis].kind,
    stepsPerMm: drives?.[axis].stepsPerMm === undefined ? "" : String(drives[axis].stepsPerMm),
  });
  const axis = (of: "x" | "y" | "z"): AxisTexts => {
    const own = coordinates?.axes[of];
    return own
      ? { named: own.named, grows: own.direction > 0 ? "plus" : "minus", zero: String(own.zeroMm) }
      : usualDraft.axes[of];
  };
  return {
    name: machine.name,
    layout: machine.layout,
    eight: {
      travelX: String(travelMm.x),
      travelY: String(travelMm.y),
      travelZ: String(travelMm.z),
      railLeft: String(railPlanesMm.left),
      railRight: String(railPlanesMm.right),
      wheelbase: String(machine.wheelbaseMm),
      beamCentre: String(machine.beamCentreMm),
      toolFromBeam: String(machine.toolFromBeamMm),
    },
    drives: { x: drive("x"), y: drive("y"), z: drive("z") },
    motorsOnY: motorsOnY === 1 ? "1" : "2",
    gridPitch: gridPitchMm === null || gridPitchMm === undefined ? "" : String(gridPitchMm),
    ownAxes: coordinates !== null,
    tried: coordinates?.tried ?? false,
    axes: { x: axis("x"), y: axis("y"), z: axis("z") },
    others: { ...others, ...(drives && { drives }) },
  };
}
