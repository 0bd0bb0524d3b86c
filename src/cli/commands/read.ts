import { readingsFromTable } from "../../app/readings-table.ts";
import { Stamp } from "../../app/stamp.ts";
import { type TakenRun, type TypedReading, takeRun } from "../../app/take-run.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { formatNumber } from "../../core/base/number-format.ts";
import type { UnitId } from "../../core/base/units.ts";
import { checkById, checks } from "../../core/checks/catalogue.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { appendEvents, openLogbook, readBytes } from "../logbook-file.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, sayJson, toned, wrap } from "../terminal.ts";
import { optionsFromPairs } from "./checks.ts";
import { splitPair } from "./create.ts";

export interface ReadOptions {
  readonly with?: string;
  readonly object?: readonly string[];
  readonly set?: readonly string[];
  readonly csv?: string;
  readonly unit?: string;
  readonly parked?: string;
  readonly hose?: string;
  readonly temperature?: string;
  readonly humidity?: string;
  readonly note?: string;
  readonly try?: boolean;
  readonly json?: boolean;
  readonly by?: string;
  readonly at?: string;
}

/** Adds one run: readings in the order of the stations, or as station=reading, or a table; each is judged at once. */
export function readInto(file: string, id: string, words: readonly string[], options: ReadOptions): number {
  const session = openLogbook(file);
  const check = checkById(id);
  if (!check) {
    const ids = checks.map((candidate) => candidate.id);
    throw new BadInput([refusal("check-unknown", {}, { check: id, meant: nearestWord(id, ids) ?? "" })]);
  }
  const unit = options.unit as UnitId | undefined;
  const readings =
    options.csv === undefined
      ? words.map((word) => typedReading(word, unit))
      : accepted(
          readingsFromTable(
            readBytes(options.csv).toString("utf8"),
            options.csv === "-" ? "standard input" : options.csv,
            unit,
          ),
        );
  if (readings.length === 0) throw new BadInput([refusal("nothing-given", {}, { check: id })]);
  const stamp = new Stamp(hereAndNow, options.by, options.at === undefined ? undefined : timeFrom(options.at));
  const taken = accepted(
    takeRun(session, stamp, {
      check: id,
      instrument: options.with ?? null,
      objects: Object.fromEntries(
        (options.object ?? []).map((pair) => splitPair(pair, "--object", "square=my-square")),
      ),
      options: optionsFromPairs(check, options.set ?? []),
      conditions: conditionsFrom(options),
      readings,
    }),
  );
  if (!options.try) appendEvents(file, session, taken.events);
  if (options.json) sayJson(takenAsJson(taken));
  else sayTaken(taken, options.try ?? false);
  return 0;
}

/** "rear left=0.35/0.40", or only the reading. A place of the user's own has "=" in it: the last one counts. */
function typedReading(word: string, unit: UnitId | undefined): TypedReading {
  const at = word.lastIndexOf("=");
  const base = unit === undefined ? {} : { unit };
  return at < 1 ? { ...base, text: word } : { ...base, station: word.slice(0, at).trim(), text: word.slice(at + 1) };
}

function timeFrom(text: string): number {
  const ms = Date.parse(text);
  if (Number.isNaN(ms))
    throw new BadInput([refusal("word-form", {}, { word: text, of: "--at", expected: "2026-03-14T16:22:05+01:00" })]);
  return ms;
}

function conditionsFrom(options: ReadOptions): Record<string, string | number> {
  const number = (text: string, of: string) => {
    const value = Number(text.replace(",", "."));
    if (!Number.isFinite(value)) throw new BadInput([refusal("word-form", {}, { word: text, of, expected: "21.5" })]);
    return value;
  };
  return {
    ...(options.parked !== undefined && { carriageParkedMm: number(options.parked, "--parked") }),
    ...(options.hose !== undefined && { hose: options.hose }),
    ...(options.temperature !== undefined && { temperatureC: number(options.temperature, "--temperature") }),
    ...(options.humidity !== undefined && { humidityPercent: number(options.humidity, "--humidity") }),
    ...(options.note !== undefined && { note: options.note }),
  };
}

function sayTaken(taken: TakenRun, onlyTried: boolean): void {
  const run = taken.events[0];
  say(toned(`${taken.check.words.title}: run ${"run" in run ? String(run.run).slice(-6) : ""}`, "strong"));
  const width = Math.max(...taken.readings.map(({ station }) => station.key.length));
  for (const { id, station, innovation } of taken.readings) {
    const verdict =
      innovation === null
        ? "noted"
        : verdictInWords(innovation.fits, innovation.away, taken.check.quantity === "slope" ? "mm/m" : "mm");
    say(wrap(`  ${station.key.padEnd(width)}  ${id.slice(-6)}  ${verdict}`, undefined, "    "));
  }
  say(
    onlyTried
      ? "Nothing has been written: this was only tried."
      : `${taken.readings.length} readings are in the logbook.`,
  );
}

function verdictInWords(fits: "fits" | "far" | "new", away: number, unit: string): string {
  if (fits === "new") return "the first of its kind: nothing to compare it with yet.";
  const size = formatNumber(Math.abs(away), 2);
  if (fits === "fits") return `sits with the rest, ${size} ${unit} off.`;
  return `${size} ${unit} off what the rest leads to expect: take it once more, and keep it if it comes out the same.`;
}

function takenAsJson({ events, readings }: TakenRun) {
  const [run] = events;
  return {
    run: "run" in run ? run.run : null,
    readings: readings.map(({ id, station, innovation }) => ({
      id,
      station: station.key,
      fits: innovation?.fits ?? null,
      away: innovation?.away ?? null,
      normalised: innovation?.normalised ?? null,
    })),
  };
}
