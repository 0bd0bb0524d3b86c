import * as z from "zod";
import { eventSchema } from "./envelope.ts";
import { catalogueIdField, nameField, numberField, reasonField, unitField, widthField, wordField } from "./fields.ts";

const coordinate = numberField(-5000, 5000);

const demandSchema = z.strictObject({
  kind: catalogueIdField,
  sizes: z.record(wordField, z.union([coordinate, wordField])).optional(),
  place: z.strictObject({ x: coordinate, y: coordinate }).optional(),
  limit: widthField,
  unit: unitField,
});

/** What the user wants of the machine, what they have at hand for it, and what must stay as it is. */
export const wishEvents = {
  "work-chosen": eventSchema("work-chosen", { kindOfWork: catalogueIdField.nullable() }),
  "demand-set": eventSchema("demand-set", { name: nameField, demand: demandSchema.nullable() }),
  "demand-limit-set": eventSchema("demand-limit-set", {
    demand: nameField,
    limit: widthField.nullable().optional(),
    unit: unitField.optional(),
  }),
  "skim-decided": eventSchema("skim-decided", { will: z.boolean().nullable() }),
  // Thinner than foil, or thicker than a board, is a slip.
  "stock-set": eventSchema("stock-set", { leavesMm: z.array(numberField(0.005, 20)).max(500).nullable() }),
  "adjuster-locked": eventSchema("adjuster-locked", { adjuster: catalogueIdField, because: reasonField }),
  "adjuster-unlocked": eventSchema("adjuster-unlocked", { adjuster: catalogueIdField }),
  "adjuster-changed": eventSchema("adjuster-changed", {
    adjuster: catalogueIdField,
    range: z.strictObject({ from: numberField(-1000, 1000), to: numberField(-1000, 1000) }).optional(),
    standardUncertainty: numberField(0, 1000).optional(),
    minutes: numberField(0, 1000).optional(),
    available: z.boolean().optional(),
    screwPitchMm: numberField(0.1, 20).optional(),
  }),
} as const;
