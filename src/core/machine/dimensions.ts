import type { LayoutId, MachineDescription, MachineDetails } from "./description.ts";

/** All dimensions of one machine, defaults filled in, by the symbols of the kinematics. Lengths in mm. */
export interface Dimensions {
  readonly layout: LayoutId;
  readonly Lx: number;
  readonly Ly: number;
  readonly Lz: number;
  /** Planes of the rails (moving gantry) or of the bridge's columns (fixed bridge). */
  readonly xL: number;
  readonly xR: number;
  /** W = xR − xL; xm = (xL + xR)/2. */
  readonly W: number;
  readonly xm: number;
  /** Distance of the two rails that carry along Y, and the plane of the left one: the table's on a fixed bridge. */
  readonly railSpan: number;
  readonly railLeft: number;
  readonly b: number;
  readonly zb: number;
  readonly ty: number;
  readonly zr: number;
  readonly zu: number;
  readonly yf: number;
  readonly zs: number;
  readonly zm: number;
  readonly details: MachineDetails;
}

export function dimensionsFromDescription(machine: MachineDescription): Dimensions {
  const { x: Lx, y: Ly, z: Lz } = machine.travelMm;
  const { left: xL, right: xR } = machine.railPlanesMm;
  const details = detailsWithDefaults(machine);
  const bridge = machine.layout === "fixed-bridge";
  return {
    layout: machine.layout,
    Lx,
    Ly,
    Lz,
    xL,
    xR,
    W: xR - xL,
    xm: (xL + xR) / 2,
    railSpan: bridge ? details.tableRailsMm.right - details.tableRailsMm.left : xR - xL,
    railLeft: bridge ? details.tableRailsMm.left : xL,
    b: machine.wheelbaseMm,
    zb: machine.beamCentreMm,
    ty: machine.toolFromBeamMm,
    zr: details.railContactMm,
    zu: details.beamUndersideMm,
    yf: details.beamFaceMm,
    zs: details.slideMountMm,
    zm: details.spindleMountMm,
    details,
  };
}

function detailsWithDefaults(machine: MachineDescription): MachineDetails {
  const { x: Lx, y: Ly } = machine.travelMm;
  const b = machine.wheelbaseMm;
  const zb = machine.beamCentreMm;
  const bridge = machine.layout === "fixed-bridge";
  const overhang = (b / 2 + 20) / Ly;
  return {
    railContactMm: bridge ? -40 : -25,
    tableRailsMm: { left: 0.15 * Lx, right: 0.85 * Lx },
    beamUndersideMm: zb - 30,
    beamFaceMm: -20,
    slideMountMm: zb + 25,
    spindleMountMm: 90,
    bedMm: { left: -40, right: Lx + 40, front: -40, rear: Ly + 40 },
    slideScrewsMm: { across: 80, up: 120 },
    mountScrewsMm: { across: 60, up: 70 },
    plateScrewsMm: 60,
    packingPlaces: { front: -overhang, rear: 1 + overhang },
    packingNowMm: {},
    gridPitchMm: null,
    drives: { x: { kind: "belt" }, y: { kind: "belt" }, z: { kind: "screw" } },
    motorsOnY: bridge ? 1 : 2,
    squaresOnStops: false,
    guides: "blocks",
    ...machine.details,
  };
}
