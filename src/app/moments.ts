import type { LogEvent } from "../logbook/events.ts";

/**
 * Dates as whoever wrote them down had them, "2026-09-05"; where two are of one day, with the time of day: "2026-09-05
 * 10:40".
 *
 * @param times milliseconds, in the order in which they are shown
 * @param events of the logbook, which tell what the clock showed at the place
 */
export function momentsInWords(
  times: readonly number[],
  events: readonly Pick<LogEvent, "at">[] = [],
): readonly string[] {
  const written = new Map(events.map(({ at }) => [Date.parse(at), at]));
  const local = times.map((time) => written.get(time) ?? new Date(time).toISOString());
  const isAlone = (text: string, length: number) =>
    local.filter((other) => other.slice(0, length) === text.slice(0, length)).length === 1;
  return local.map((text) => {
    const length = [DAY, MINUTE].find((enough) => isAlone(text, enough)) ?? SECOND;
    return text.slice(0, length).replace("T", " ");
  });
}

/** How much of "2026-09-05T10:40:00.001+02:00" says that much. */
const [DAY, MINUTE, SECOND] = [10, 16, 19];
