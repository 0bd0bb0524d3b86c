import { readingsFromTable } from "../../app/readings-table.ts";
import { runName } from "../../app/run-name.ts";
import { Stamp } from "../../app/stamp.ts";
import { type TakenRun, type TypedReading, takeRun } from "../../app/take-run.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { formatNumber } from "../../core/base/number-format.ts";
import { checkById, checks } from "../../core/checks/catalogue.ts";
import { type Innovation, standingOf } from "../../core/fit/preview.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { appendEvents, openLogbook, readBytes } from "../logbook-file.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { counted, say, sayJson, toned, wrap } from "../terminal.ts";
import { momentFrom, numberFrom, pairFrom } from "../typed-words.ts";
import { optionsFromPairs } from "./check.ts";

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
  const unit = options.unit;
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
  const stamp = new Stamp(hereAndNow, options.by, options.at === undefined ? undefined : momentFrom(options.at));
  const taken = accepted(
    takeRun(session, stamp, {
      check: id,
      instrument: options.with ?? null,
      objects: Object.fromEntries((options.object ?? []).map((pair) => pairFrom(pair, "--object", "square=my-square"))),
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
function typedReading(word: string, unit: string | undefined): TypedReading {
  const at = word.lastIndexOf("=");
  const base = unit === undefined ? {} : { unit };
  return at < 1 ? { ...base, text: word } : { ...base, station: word.slice(0, at).trim(), text: word.slice(at + 1) };
}

function conditionsFrom(options: ReadOptions): Record<string, string | number> {
  return {
    ...(options.parked !== undefined && {
      carriageParkedMm: numberFrom(options.parked, "--parked", "a place in mm, such as 300"),
    }),
    ...(options.hose !== undefined && { hose: options.hose }),
    ...(options.temperature !== undefined && {
      temperatureC: numberFrom(options.temperature, "--temperature", "degrees Celsius, such as 21.5"),
    }),
    ...(options.humidity !== undefined && {
      humidityPercent: numberFrom(options.humidity, "--humidity", "per cent, such as 45"),
    }),
    ...(options.note !== undefined && { note: options.note }),
  };
}

function sayTaken(taken: TakenRun, onlyTried: boolean): void {
  const run = taken.events[0];
  say(toned(`${taken.check.words.title}: ${"run" in run ? runName(String(run.run)) : "run"}`, "strong"));
  const width = Math.max(...taken.readings.map(({ station }) => station.key.length));
  for (const { id, station, innovation, passed } of taken.readings) {
    const verdict =
      innovation === null
        ? noteInWords(passed)
        : verdictInWords(innovation, taken.check.quantity === "slope" ? "mm/m" : "mm");
    say(wrap(`  ${station.key.padEnd(width)}  ${id.slice(-6)}  ${verdict}`, undefined, "    "));
  }
  // The logbook's order, which commands keep, is not the one in which such a pair is read at the machine.
  if (taken.check.entries && taken.check.readsSecondFirst)
    say(`Each pair was taken as ${taken.check.entries.join(" : ")}.`);
  say(
    onlyTried
      ? "Nothing has been written: this was only tried."
      : `${counted(taken.readings.length, "reading is", "readings are")} in the logbook.`,
  );
}

function noteInWords(passed: boolean | null): string {
  if (passed === null) return "noted";
  return passed ? "passed" : "not passed: the check says what to do, and is done again after it.";
}

/** How a reading sits with what is known without it. */
export function verdictInWords(innovation: Innovation, unit: string): string {
  const { fits, away } = innovation;
  if (fits === "new") return "the first of its kind: nothing to compare it with yet.";
  const size = formatNumber(Math.abs(away), 2);
  if (fits === "fits" && standingOf(innovation) !== "near")
    return `kept, ${size} ${unit} off what the rest leads to expect: nothing known yet speaks against it.`;
  if (fits === "fits") return `sits with the rest, ${size} ${unit} off.`;
  return `${size} ${unit} off what the rest leads to expect: take it once more, and keep it if it comes out the same.`;
}

function takenAsJson({ events, readings }: TakenRun) {
  const [run] = events;
  return {
    run: "run" in run ? run.run : null,
    readings: readings.map(({ id, station, innovation, passed }) => ({
      id,
      station: station.key,
      passed,
      fits: innovation?.fits ?? null,
      away: innovation?.away ?? null,
      normalised: innovation?.normalised ?? null,
    })),
  };
}
