import { sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { takeableFrom, takeBack } from "../../app/take-back.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { accepted } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, sayJson, table, wrap } from "../terminal.ts";

/** More than this nobody looks through for the one they mean. */
const LISTED = 20;

/** Lists what can be taken back, or takes one of it back: what was noted by mistake has then never been. */
export function undo(
  file: string,
  text: string | undefined,
  options: { because?: string; json?: boolean; by?: string },
): number {
  const session = openLogbook(file);
  if (text === undefined) {
    const listed = takeableFrom(session);
    if (options.json) sayJson(listed.map(({ happening, words }) => ({ ...happening, words })));
    else if (listed.length === 0) say("Nothing has happened yet that could be taken back.");
    else {
      const rows = listed.slice(0, LISTED).map(({ happening, when, words }) => [happening.id.slice(-6), when, words]);
      say(table([{ head: "id" }, { head: "when" }, { head: "what", gives: true }], rows));
      if (listed.length > LISTED) say(wrap(`… and ${listed.length - LISTED} from before; --json lists them all.`));
    }
    return 0;
  }
  const because = options.because ?? "noted by mistake";
  const { events, taken, reading } = accepted(takeBack(session, new Stamp(hereAndNow, options.by), text, because));
  accepted(sessionWith(session, events));
  appendEvents(file, session, events);
  if (options.json) sayJson({ event: events[0].id, takenBack: taken.happening.id, reading });
  else {
    say(wrap(`Taken back: ${taken.words} (${taken.when}). It counts as never having been; the logbook keeps both.`));
    if (reading !== null) say(wrap(`The reading that was noted with it, ${reading.slice(-6)}, is withdrawn as well.`));
  }
  return 0;
}
