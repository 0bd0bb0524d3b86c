import * as z from "zod";
import { type UnitId, unitIds } from "../../core/base/units.ts";
import {
  type InstrumentId,
  type InstrumentKind,
  type InstrumentKindId,
  instrumentFamilies,
  type OwnInstrument,
} from "../../core/instruments/instrument.ts";
import { catalogueIdField, keyField, nameField, numberField, reasonField } from "./fields.ts";

// Bounds keep out slips (a metre for a millimetre, per cent for a share), not tools.
const lengthMm = numberField(-100_000, 100_000);
const uncertaintyMm = numberField(0, 10);
const share = numberField(0, 1);
const slope = numberField(0, 100);

const rangeSchema = z.strictObject({ from: z.number(), to: z.number() });
const markedInField = z.enum(unitIds as [UnitId, ...UnitId[]]);
const familyField = z.enum(instrumentFamilies);

const leavesSchema = z.strictObject({
  leavesMm: z.array(numberField(0.001, 20)).min(1).max(100),
  largestStack: z.int().min(1).max(5),
});

const lengthFigures = {
  rangeMm: z.strictObject({ from: lengthMm, to: lengthMm }).optional(),
  resolutionMm: uncertaintyMm.optional(),
  settingMm: uncertaintyMm,
  maxPermissibleError: z
    .strictObject({ constantMm: uncertaintyMm, perWholeMetreMm: uncertaintyMm.optional() })
    .optional(),
  smallRange: z.strictObject({ withinMm: numberField(0, 100), maxPermissibleErrorMm: uncertaintyMm }).optional(),
  againstSameSize: z.strictObject({ maxPermissibleErrorMm: uncertaintyMm }).optional(),
  scaleStandardUncertaintyMmPerM: numberField(0, 10).optional(),
  lasts: z.enum(["offset", "scale", "none"]),
  readsDifference: z.boolean().optional(),
  leaves: leavesSchema.optional(),
};
const slopeFigures = {
  rangeMmPerM: rangeSchema.optional(),
  resolutionMmPerM: slope.optional(),
  settingMmPerM: slope,
};
const forceFigures = {
  rangeN: rangeSchema.optional(),
  resolutionN: numberField(0, 100).optional(),
  settingN: numberField(0, 100).optional(),
  maxPermissibleErrorShare: share,
};
const frequencyFigures = {
  rangeHz: rangeSchema.optional(),
  resolutionHz: numberField(0, 100).optional(),
  settingHz: numberField(0, 100).optional(),
  maxPermissibleErrorShare: share,
};

const named = { id: catalogueIdField, name: nameField, family: familyField };
const source = { source: nameField };

/** One file of `catalog/instruments`. */
export const instrumentKindSchema = z.discriminatedUnion("measures", [
  z.strictObject({ ...named, markedIn: markedInField, measures: z.literal("length"), ...lengthFigures, ...source }),
  z.strictObject({ ...named, markedIn: markedInField, measures: z.literal("slope"), ...slopeFigures, ...source }),
  z.strictObject({ ...named, markedIn: markedInField, measures: z.literal("force"), ...forceFigures, ...source }),
  z.strictObject({
    ...named,
    markedIn: markedInField,
    measures: z.literal("frequency"),
    ...frequencyFigures,
    ...source,
  }),
  z.strictObject({ ...named, measures: z.literal("eye"), ...source }),
]) as unknown as z.ZodType<InstrumentKind>;

const figuresSchema = z
  .strictObject({ ...lengthFigures, ...slopeFigures, ...forceFigures, ...frequencyFigures })
  .partial();

/**
 * Somebody's own instrument: which kind it is, and the figures in which it differs. That the figures are ones of its kind
 * is looked at when the kind is known (`instrumentFromKind`).
 */
export const ownInstrumentSchema = z.strictObject({
  id: keyField as unknown as z.ZodType<InstrumentId, string>,
  kind: catalogueIdField as unknown as z.ZodType<InstrumentKindId, string>,
  name: nameField.optional(),
  serial: nameField.optional(),
  markedIn: markedInField.optional(),
  figures: figuresSchema.optional(),
  putAway: reasonField.optional(),
});

// The schema and the core's type say the same; this line does not compile when they part.
const _asInCore = (own: z.output<typeof ownInstrumentSchema>): OwnInstrument => own;
void _asInCore;
