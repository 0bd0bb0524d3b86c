import { leavesFromText } from "../app/typed-leaves.ts";
import { numberOrNull } from "../app/typed-number.ts";
import { refusal } from "../core/base/diagnostic.ts";
import { accepted, BadInput } from "./report.ts";
import { hereAndNow } from "./surroundings.ts";

const MOMENT = /^\d{4}-\d\d-\d\d(?:[T ]\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:?\d\d)?)?$/;
const DAY_MS = 24 * 3600 * 1000;

/** A number where one must be: anything else ends the command. `expected` says what would do. */
export function numberFrom(text: string, of: string, expected: string): number {
  const value = numberOrNull(text);
  if (value === null) throw new BadInput([refusal("word-form", {}, { word: text, of, expected })]);
  return value;
}

/** "600x500x70" as numbers. */
export function numbersFrom(text: string, count: number, of: string, example: string): number[] {
  const parts = text.split(/[x×]/).map((part) => numberOrNull(part));
  if (parts.length !== count || parts.includes(null)) {
    throw new BadInput([refusal("word-form", {}, { word: text, of, expected: example })]);
  }
  return parts as number[];
}

/** Thicknesses of leaves, as `leavesFromText` reads them; anything else ends the command. */
export function leavesFrom(text: string, of: string): readonly number[] {
  return accepted(leavesFromText(text, of));
}

/** "key=value" as its two sides. */
export function pairFrom(text: string, of: string, example: string): [string, string] {
  const at = text.indexOf("=");
  if (at < 1) throw new BadInput([refusal("word-form", {}, { word: text, of, expected: example })]);
  return [text.slice(0, at).trim(), text.slice(at + 1).trim()];
}

/** A time as milliseconds since 1970; without an offset it is the time of this place, and a day alone is its noon. */
export function momentFrom(text: string, option = "--at"): number {
  const whole = /^\d{4}-\d\d-\d\d$/.test(text) ? `${text}T12:00` : text.replace(" ", "T");
  const atMs = MOMENT.test(text) ? Date.parse(whole) : Number.NaN;
  if (Number.isNaN(atMs)) {
    const expected = "a day such as 2026-03-14, or a time such as 2026-03-14T16:22 or 2026-03-14T16:22:05+01:00";
    throw new BadInput([refusal("word-form", {}, { word: text, of: option, expected })]);
  }
  // A clock that is a little off is no slip; a year that is wrong would put everything else before this.
  if (atMs > hereAndNow.nowMs() + DAY_MS) throw new BadInput([refusal("time-ahead", {}, { text })]);
  return atMs;
}
