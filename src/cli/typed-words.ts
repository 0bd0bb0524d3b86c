import { refusal } from "../core/base/diagnostic.ts";
import { BadInput } from "./report.ts";
import { hereAndNow } from "./surroundings.ts";

const NUMBER = /^[+\-−]?(?:\d+(?:[.,]\d*)?|[.,]\d+)$/;
const MOMENT = /^\d{4}-\d\d-\d\d(?:[T ]\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:?\d\d)?)?$/;
const DAY_MS = 24 * 3600 * 1000;

/** A number with a point or a comma, with a plain or a true minus sign; null where the text is none. */
export function numberOrNull(text: string): number | null {
  const bare = text.trim();
  return NUMBER.test(bare) ? Number(bare.replace(",", ".").replace("−", "-")) : null;
}

/** The same where a number must be: anything else ends the command. `expected` says what would do. */
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

/** "0.5 0.1x4", or "0.5+0.1x4": thicknesses in mm, each as often as there are leaves of it. */
export function leavesFrom(text: string, of: string): number[] {
  const words = text.split(/[\s+]+/).filter((word) => word !== "");
  return words.flatMap((word) => {
    const [thickness, times = "1"] = word.split(/[x×]/);
    const mm = numberOrNull(thickness);
    const many = /^\d{1,3}$/.test(times) ? Number(times) : 0;
    if (mm === null || !(mm > 0) || many === 0 || word.split(/[x×]/).length > 2) {
      const expected = "thicknesses in mm, such as 0.5, 0.1x4 for four leaves of one thickness";
      throw new BadInput([refusal("word-form", {}, { word, of, expected })]);
    }
    return Array.from({ length: many }, () => mm);
  });
}

/** "key=value" as its two sides. */
export function pairFrom(text: string, of: string, example: string): [string, string] {
  const at = text.indexOf("=");
  if (at < 1) throw new BadInput([refusal("word-form", {}, { word: text, of, expected: example })]);
  return [text.slice(0, at).trim(), text.slice(at + 1).trim()];
}

/** A time as milliseconds since 1970; without an offset it is the time of this place, and a day alone is its noon. */
export function momentFrom(text: string): number {
  const whole = /^\d{4}-\d\d-\d\d$/.test(text) ? `${text}T12:00` : text.replace(" ", "T");
  const atMs = MOMENT.test(text) ? Date.parse(whole) : Number.NaN;
  if (Number.isNaN(atMs)) {
    const expected = "a day such as 2026-03-14, or a time such as 2026-03-14T16:22 or 2026-03-14T16:22:05+01:00";
    throw new BadInput([refusal("word-form", {}, { word: text, of: "--at", expected })]);
  }
  // A clock that is a little off is no slip; a year that is wrong would put everything else before this.
  if (atMs > hereAndNow.nowMs() + DAY_MS) throw new BadInput([refusal("time-ahead", {}, { text })]);
  return atMs;
}
