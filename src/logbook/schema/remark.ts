import * as z from "zod";
import { unitIds } from "../../core/base/units.ts";
import { eventSchema } from "./envelope.ts";
import { catalogueIdField, nameField, noteField, pictureTypeField, sha256Field } from "./fields.ts";

const unitField = z.enum(unitIds as [(typeof unitIds)[number], ...typeof unitIds]);
const aboveNothing = z.number().gt(0);

/** What the user asks for, and what they want remembered. */
export const remarkEvents = {
  "limit-set": eventSchema("limit-set", { finding: catalogueIdField, limit: aboveNothing.nullable(), unit: unitField }),
  "prior-set": eventSchema("prior-set", { mode: catalogueIdField, standardUncertainty: aboveNothing.nullable() }),
  "note-added": eventSchema("note-added", { text: noteField }),
  "photograph-added": eventSchema("photograph-added", {
    name: nameField,
    sha256: sha256Field,
    mediaType: pictureTypeField,
    bytes: z.int().min(1),
    note: noteField.optional(),
  }),
} as const;
