import { type Diagnostic, refusal, warning } from "../core/base/diagnostic.ts";
import type { UnitId } from "../core/base/units.ts";
import { checkById, checks } from "../core/checks/catalogue.ts";
import type { Check, CheckOption, Setup, Station } from "../core/checks/check.ts";
import { QUADRANT_CLEARANCE, ringDiameters } from "../core/checks/ring-diameters.ts";
import { machineOfRun } from "../core/fit/run-machine.ts";
import { stationFromKey } from "../core/fit/station-key.ts";
import type { Run } from "../core/fit/timeline.ts";
import type { Entry } from "../core/instruments/entry.ts";
import {
  type Instrument,
  type InstrumentKind,
  instrumentFromKind,
  quantityOf,
} from "../core/instruments/instrument.ts";
import { type ObjectKind, objectFromKind } from "../core/instruments/object.ts";
import { problemsOfEntry } from "../core/instruments/possible-readings.ts";
import { adjustersOf } from "../core/machine/adjusters/catalogue.ts";
import type { MachineDescription } from "../core/machine/description.ts";
import { type Machine, machineFromDescription } from "../core/machine/machine.ts";
import { demandFromWish, demandKinds } from "../core/work/catalogue.ts";
import type { Catalogue, Known } from "./known.ts";
import { nearestWord } from "./nearest-word.ts";

/** What the catalogue's files and the findings bring; everything else is in the core. */
export interface CatalogueEntries {
  readonly instruments: readonly InstrumentKind[];
  readonly objects: readonly ObjectKind[];
  /** Findings of a machine, each with its unit. */
  readonly findings: (machine: Machine) => ReadonlyMap<string, UnitId>;
  readonly kindsOfWork: readonly string[];
}

/** The catalogue as replay asks it. */
export function catalogueFromEntries(entries: CatalogueEntries): Catalogue {
  const instruments = new Map<string, InstrumentKind>(entries.instruments.map((kind) => [kind.id, kind]));
  const objects = new Map<string, ObjectKind>(entries.objects.map((kind) => [kind.id, kind]));
  const kindsOfWork = new Set(entries.kindsOfWork);
  return (description: MachineDescription): Known => {
    const machine = machineFromDescription(description);
    return {
      checks: new Map(
        checks.map(({ id, quantity, entries, bothWays = false }) => [
          id,
          { quantity, entries: entries === undefined ? 1 : 2, bothWays },
        ]),
      ),
      adjusters: new Map(adjustersOf(machine).map((adjuster) => [adjuster.id, adjuster])),
      findings: entries.findings(machine),
      modes: new Set(machine.modes.map(({ id }) => id)),
      kindsOfWork,
      demandKinds: new Map(demandKinds.map(({ id, unit }) => [id, unit])),
      demandProblems: (wish) => demandFromWish(machine, wish).diagnostics,
      instrumentFrom: (own) => {
        const kind = instruments.get(own.kind);
        return kind === undefined ? kindUnknown(own.kind, instruments.keys()) : instrumentFromKind(kind, own);
      },
      objectFrom: (own) => {
        const kind = objects.get(own.kind);
        return kind === undefined ? kindUnknown(own.kind, objects.keys()) : objectFromKind(kind, own);
      },
      runProblems: (run, instrument) => runProblems(machine, run, instrument),
      stationProblems: rememberingSetups(machine),
      entryProblems: rememberingLeaves(),
    };
  };
}

function kindUnknown(kind: string, known: Iterable<string>) {
  const kinds = [...known];
  const data = { kind, listed: kinds.join(", "), meant: nearestWord(kind, kinds) ?? "" };
  return { ok: false, diagnostics: [refusal("kind-unknown", { field: "kind" }, data)] } as const;
}

function runProblems(machine: Machine, run: Run, instrument: Instrument | null): readonly Diagnostic[] {
  const check = checkById(run.check)!;
  const { layout, dimensions } = machine;
  if (!check.layouts.includes(layout.id)) {
    return [refusal("check-of-other-layout", { field: "check" }, { check: run.check, layout: dimensions.layout })];
  }
  const problems: Diagnostic[] = [];
  const families: readonly string[] = check.instruments;
  if (instrument !== null && families.length > 0 && !families.includes(instrument.family)) {
    const data = { check: run.check, name: instrument.name, expected: families.join(", ") };
    const shown = quantityOf(instrument);
    const isNumber = check.quantity !== "verdict" && check.quantity !== "count";
    // People measure with what they have; that it is unusual is worth a word and no more. But no scale shows a gap.
    if (isNumber && shown !== null && shown !== check.quantity) {
      const quantities = { asked: check.quantity, shown };
      problems.push(refusal("instrument-of-other-quantity", { field: "instrument" }, { ...data, ...quantities }));
    } else problems.push(warning("instrument-unusual", { field: "instrument" }, data));
  }
  const roles = check.kind === "geometric" ? check.roles : [];
  for (const role of Object.keys(run.objects)) {
    if (roles.includes(role)) continue;
    const data = { role, check: run.check, listed: roles.join(", ") };
    problems.push(refusal("role-unknown", { field: `objects.${role}` }, data));
  }
  for (const [key, value] of Object.entries(run.options)) {
    const problem = optionProblem(check, key, value);
    if (problem !== null) problems.push(problem);
  }
  return problems;
}

