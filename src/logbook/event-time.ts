/** What an event's time looks like: date, T, time of day, offset from Greenwich. */
export const eventTimePattern = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d{1,6})?(?:Z|[+-]\d\d:\d\d)$/;

/**
 * The instant a time with offset stands for, in milliseconds since 1970-01-01T00:00Z; null where the text is not a date
 * that exists, or gives no offset. Calendar form of [RFC 3339 §5.6] without leap seconds: the clock of a workshop has
 * none. Pure arithmetic, so that every engine gives the same instant.
 */
export function instantFromEventTime(text: string): number | null {
  if (!eventTimePattern.test(text)) return null;
  const [year, month, day] = [twoDigits(text, 0) * 100 + twoDigits(text, 2), twoDigits(text, 5), twoDigits(text, 8)];
  const [hour, minute, second] = [twoDigits(text, 11), twoDigits(text, 14), twoDigits(text, 17)];
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return null;
  if (hour > 23 || minute > 59 || second > 59) return null;
  const offset = text.endsWith("Z") ? 0 : offsetMinutes(text);
  if (offset === null) return null;
  const minutes = (daysSince1970(year, month, day) * 24 + hour) * 60 + minute - offset;
  const fraction = text[19] === "." ? Number.parseFloat(text.slice(19)) * 1000 : 0;
  return minutes * 60_000 + second * 1000 + fraction;
}

/** The text for an instant in ms, whole seconds kept to the millisecond, at an offset in minutes east of Greenwich. */
export function eventTimeFromInstant(instantMs: number, minutesEast: number): string {
  // A Date made from a given number reads no clock.
  const local = new Date(Math.round(instantMs) + minutesEast * 60_000).toISOString();
  const stamp = local.slice(0, -1).replace(/\.000$/, "");
  if (minutesEast === 0) return `${stamp}Z`;
  const size = Math.abs(minutesEast);
  const hours = String(Math.floor(size / 60)).padStart(2, "0");
  const minutes = String(size % 60).padStart(2, "0");
  return `${stamp}${minutesEast < 0 ? "-" : "+"}${hours}:${minutes}`;
}

// A logbook has a hundred thousand times in it, and captures of a pattern cost more than all the rest of reading one.
function twoDigits(text: string, at: number): number {
  return (text.charCodeAt(at) - 48) * 10 + text.charCodeAt(at + 1) - 48;
}

/** Minutes east of Greenwich, from the last six characters. */
function offsetMinutes(text: string): number | null {
  const start = text.length - 6;
  const [hours, minutes] = [twoDigits(text, start + 1), twoDigits(text, start + 4)];
  if (hours > 23 || minutes > 59) return null;
  return (text[start] === "-" ? -1 : 1) * (hours * 60 + minutes);
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** Days of the Gregorian calendar, counted with the year beginning in March so that the leap day comes last. */
function daysSince1970(year: number, month: number, day: number): number {
  const marchYear = month > 2 ? year : year - 1;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const leapDays = Math.floor(marchYear / 4) - Math.floor(marchYear / 100) + Math.floor(marchYear / 400);
  return marchYear * 365 + leapDays + dayOfYear - 719_468;
}
