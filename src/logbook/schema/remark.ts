import * as z from "zod";
import { eventSchema } from "./envelope.ts";
import {
  catalogueIdField,
  nameField,
  noteField,
  pictureTypeField,
  sha256Field,
  unitField,
  widthField,
} from "./fields.ts";

/** What the user asks for, and what they want remembered. */
export const remarkEvents = {
  "limit-set": eventSchema("limit-set", { finding: catalogueIdField, limit: widthField.nullable(), unit: unitField }),
  "prior-set": eventSchema("prior-set", { mode: catalogueIdField, standardUncertainty: widthField.nullable() }),
  "note-added": eventSchema("note-added", { text: noteField }),
  "photograph-added": eventSchema("photograph-added", {
    name: nameField,
    sha256: sha256Field,
    mediaType: pictureTypeField,
    bytes: z.int().min(1),
    note: noteField.optional(),
  }),
} as const;
