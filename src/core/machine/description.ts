/** The two layouts that ship. A third is a new list of joints in `layouts/`, not a new program. */
export type LayoutId = "moving-gantry" | "fixed-bridge";

export type Axis = "x" | "y" | "z";

/** How an axis is driven; it sets the play and the scatter of homing that are usual. */
export type DriveKind = "belt" | "screw";

/**
 * A machine as its owner describes it: eight numbers and, where they differ from what follows from those, any others.
 * Lengths in mm. Heights are above the nominal plane of the bed; x and y are counted from the front left corner of the
 * working travel.
 */
export interface MachineDescription {
  readonly name: string;
  readonly layout: LayoutId;
  /** Working travel Lx, Ly, Lz. */
  readonly travelMm: { readonly x: number; readonly y: number; readonly z: number };
  /** x of the left and right rail planes. On a fixed bridge: the planes of its two columns. */
  readonly railPlanesMm: { readonly left: number; readonly right: number };
  /** b: distance of a side's two feet (of the gantry, or of the table) along Y. */
  readonly wheelbaseMm: number;
  /** zb: height of the beam's centre. */
  readonly beamCentreMm: number;
  /** ty: the tool in front of the beam's centre is negative. */
  readonly toolFromBeamMm: number;
  /** Everything else has a default that follows from the numbers above. */
  readonly details?: Partial<MachineDetails>;
}

/** Dimensions that follow from the others unless they are stated: see `dimensionsFromDescription`. Lengths in mm. */
export interface MachineDetails {
  /** zr: height at which the rails carry. */
  readonly railContactMm: number;
  /** Rails of the table on a fixed bridge, x of left and right. */
  readonly tableRailsMm: { readonly left: number; readonly right: number };
  /** zu: height of the beam's underside. */
  readonly beamUndersideMm: number;
  /** yf: front face of the beam relative to its centre, negative to the front. */
  readonly beamFaceMm: number;
  /** zs: height at which the slide is fixed to the carriage. */
  readonly slideMountMm: number;
  /** zm: the spindle's mount above the tip. */
  readonly spindleMountMm: number;
  /** The bed's edges. */
  readonly bedMm: { readonly left: number; readonly right: number; readonly front: number; readonly rear: number };
  /** Distances of fixing screws, across and up. */
  readonly slideScrewsMm: { readonly across: number; readonly up: number };
  readonly mountScrewsMm: { readonly across: number; readonly up: number };
  readonly plateScrewsMm: number;
  /** v of the packing places under each rail's ends. */
  readonly packingPlaces: { readonly front: number; readonly rear: number };
  /** Packing that is in place now, by adjuster. */
  readonly packingNowMm: Readonly<Record<string, number>>;
  /** Pitch of the grid printed on the bed; null where there is none. */
  readonly gridPitchMm: number | null;
  readonly drives: Readonly<Record<Axis, DriveDescription>>;
  /** Motors that move the beam along Y, one at each side, make the squareness anew at every homing. */
  readonly motorsOnY: 1 | 2;
  /** True when the machine squares itself against its stops at power-up. */
  readonly squaresOnStops: boolean;
  readonly guides: "wheels" | "blocks";
}

export interface DriveDescription {
  readonly kind: DriveKind;
  readonly motorStepsPerTurn?: number;
  readonly microsteps?: number;
  /** Belt: pitch times teeth of the pulley. Screw: lead. */
  readonly travelPerTurnMm?: number;
  readonly stepsPerMm?: number;
  /** Belt: way of one tooth. */
  readonly beltPitchMm?: number;
}
