/** What an event's time looks like: date, T, time of day, offset from Greenwich. */
export const eventTimePattern = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)(?:\.(\d{1,6}))?(?:Z|([+-])(\d\d):(\d\d))$/;

/**
 * The instant a time with offset stands for, in milliseconds since 1970-01-01T00:00Z; null where the text is not a date
 * that exists, or gives no offset. Calendar form of [RFC 3339 §5.6] without leap seconds: the clock of a workshop has
 * none. Pure arithmetic, so that every engine gives the same instant.
 */
export function instantFromEventTime(text: string): number | null {
  const match = eventTimePattern.exec(text);
  if (match === null) return null;
  const [year, month, day, hour, minute, second] = match.slice(1, 7).map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const [fraction, sign, offsetHour, offsetMinute] = [
    match[7],
    match[8],
    Number(match[9] ?? 0),
    Number(match[10] ?? 0),
  ];
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return null;
  if (hour > 23 || minute > 59 || second > 59) return null;
  if (offsetHour > 23 || offsetMinute > 59) return null;
  const offsetMinutes = (sign === "-" ? -1 : 1) * (offsetHour * 60 + offsetMinute);
  const minutes = (daysSince1970(year, month, day) * 24 + hour) * 60 + minute - offsetMinutes;
  return minutes * 60_000 + second * 1000 + (fraction === undefined ? 0 : Number(`0.${fraction}`) * 1000);
}

/** The text for an instant in ms, whole seconds kept to the millisecond, at an offset in minutes east of Greenwich. */
export function eventTimeFromInstant(instantMs: number, offsetMinutes: number): string {
  // A Date made from a given number reads no clock.
  const local = new Date(Math.round(instantMs) + offsetMinutes * 60_000).toISOString();
  const stamp = local.slice(0, -1).replace(/\.000$/, "");
  if (offsetMinutes === 0) return `${stamp}Z`;
  const size = Math.abs(offsetMinutes);
  const hours = String(Math.floor(size / 60)).padStart(2, "0");
  const minutes = String(size % 60).padStart(2, "0");
  return `${stamp}${offsetMinutes < 0 ? "-" : "+"}${hours}:${minutes}`;
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
