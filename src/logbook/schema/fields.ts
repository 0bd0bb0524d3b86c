import * as z from "zod";
import { unitIds } from "../../core/base/units.ts";
import { eventIdPattern } from "../event-id.ts";
import { eventTimePattern, instantFromEventTime } from "../event-time.ts";

/**
 * What a field can fail to be. The schema's own messages are these keys; `logbook-words.ts` has the words for them, so that
 * every complaint reaches the user as a coded diagnostic and none as a library's sentence.
 */
export type FieldForm = "event-id" | "event-time" | "key" | "name" | "prose" | "hash" | "media-type" | "word";

const form = (key: FieldForm) => ({ error: key });

/** Two lines of one logbook never share it. */
export const eventIdField = z.string().regex(eventIdPattern, form("event-id"));

/** Checked by shape first and then as a date that exists, so that the JSON Schema can state the shape. */
export const eventTimeField = z
  .string()
  .regex(eventTimePattern, form("event-time"))
  .refine((text) => instantFromEventTime(text) !== null, form("event-time"));

/** Short names that other events refer to: runs, instruments, objects. */
export const keyField = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/, form("key"));

/** Ids of things of the catalogue: checks, adjusters, findings, modes. Replay knows which exist. */
export const catalogueIdField = z.string().regex(/^[a-z][A-Za-z0-9.-]{0,63}$/, form("key"));

/** One line that a person gave to something. */
export const nameField = z.string().regex(/^(?=.*\S)[^\p{Cc}]{1,120}$/u, form("name"));

/** A station as its check lists it, or a place such as "x=123 y=45"; replay knows which there are. */
export const stationField = z.string().regex(/^(?=.*\S)[^\p{Cc}]{1,120}$/u, form("name"));

/** Prose of a person, line breaks allowed. */
export const noteField = z.string().max(4000).regex(/\S/, form("prose"));

/** Why something was withdrawn or set aside: never empty, because somebody asks for it a year later. */
export const reasonField = z.string().max(500).regex(/\S/, form("prose"));

/** A number between two bounds; JSON knows no infinity. */
export function numberField(least: number, most: number) {
  return z.number().min(least).max(most);
}

/** A limit or a spread. Narrower than a nanometre, or wider than a metre, is a slip; as a weight it would drown all else. */
export const widthField = numberField(1e-6, 1e6);

/** The unit that the numbers beside it stand in. */
export const unitField = z.enum(unitIds as [(typeof unitIds)[number], ...typeof unitIds]);

/** Choices and roles of a run: plain words, so that none can be taken for a property that every object has. */
export const wordField = z.string().regex(/^[A-Za-z][A-Za-z0-9 .-]{0,63}$/, form("word"));

/** The members that a knock or a new part may concern. */
export const memberField = z.enum(["bed", "rails", "beam", "carriage", "slide", "spindle", "frame", "bridge", "table"]);

export const sha256Field = z.string().regex(/^[0-9a-f]{64}$/, form("hash"));

export const pictureTypeField = z.string().regex(/^image\/[a-z0-9.+-]{1,60}$/, form("media-type"));
