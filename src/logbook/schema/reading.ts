import * as z from "zod";
import { eventSchema } from "./envelope.ts";
import {
  catalogueIdField,
  eventIdField,
  keyField,
  noteField,
  numberField,
  reasonField,
  stationField,
  unitField,
  wordField,
} from "./fields.ts";

const conditionsSchema = z.strictObject({
  carriageParkedMm: numberField(-5000, 5000).optional(),
  hose: z.enum(["on", "off"]).optional(),
  temperatureC: numberField(-40, 80).optional(),
  humidityPercent: numberField(0, 100).optional(),
  note: noteField.optional(),
});

// Leaves have a thickness, so what goes in is never less than nothing.
const numberForms = {
  value: z.number().optional(),
  goes: z.number().min(0).optional(),
  doesNotGo: z.number().min(0).optional(),
};

type NumberForms = { value?: number | undefined; goes?: number | undefined; doesNotGo?: number | undefined };

const byLeaves = { anyOf: [{ required: ["goes"] }, { required: ["doesNotGo"] }] };

// What each refinement asks is said once more beside it, for those who check against the JSON Schema.
/** A number as one instrument shows it, without its unit: one half of a double reading, or what a gauge shows. */
export const partSchema = z
  .strictObject(numberForms)
  .superRefine((part, context) => {
    if (countForms(part) !== 1) context.addIssue({ code: "custom", message: "reading-part-form" });
    checkLeaves(part, context);
  })
  .meta({ oneOf: [{ required: ["value"] }, byLeaves] });

const readingSchema = eventSchema("reading-taken", {
  run: keyField,
  station: stationField,
  unit: unitField.optional(),
  ...numberForms,
  passed: z.boolean().optional(),
  first: partSchema.optional(),
  second: partSchema.optional(),
})
  // Whether a value needs a unit (a length does, a count has none) is for replay to say, which knows the check.
  .superRefine((reading, context) => {
    const pair = reading.first !== undefined || reading.second !== undefined;
    const forms = countForms(reading) + (reading.passed === undefined ? 0 : 1) + (pair ? 1 : 0);
    if (forms !== 1) context.addIssue({ code: "custom", message: "reading-form" });
    else if (pair && (reading.first === undefined || reading.second === undefined)) {
      context.addIssue({ code: "custom", message: "reading-half", path: [reading.first ? "second" : "first"] });
    } else if (reading.passed !== undefined && reading.unit !== undefined) {
      context.addIssue({ code: "custom", message: "reading-without-unit", path: ["unit"] });
    } else if (reading.passed === undefined && reading.value === undefined && reading.unit === undefined) {
      context.addIssue({ code: "custom", message: "reading-unit", path: ["unit"] });
    }
    checkLeaves(reading, context);
  })
  .meta({
    oneOf: [
      { required: ["value"] },
      { required: ["unit"], ...byLeaves },
      { required: ["passed"], not: { required: ["unit"] } },
      { required: ["unit", "first", "second"] },
    ],
  });

function countForms(part: NumberForms): number {
  return (part.value === undefined ? 0 : 1) + (part.goes === undefined && part.doesNotGo === undefined ? 0 : 1);
}

function checkLeaves(part: NumberForms, context: z.RefinementCtx): void {
  if (part.goes === undefined || part.doesNotGo === undefined || part.goes < part.doesNotGo) return;
  context.addIssue({ code: "custom", message: "reading-leaves-crossed", path: ["doesNotGo"] });
}

const reading = { reading: eventIdField };
const run = { run: keyField };
const because = { because: reasonField };

export const readingEvents = {
  "run-begun": eventSchema("run-begun", {
    ...run,
    check: catalogueIdField,
    instrument: keyField.nullable().optional(),
    objects: z.record(wordField, keyField).optional(),
    options: z.record(wordField, z.union([z.string().max(200), z.number(), z.boolean()])).optional(),
    conditions: conditionsSchema.optional(),
  }),
  "reading-taken": readingSchema,
  "reading-withdrawn": eventSchema("reading-withdrawn", { ...reading, ...because }),
  "reading-restored": eventSchema("reading-restored", reading),
  "run-withdrawn": eventSchema("run-withdrawn", { ...run, ...because }),
  "run-restored": eventSchema("run-restored", run),
  "run-reinterpreted": eventSchema("run-reinterpreted", {
    ...run,
    factor: z
      .number()
      .min(-1e6)
      .max(1e6)
      .refine((factor) => factor !== 0, { error: "factor-zero" })
      .meta({ not: { const: 0 } }),
    ...because,
  }),
} as const;
