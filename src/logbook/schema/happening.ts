import * as z from "zod";
import { eventSchema } from "./envelope.ts";
import { catalogueIdField, eventIdField, memberField, noteField, numberField } from "./fields.ts";

const note = { note: noteField.optional() };

/** What changed the machine, or what is known of it, between readings. */
export const happeningEvents = {
  homed: eventSchema("homed", {}),
  "powered-on": eventSchema("powered-on", {}),
  knocked: eventSchema("knocked", { members: z.array(memberField).max(9).optional(), ...note }),
  transported: eventSchema("transported", note),
  "part-replaced": eventSchema("part-replaced", { members: z.array(memberField).min(1).max(9), ...note }),
  "move-made": eventSchema("move-made", { adjuster: catalogueIdField, amount: numberField(-1000, 1000), ...note }),
  "move-undone": eventSchema("move-undone", { move: eventIdField }),
  skimmed: eventSchema("skimmed", note),
} as const;
