import fc from "fast-check";
import * as z from "zod";
import { eventTimeFromInstant } from "../../src/logbook/event-time.ts";
import { type EventKind, eventKinds, eventSchemas, type LogEvent } from "../../src/logbook/events.ts";
import {
  catalogueIdField,
  eventIdField,
  eventTimeField,
  keyField,
  nameField,
  noteField,
  pictureTypeField,
  reasonField,
  sha256Field,
  stationField,
  wordField,
} from "../../src/logbook/schema/fields.ts";
import { partSchema } from "../../src/logbook/schema/reading.ts";

// Years that a workshop's clock can show; offsets that are in use somewhere, half hours among them.
const eventTime = fc
  .tuple(
    fc.integer({ min: Date.UTC(1971, 0, 1), max: Date.UTC(2099, 11, 31) }),
    fc.constantFrom(0, 60, -300, 330, -570, 840),
  )
  .map(([instant, offset]) => eventTimeFromInstant(instant, offset));

const hex = (length: number) =>
  fc.string({ unit: fc.constantFrom(..."0123456789abcdef"), minLength: length, maxLength: length });

export const eventId = fc
  .tuple(hex(8), hex(4), hex(3), fc.constantFrom(..."89ab"), hex(3), hex(12))
  .map(([a, b, c, variant, d, e]) => `${a}-${b}-7${c}-${variant}${d}-${e}`);

// Whatever a person may type on one line, quotation marks, backslashes and letters beyond ASCII among them.
const oneLine = fc
  .string({ unit: "grapheme", minLength: 1, maxLength: 30 })
  .filter((text) => /^(?=.*\S)[^\p{Cc}]{1,120}$/u.test(text));

// Line breaks, zero characters and halves of surrogate pairs are all text to JSON.
const prose = fc.string({ unit: "binary", minLength: 1, maxLength: 40 }).filter((text) => /\S/.test(text));

const size = numberWithin(0, 1000);
const leaves = fc.oneof(
  fc.record({ value: numberWithin(-1000, 1000) }),
  fc.tuple(size, fc.double({ min: 0.001, max: 1, noNaN: true })).map(([goes, more]) => ({
    goes,
    doesNotGo: goes + more,
  })),
  fc.record({ goes: size }),
  fc.record({ doesNotGo: size }),
);

const byField: ReadonlyMap<unknown, fc.Arbitrary<unknown>> = new Map<unknown, fc.Arbitrary<unknown>>([
  [eventIdField, eventId],
  [eventTimeField, eventTime],
  [keyField, fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9._-]{0,20}$/)],
  [catalogueIdField, fc.stringMatching(/^[a-z][A-Za-z0-9.-]{0,20}$/)],
  [nameField, oneLine],
  [stationField, oneLine],
  [noteField, prose],
  [reasonField, prose],
  [sha256Field, hex(64)],
  [pictureTypeField, fc.constantFrom("image/jpeg", "image/png", "image/svg+xml")],
  [partSchema, leaves],
  [wordField, fc.stringMatching(/^[A-Za-z][A-Za-z0-9 .-]{0,20}$/)],
]);

/** JSON writes −0 as 0, so that −0 does not come back; no reading is −0. */
function numberWithin(least: number, most: number): fc.Arbitrary<number> {
  return fc
    .double({ min: Math.max(least, -1e12), max: Math.min(most, 1e12), noNaN: true })
    .map((number) => (number === 0 ? 0 : number));
}

/** Any value that a schema lets pass, refinements excepted: those have their own arbitraries below. */
function fromSchema(schema: unknown): fc.Arbitrary<unknown> {
  const own = byField.get(schema);
  if (own !== undefined) return own;
  if (schema instanceof z.ZodOptional) return fromSchema(schema.unwrap());
  if (schema instanceof z.ZodNullable) return fc.option(fromSchema(schema.unwrap()), { nil: null });
  if (schema instanceof z.ZodObject) return fromShape(schema.shape);
  if (schema instanceof z.ZodRecord) {
    return fc.dictionary(fromSchema(schema.keyType) as fc.Arbitrary<string>, fromSchema(schema.valueType), {
      maxKeys: 3,
      noNullPrototype: true,
    });
  }
  if (schema instanceof z.ZodArray) return fc.array(fromSchema(schema.element), { minLength: 1, maxLength: 5 });
  if (schema instanceof z.ZodUnion) return fc.oneof(...schema.options.map(fromSchema));
  if (schema instanceof z.ZodLiteral) return fc.constantFrom(...schema.values);
  if (schema instanceof z.ZodEnum) return fc.constantFrom(...schema.options);
  if (schema instanceof z.ZodBoolean) return fc.boolean();
  if (schema instanceof z.ZodNumber) {
    const [least, most] = [schema.minValue ?? -1e12, schema.maxValue ?? 1e12];
    const numbers = schema.isInt
      ? fc.integer({ min: Math.max(least, 1), max: Math.min(most, 1e6) })
      : numberWithin(least, most);
    // A bound that is itself excluded, and a factor that is not 0.
    return numbers.filter((number) => schema.safeParse(number).success);
  }
  if (schema instanceof z.ZodString) return fc.string({ unit: "grapheme", minLength: 1, maxLength: 20 });
  throw new Error("a kind of field that the tests cannot make yet");
}

function fromShape(shape: Readonly<Record<string, unknown>>): fc.Arbitrary<Record<string, unknown>> {
  const optional = Object.keys(shape).filter((name) => shape[name] instanceof z.ZodOptional);
  const model = Object.fromEntries(Object.entries(shape).map(([name, field]) => [name, fromSchema(field)]));
  return fc.record(model, {
    requiredKeys: Object.keys(shape).filter((name) => !optional.includes(name)),
    noNullPrototype: true,
  });
}

const unit = fc.constantFrom("mm", "in", "thou", "mm/m", "N", "Hz");
const readingForms = fc.oneof(
  fc.tuple(unit, leaves).map(([chosen, forms]) => ({ unit: chosen, ...forms })),
  fc.record({ passed: fc.boolean() }),
  fc.record({ unit, first: leaves, second: leaves }),
);

/** Any event of one kind. */
export function eventOfKind(kind: EventKind): fc.Arbitrary<LogEvent> {
  const { shape } = eventSchemas[kind];
  if (kind !== "reading-taken") return fromShape(shape) as unknown as fc.Arbitrary<LogEvent>;
  const { v, id, at, by, kind: name, run, station } = shape as Readonly<Record<string, unknown>>;
  return fc
    .tuple(fromShape({ v, id, at, by, kind: name, run, station }), readingForms)
    .map(([envelope, forms]) => ({ ...envelope, ...forms })) as unknown as fc.Arbitrary<LogEvent>;
}

export const anyEvent: fc.Arbitrary<LogEvent> = fc.oneof(...eventKinds.map(eventOfKind));

/** Some events, no two with the same id. They need not make sense together. */
export const someEvents: fc.Arbitrary<readonly LogEvent[]> = fc.uniqueArray(anyEvent, {
  selector: ({ id }) => id,
  minLength: 1,
  maxLength: 12,
});
