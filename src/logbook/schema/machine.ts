import * as z from "zod";
import type { MachineDescription } from "../../core/machine/description.ts";
import { eventSchema } from "./envelope.ts";
import { catalogueIdField, nameField, numberField, reasonField } from "./fields.ts";

// Bounds keep out slips (metres for millimetres, a lost decimal mark), not machines: a small gantry router is well inside.
const across = numberField(20, 5000);
const place = numberField(-5000, 5000);
const spacing = numberField(1, 2000);

const driveSchema = z.strictObject({
  kind: z.enum(["belt", "screw"]),
  motorStepsPerTurn: z.int().min(1).max(100_000).optional(),
  microsteps: z.int().min(1).max(1024).optional(),
  travelPerTurnMm: numberField(0.1, 1000).optional(),
  stepsPerMm: numberField(0.01, 1_000_000).optional(),
  beltPitchMm: numberField(0.5, 50).optional(),
});

const detailsSchema = z.strictObject({
  railContactMm: place.optional(),
  tableRailsMm: z.strictObject({ left: place, right: place }).optional(),
  beamUndersideMm: place.optional(),
  beamFaceMm: numberField(-1000, 1000).optional(),
  slideMountMm: place.optional(),
  spindleMountMm: numberField(-1000, 1000).optional(),
  bedMm: z.strictObject({ left: place, right: place, front: place, rear: place }).optional(),
  slideScrewsMm: z.strictObject({ across: spacing, up: spacing }).optional(),
  mountScrewsMm: z.strictObject({ across: spacing, up: spacing }).optional(),
  plateScrewsMm: spacing.optional(),
  packingPlaces: z.strictObject({ front: numberField(-5, 5), rear: numberField(-5, 5) }).optional(),
  packingNowMm: z.record(catalogueIdField, numberField(-50, 50)).optional(),
  gridPitchMm: numberField(0.5, 500).nullable().optional(),
  drives: z.strictObject({ x: driveSchema, y: driveSchema, z: driveSchema }).optional(),
  motorsOnY: z.union([z.literal(1), z.literal(2)]).optional(),
  squaresOnStops: z.boolean().optional(),
  guides: z.enum(["wheels", "blocks"]).optional(),
});

/**
 * A machine as the logbook holds it: `MachineDescription` as it stands. What one number says about another (rails that
 * cross, a bed inside out) is looked at by `machine-problems.ts`.
 */
export const machineSchema = z.strictObject({
  name: nameField,
  layout: z.enum(["moving-gantry", "fixed-bridge"]),
  travelMm: z.strictObject({ x: across, y: across, z: numberField(5, 1000) }),
  railPlanesMm: z.strictObject({ left: place, right: place }),
  wheelbaseMm: numberField(10, 3000),
  beamCentreMm: numberField(10, 3000),
  toolFromBeamMm: numberField(-1000, 1000),
  details: detailsSchema.optional(),
}) satisfies z.ZodType<MachineDescription>;

const userAxisSchema = z.strictObject({
  named: nameField,
  direction: z.union([z.literal(1), z.literal(-1)]),
  zeroMm: place,
});

export const machineEvents = {
  "machine-described": eventSchema("machine-described", { machine: machineSchema }),
  "machine-renamed": eventSchema("machine-renamed", { name: nameField }),
  "machine-set-aside": eventSchema("machine-set-aside", { because: reasonField }),
  "machine-brought-back": eventSchema("machine-brought-back", {}),
  "coordinates-set": eventSchema("coordinates-set", {
    axes: z.strictObject({ x: userAxisSchema, y: userAxisSchema, z: userAxisSchema }),
    tried: z.boolean(),
  }),
} as const;
