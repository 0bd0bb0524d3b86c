import * as z from "zod";
import { eventSchema } from "./envelope.ts";
import {
  catalogueIdField,
  eventIdField,
  keyField,
  memberField,
  noteField,
  numberField,
  reasonField,
  stationField,
  unitField,
} from "./fields.ts";
import { partSchema } from "./reading.ts";

const note = { note: noteField.optional() };
const amount = numberField(-1000, 1000);
const leaves = z.array(numberField(0.005, 20)).max(100);

/** What a gauge read at one station while the joint was made fast, all with the zero of one run. */
const gaugeSchema = z.strictObject({
  run: keyField,
  station: stationField,
  unit: unitField,
  loose: partSchema.optional(),
  nipped: partSchema.optional(),
  final: partSchema.optional(),
});

/** What changed the machine, or what is known of it, between readings. */
export const happeningEvents = {
  homed: eventSchema("homed", {}),
  "powered-on": eventSchema("powered-on", {}),
  knocked: eventSchema("knocked", { members: z.array(memberField).max(9).optional(), ...note }),
  transported: eventSchema("transported", note),
  "part-replaced": eventSchema("part-replaced", { members: z.array(memberField).min(1).max(9), ...note }),
  "move-made": eventSchema("move-made", {
    adjuster: catalogueIdField,
    amount,
    planned: amount.optional(),
    leaves: z.strictObject({ laidMm: leaves, takenOutMm: leaves }).optional(),
    gauge: gaugeSchema.optional(),
    ...note,
  }),
  "move-undone": eventSchema("move-undone", { move: eventIdField, because: reasonField.optional() }),
  "happening-withdrawn": eventSchema("happening-withdrawn", { happening: eventIdField, because: reasonField }),
  skimmed: eventSchema("skimmed", note),
} as const;
