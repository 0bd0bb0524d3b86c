import { openLogbook } from "../logbook-file.ts";
import { counted, say, sayJson, wrap } from "../terminal.ts";

/** Reads a logbook from end to end and says what it holds; what is wrong with it has ended the command before. */
export function inspectLogbook(file: string, options: { json?: boolean }): number {
  const { logbook, timeline } = openLogbook(file);
  const withdrawn = timeline.readings.filter((reading) => reading.withdrawn !== null).length;
  const summary = {
    machine: timeline.machine.name,
    layout: timeline.machine.layout,
    events: logbook.events.length,
    runs: timeline.runs.length,
    readings: timeline.readings.length,
    withdrawn,
    instruments: timeline.instruments.size,
    objects: timeline.objects.size,
    happenings: timeline.happenings.length,
    tornLine: logbook.torn?.line ?? null,
  };
  if (options.json) {
    sayJson(summary);
    return 0;
  }
  const { events, runs, readings, instruments, objects, happenings } = summary;
  say(wrap(`${summary.machine} (${summary.layout}): the logbook can be read.`));
  say(
    wrap(
      `${counted(events, "event")}: ${counted(runs, "run")} with ${counted(readings, "reading")} (${withdrawn} withdrawn), ${counted(instruments, "instrument")}, ${counted(objects, "object")}, ${counted(happenings, "thing that happened", "things that happened")}.`,
    ),
  );
  return 0;
}
