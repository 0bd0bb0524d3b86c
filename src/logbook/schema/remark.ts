import * as z from "zod";
import { unitIds } from "../../core/base/units.ts";
import { eventSchema } from "./envelope.ts";
import { catalogueIdField, nameField, noteField, numberField, pictureTypeField, sha256Field } from "./fields.ts";

const unitField = z.enum(unitIds as [(typeof unitIds)[number], ...typeof unitIds]);
// Narrower than a nanometre, or wider than a metre, is a slip; and as a weight it would drown every reading.
const width = numberField(1e-6, 1e6);

/** What the user asks for, and what they want remembered. */
export const remarkEvents = {
  "limit-set": eventSchema("limit-set", { finding: catalogueIdField, limit: width.nullable(), unit: unitField }),
  "prior-set": eventSchema("prior-set", { mode: catalogueIdField, standardUncertainty: width.nullable() }),
  "note-added": eventSchema("note-added", { text: noteField }),
  "photograph-added": eventSchema("photograph-added", {
    name: nameField,
    sha256: sha256Field,
    mediaType: pictureTypeField,
    bytes: z.int().min(1),
    note: noteField.optional(),
  }),
} as const;