function optionProblem(check: Check, key: string, value: string | number | boolean): Diagnostic | null {
  const where = { field: `options.${key}` };
  const option = check.options.find((candidate) => candidate.key === key);
  if (option === undefined) {
    const keys = check.options.map((candidate) => candidate.key);
    const data = { option: key, check: check.id, listed: keys.join(", "), meant: nearestWord(key, keys) ?? "" };
    return refusal("option-unknown", where, data);
  }
  if (isAnswer(option, value)) return null;
  const { answers, number } = option;
  const expected = number ? `${number.from} to ${number.to} ${number.unit}` : (answers ?? []).join(" | ");
  const meant = typeof value === "string" ? (nearestWord(value, answers ?? []) ?? "") : "";
  return refusal("option-not-possible", where, { option: key, found: String(value), expected, meant });
}

function isAnswer({ answers, number }: CheckOption, value: string | number | boolean): boolean {
  if (number !== undefined) return typeof value === "number" && number.from <= value && value <= number.to;
  return answers === undefined || answers.includes(String(value));
}

/** Runs are many and ways to set one up are few: what a check answers for one is kept for the others. */
function rememberingSetups(machine: Machine): Known["stationProblems"] {
  const bySetup = new Map<string, (station: string) => Diagnostic | null>();
  return (run, instrument) => {
    const key = JSON.stringify([run.check, run.instrument, run.options, run.reach]);
    let problemOf = bySetup.get(key);
    if (problemOf === undefined) {
      const check = checkById(run.check)!;
      const setup: Setup = { machine: machineOfRun(machine, run), options: run.options, instrument };
      const then = stationProblems(check, setup);
      const now = run.reach === undefined ? then : stationProblems(check, { ...setup, machine });
      // Somebody who corrects the reach after they have read beyond it has read there nonetheless.
      problemOf = (station) => (now(station) === null ? null : then(station));
      bySetup.set(key, problemOf);
    }
    return problemOf;
  };
}

function stationProblems(check: Check, setup: Setup): (station: string) => Diagnostic | null {
  const keys = check.stations(setup).map(({ key }) => key);
  const answers = new Map<string, Diagnostic | null>(keys.map((key) => [key, null]));
  return (station) => {
    let answer = answers.get(station);
    if (answer === undefined) {
      answer = problemOfOwnStation(check, setup, keys, station);
      answers.set(station, answer);
    }
    return answer;
  };
}

/** For a key that the check does not list. */
function problemOfOwnStation(check: Check, setup: Setup, keys: readonly string[], station: string): Diagnostic | null {
  const where = { field: "station" };
  const place = stationFromKey(check, setup, station);
  if (place !== null) return problemOfPlace(check, setup.machine, place);
  if (check.id === ringDiameters.id && isNearQuadrant(station)) {
    const stations = keys.join(" | ");
    return refusal("station-near-quadrant", where, { station, clearance: QUADRANT_CLEARANCE, listed: stations });
  }
  const listed = keys.length > 12 ? `${keys.slice(0, 12).join(" | ")} | …` : keys.join(" | ");
  const ownPlaces = check.kind === "geometric" && check.stationAt !== undefined ? 1 : 0;
  const data = { station, check: check.id, listed, ownPlaces, meant: nearestWord(station, keys) ?? "" };
  return refusal("station-unknown", where, data);
}

/** Where the tip goes is within the travel; what is laid down is on the bed or across the rails. */
function problemOfPlace(check: Check, { dimensions }: Machine, { key, at, to }: Station): Diagnostic | null {
  const where = { field: "station" };
  const { Lx, Ly, Lz, zr, details } = dimensions;
  const { left, right, front, rear } = details.bedMm;
  const tipGoesThere = check.kind === "geometric" && check.atTip;
  const lowest = tipGoesThere ? 0 : Math.min(0, zr);
  const isWithin = (least: number, value: number, most: number) => least <= value && value <= most;
  for (const [x, y, z] of to === undefined ? [at] : [at, to]) {
    const isReached = !tipGoesThere || (isWithin(0, x, Lx) && isWithin(0, y, Ly));
    if (!isReached || !isWithin(lowest, z, Lz)) {
      return refusal("station-outside-travel", where, { station: key, x: Lx, y: Ly, lowest, z: Lz });
    }
    if (!isWithin(left, x, right) || !isWithin(front, y, rear)) {
      return refusal("station-off-the-bed", where, { station: key, left, right, front, rear });
    }
  }
  return null;
}

function isNearQuadrant(station: string): boolean {
  const angle = /^(-?\d{1,4}(?:\.\d{1,6})?)\s*°$/.exec(station)?.[1];
  if (angle === undefined) return false;
  const beyond = Math.abs(Number(angle)) % 90;
  return Math.min(beyond, 90 - beyond) < QUADRANT_CLEARANCE;
}

/** All stacks of a set of leaves are made anew for every question, and a set answers few different ones. */
function rememberingLeaves(): Known["entryProblems"] {
  const answers = new WeakMap<Instrument, Map<string, readonly Diagnostic[]>>();
  return (instrument, entry) => {
    if (isTouch(instrument, entry)) return [];
    if (instrument.measures !== "length" || instrument.leaves === undefined) return problemsOfEntry(instrument, entry);
    let ofInstrument = answers.get(instrument);
    if (ofInstrument === undefined) {
      ofInstrument = new Map();
      answers.set(instrument, ofInstrument);
    }
    const key = JSON.stringify(entry);
    let problems = ofInstrument.get(key);
    if (problems === undefined) {
      problems = problemsOfEntry(instrument, entry);
      ofInstrument.set(key, problems);
    }
    return problems;
  };
}

/** Where two edges touch there is no gap, and no leaf was needed to see it. */
function isTouch(instrument: Instrument, entry: Entry): boolean {
  if (instrument.family !== "feeler") return false;
  return entry.form === "value" ? entry.value === 0 : entry.form === "interval" && entry.goes === 0;
}
