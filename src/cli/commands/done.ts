import { type GaugeRequest, type NotedMove, noteMove, type OtherReading } from "../../app/note-move.ts";
import { notedInWords } from "../../app/noted-words.ts";
import type { Session } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { checkById, checks } from "../../core/checks/catalogue.ts";
import { adjustersOf } from "../../core/machine/adjusters/catalogue.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { ownInstrumentFor } from "../how-to-type.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { adjusterNamed } from "../named-adjuster.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, sayJson, wrap } from "../terminal.ts";
import { leavesFrom, momentFrom, numberFrom, pairFrom } from "../typed-words.ts";
import { optionsFromPairs } from "./check.ts";
import { noteSkim } from "./happened.ts";
import { verdictInWords } from "./read.ts";

export interface DoneOptions {
  readonly amount?: string;
  readonly planned?: string;
  readonly loose?: string;
  readonly nipped?: string;
  readonly final?: string;
  readonly before?: string;
  readonly beside?: string;
  readonly station?: string;
  readonly run?: string;
  readonly check?: string;
  readonly with?: string;
  readonly object?: readonly string[];
  readonly set?: readonly string[];
  readonly unit?: string;
  readonly lay?: string;
  readonly takeOut?: string;
  readonly note?: string;
  readonly at?: string;
  readonly by?: string;
  readonly json?: boolean;
}

/** Notes a move that was made, as advised or otherwise, and what the gauge read while the joint was made fast. */
export function done(file: string, text: string, options: DoneOptions): number {
  const session = openLogbook(file);
  const adjuster = adjusterNamed(adjustersOf(session.machine), text);
  // The cutter decides how much comes off the bed.
  if (adjuster.kind === "skim") return noteSkim(file, session, options);
  const stamp = new Stamp(hereAndNow, options.by, options.at === undefined ? undefined : momentFrom(options.at));
  const number = (word: string | undefined, name: string) =>
    word === undefined ? null : numberFrom(word, name, "a number such as 0.29 or −0.1");
  const planned = number(options.planned, "--planned");
  const packed = options.lay !== undefined || options.takeOut !== undefined;
  const noted = accepted(
    noteMove(session, stamp, {
      adjuster: adjuster.id,
      amount: number(options.amount, "--amount"),
      ...(planned !== null && { planned }),
      ...(packed && {
        leaves: {
          laidMm: leavesFrom(options.lay ?? "", "--lay"),
          takenOutMm: leavesFrom(options.takeOut ?? "", "--take-out"),
        },
      }),
      gauge: gaugeFrom(session, options),
      ...(options.note !== undefined && { note: options.note }),
    }),
  );
  appendEvents(file, session, noted.events);
  if (options.json) sayJson(notedAsJson(noted));
  else sayNoted(noted, options);
  return 0;
}

/** Nothing where nothing of a gauge was typed; what was typed of it must say where it was read. */
function gaugeFrom(session: Session, options: DoneOptions): GaugeRequest | null {
  const { loose, nipped, final, station, run, check, unit } = options;
  const other = otherFrom(options);
  if ([loose, nipped, final, station, run, check, other].every((word) => word === undefined)) return null;
  const missing =
    station === undefined ? "--station" : run === undefined && check === undefined ? "--run or --check" : null;
  if (missing !== null || station === undefined) {
    const reason = `nothing says where the gauge stood: ${missing} is missing`;
    const expected = "--station with the place, and --run with the run it goes on with, or --check for a new one";
    throw new BadInput([refusal("command-misused", {}, { reason, expected, help: "kilter done --help" })]);
  }
  return {
    into: run === undefined ? newRun(session, check as string, options) : runNamed(session, run, check),
    station,
    ...(unit !== undefined && { unit }),
    ...(loose !== undefined && { loose }),
    ...(nipped !== undefined && { nipped }),
    ...(final !== undefined && { final }),
    ...(other !== undefined && { other }),
  };
}

/** What the last reading is held against, where its run has a free zero. */
function otherFrom({ before, beside }: DoneOptions): OtherReading | undefined {
  if (before !== undefined && beside !== undefined) {
    const reason = "the last reading is held against one other, and two are given";
    const expected =
      "--before with what was read before the joint was opened, or --beside with what is read with the last";
    throw new BadInput([refusal("command-misused", {}, { reason, expected, help: "kilter done --help" })]);
  }
  const word = before ?? beside;
  if (word === undefined) return undefined;
  const isBefore = before !== undefined;
  const [station, text] = pairFrom(word, isBefore ? "--before" : "--beside", "front left=0.35");
  return { station, text, isBefore };
}

function newRun(session: Session, id: string, options: DoneOptions): GaugeRequest["into"] {
  const check = checkById(id);
  if (check === undefined) {
    const ids = checks.map((candidate) => candidate.id);
    throw new BadInput([refusal("check-unknown", {}, { check: id, meant: nearestWord(id, ids) ?? "" })]);
  }
  const objects = (options.object ?? []).map((pair) => pairFrom(pair, "--object", "square=my-square"));
  return {
    check: check.id,
    instrument: options.with ?? ownInstrumentFor(check, session)?.id ?? null,
    objects: Object.fromEntries(objects),
    options: optionsFromPairs(check, options.set ?? []),
    conditions: {},
  };
}

/** The run that the id, or its ending, names. */
function runNamed({ timeline }: Session, text: string, check: string | undefined): string {
  const runs = timeline.runs.filter(({ id }) => id.endsWith(text));
  if (runs.length === 0) throw new BadInput([refusal("reading-not-there", {}, { text })]);
  if (runs.length > 1) throw new BadInput([refusal("reading-ambiguous", {}, { text, count: runs.length })]);
  const [run] = runs;
  if (check !== undefined && check !== run.check) {
    const reason = `run ${text} is one of ${run.check}, not of ${check}`;
    const expected = "--run alone, or a run of the check";
    throw new BadInput([refusal("command-misused", {}, { reason, expected, help: "kilter done --help" })]);
  }
  return run.id;
}

function sayNoted(noted: NotedMove, { final }: DoneOptions): void {
  const { adjuster, reading, session } = noted;
  const words = notedInWords(noted, final !== undefined);
  for (const line of [words.noted, ...words.lies]) say(wrap(line));
  if (reading !== null && reading.innovation !== null) {
    const check = checkById(session.timeline.runs.find(({ id }) => id === runOf(session, reading.id))?.check ?? "");
    const verdict = verdictInWords(reading.innovation, check?.quantity === "slope" ? "mm/m" : "mm");
    say(wrap(`${reading.station.key}  ${reading.id.slice(-6)}  ${verdict}`, undefined, "    "));
  }
  for (const line of words.hands) say(wrap(line));
  const again = adjuster.readAgain?.checks ?? [];
  if (again.length > 0) say(wrap(`To be read again after it: ${again.join(", ")}.`));
  for (const line of words.open) say(wrap(line));
}

function runOf(session: Session, reading: string): string | undefined {
  return session.timeline.readings.find(({ id }) => id === reading)?.run;
}

function notedAsJson({ events, adjuster, amount, packingMm, reading }: NotedMove) {
  const move = events.find(({ kind }) => kind === "move-made");
  return {
    move: move?.id ?? null,
    adjuster: adjuster.id,
    amount,
    packingMm,
    standardUncertainty: adjuster.sd,
    readAgain: adjuster.readAgain?.checks ?? [],
    reading: reading && {
      id: reading.id,
      station: reading.station.key,
      fits: reading.innovation?.fits ?? null,
      away: reading.innovation?.away ?? null,
    },
  };
}
