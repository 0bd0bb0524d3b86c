import * as z from "zod";
import {
  type ObjectId,
  type ObjectKind,
  type ObjectKindId,
  type OwnObject,
  objectFamilies,
} from "../../core/instruments/object.ts";
import { catalogueIdField, keyField, nameField, numberField, reasonField } from "./fields.ts";

const sdMm = numberField(0.0001, 10);
const sdMmPer100 = numberField(0.0001, 10);
const angleDeg = numberField(1, 179);

/** One file of `catalog/objects`. */
export const objectKindSchema = z.strictObject({
  id: catalogueIdField,
  name: nameField,
  family: z.enum(objectFamilies),
  priors: z.strictObject({
    squareSdMmPer100: sdMmPer100.optional(),
    bowSdMm: sdMm.optional(),
    overhangSdMmPer100: sdMmPer100.optional(),
    diameterSdMm: sdMm.optional(),
    angleSdDeg: numberField(0.001, 45).optional(),
  }),
  source: nameField,
}) as unknown as z.ZodType<ObjectKind>;

/** A stated value in the unit of its field's name; an uncertainty of nothing is never true. */
function statedValue(least: number, most: number) {
  return z.strictObject({
    value: numberField(least, most),
    expandedUncertainty: numberField(1e-6, 10),
    coverageFactor: numberField(1, 4),
  });
}

const statementsSchema = z.strictObject({
  squareMmPer100: statedValue(-5, 5).optional(),
  squareGrade: z.strictObject({ grade: z.enum(["00", "0", "1", "2"]), lengthMm: numberField(10, 2000) }).optional(),
  bowMm: statedValue(-10, 10).optional(),
  bowLimitMm: numberField(0.0001, 10).optional(),
  heightMm: statedValue(0.1, 1000).optional(),
  overhangSideMmPer100: statedValue(-5, 5).optional(),
  overhangForeMmPer100: statedValue(-5, 5).optional(),
  effectiveDiameterMm: statedValue(0.05, 200).optional(),
  measuredAngleDeg: statedValue(1, 179).optional(),
});

/**
 * Somebody's own object: which kind it is, and what is known of it. That the statements are ones of its kind is looked at
 * when the kind is known (`objectFromKind`).
 */
export const ownObjectSchema = z.strictObject({
  id: keyField as unknown as z.ZodType<ObjectId, string>,
  kind: catalogueIdField as unknown as z.ZodType<ObjectKindId, string>,
  name: nameField.optional(),
  serial: nameField.optional(),
  diameterMm: numberField(0.05, 200).optional(),
  includedAngleDeg: angleDeg.optional(),
  stated: statementsSchema.optional(),
  putAway: reasonField.optional(),
});

// The schema and the core's type say the same; this line does not compile when they part.
const _asInCore = (own: z.output<typeof ownObjectSchema>): OwnObject => own;
void _asInCore;
