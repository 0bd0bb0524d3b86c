import { assess } from "../../app/assess.ts";
import { oddMarks } from "../../app/odd-readings.ts";
import { runName } from "../../app/run-name.ts";
import { type Session, sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { coreUnitOf, unitOf } from "../../core/base/units.ts";
import { checkById } from "../../core/checks/catalogue.ts";
import type { Check } from "../../core/checks/check.ts";
import { setupOfRun } from "../../core/fit/observations.ts";
import { stationFromKey } from "../../core/fit/station-key.ts";
import { entriesInWords, writtenAlike } from "../../core/instruments/entry-words.ts";
import { placeForUser } from "../../core/machine/user-coordinates.ts";
import { waysOf } from "../../core/planning/next-check-words.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { counted, say, sayJson, table, toned, wrap } from "../terminal.ts";
import { numberFrom } from "../typed-words.ts";

/** All readings with their ids, the odd ones marked. */
export function listReadings(file: string, options: { json?: boolean; odd?: boolean }): number {
  const session = openLogbook(file);
  const { timeline, machine } = session;
  const { trust } = assess(timeline);
  const odd = oddMarks(trust);
  const runs = new Map(timeline.runs.map((run) => [run.id, run]));
  const listed = timeline.readings.filter(({ id }) => !options.odd || odd.has(id));
  if (options.json) {
    sayJson(
      listed.map((reading) => ({ ...reading, check: runs.get(reading.run)?.check, odd: odd.get(reading.id) ?? null })),
    );
    return 0;
  }
  for (const run of timeline.runs) {
    const ofRun = listed.filter((reading) => reading.run === run.id);
    if (ofRun.length === 0) continue;
    const check = checkById(run.check);
    const written = writtenAlike(ofRun.flatMap(({ entries }) => entries));
    const how = waysOf({ setup: run }).join(", ");
    const rows = ofRun.map((reading) => {
      const station = check ? stationFromKey(check, setupOfRun(machine, timeline, run), reading.station) : null;
      const where =
        station && check?.kind === "geometric" ? placeForUser(timeline.coordinates, station.at, ["x", "y"]) : "";
      const mark =
        reading.withdrawn !== null || run.withdrawn !== null ? "withdrawn" : odd.has(reading.id) ? "odd" : "";
      return [reading.id.slice(-6), reading.station, where, entriesInWords(reading.entries, written), mark];
    });
    say(
      toned(
        wrap(
          `${run.check}${how === "" ? "" : ` (${how})`}, ${runName(run.id)}${run.factor === 1 ? "" : `, read times ${run.factor}`}`,
        ),
        "strong",
      ),
    );
    say(
      table(
        [
          { head: "id" },
          { head: "station", gives: true },
          { head: "where" },
          { head: `reading${unitInHead(check)}`, right: true },
          { head: "" },
        ],
        rows,
      ),
    );
    say();
  }
  return 0;
}

export function withdraw(file: string, ids: readonly string[], options: { because: string; by?: string }): number {
  return correct(file, options.by, (session, stamp) =>
    ids.map((text) => {
      const { reading, run } = readingOrRun(session, text);
      return reading === null
        ? stamp.event("run-withdrawn", { run, because: options.because } as never)
        : stamp.event("reading-withdrawn", { reading, because: options.because } as never);
    }),
  );
}

export function restore(file: string, ids: readonly string[], options: { by?: string }): number {
  return correct(file, options.by, (session, stamp) =>
    ids.map((text) => {
      const { reading, run } = readingOrRun(session, text);
      return reading === null
        ? stamp.event("run-restored", { run } as never)
        : stamp.event("reading-restored", { reading } as never);
    }),
  );
}

export function reinterpret(
  file: string,
  text: string,
  factor: string,
  options: { because: string; by?: string },
): number {
  const number = numberFrom(factor, "a factor", "a number such as -1, 25.4 or 0.0254");
  return correct(file, options.by, (session, stamp) => [
    stamp.event("run-reinterpreted", {
      run: readingOrRun(session, text).run,
      factor: number,
      because: options.because,
    } as never),
  ]);
}

function correct(
  file: string,
  by: string | undefined,
  make: (session: Session, stamp: Stamp) => readonly LogEvent[],
): number {
  const session = openLogbook(file);
  const events = make(session, new Stamp(hereAndNow, by));
  accepted(sessionWith(session, events));
  appendEvents(file, session, events);
  say(`${counted(events.length, "correction is", "corrections are")} in the logbook; what was typed is kept.`);
  return 0;
}

/** An id, or an ending that only one reading or run has. */
function readingOrRun({ timeline }: Session, text: string): { reading: string | null; run: string } {
  const readings = timeline.readings.filter(({ id }) => id.endsWith(text));
  const runs = timeline.runs.filter(({ id }) => id.endsWith(text));
  const count = readings.length + runs.length;
  if (count === 0) throw new BadInput([refusal("reading-not-there", {}, { text })]);
  if (count > 1) throw new BadInput([refusal("reading-ambiguous", {}, { text, count })]);
  return readings.length === 1 ? { reading: readings[0].id, run: readings[0].run } : { reading: null, run: runs[0].id };
}

/** The unit that a check's readings are listed in, whatever they were typed in. */
function unitInHead(check: Check | undefined): string {
  const quantity = check?.quantity;
  if (quantity === undefined || quantity === "verdict" || quantity === "count") return "";
  return `, ${unitOf(coreUnitOf[quantity]).symbol}`;
}
