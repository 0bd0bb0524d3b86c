import * as z from "zod";
import { eventIdField, eventTimeField, nameField } from "./fields.ts";

/** The version of the format that this program writes. Older ones are lifted on reading (`upcast.ts`). */
export const formatVersion = 1;

/**
 * One kind of event: the envelope that all share, then the kind's own fields beside it. Unknown fields are refused: a
 * mistyped name would otherwise be a reading that silently lacks something. Fields are listed in the order in which they
 * are written.
 */
export function eventSchema<Kind extends string, Payload extends z.core.$ZodLooseShape>(kind: Kind, payload: Payload) {
  return z.strictObject({
    v: z.literal(formatVersion),
    id: eventIdField,
    at: eventTimeField,
    by: nameField.optional(),
    kind: z.literal(kind),
    ...payload,
  });
}
