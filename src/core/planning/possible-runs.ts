import { geometricChecks } from "../checks/catalogue.ts";
import { type GeometricCheck, type Setup, suitingInstruments } from "../checks/check.ts";
import { type Stage, stages } from "../checks/check-words.ts";
import type { PossibleRun } from "../fit/expected.ts";
import { readingFeel } from "../fit/expected-rows.ts";
import { useOfInstrument } from "../fit/problem.ts";
import type { Timeline } from "../fit/timeline.ts";
import { type Instrument, type InstrumentKind, inUse, usualInstrument } from "../instruments/instrument.ts";
import { lastingError } from "../instruments/lasting-error.ts";
import type { MeasuringObject } from "../instruments/object.ts";
import type { Machine } from "../machine/machine.ts";
import { variantsOf } from "./possible-runs-variants.ts";

/** A run that the machine's stage allows, with what it takes. */
export interface RunInReach extends PossibleRun {
  readonly setup: Setup & { readonly instrument: Instrument };
  readonly minutes: number;
  /** What the user would have to get first: names of instruments and families of objects; nothing for their own. */
  readonly lacks: readonly string[];
}

export interface PossibleRuns {
  /** With the user's own instruments and objects. */
  readonly own: readonly RunInReach[];
  /** With at least one thing that the user does not have. */
  readonly listed: readonly RunInReach[];
}

export interface RunOptions {
  /** How far the machine has been built; finished when left out. */
  readonly stage?: Stage;
  /** Kinds of instrument that could be got. */
  readonly kinds?: Iterable<InstrumentKind>;
}

/** Whoever cuts has a cutter, and any offcut is a block; the others are had or not. */
const alwaysAtHand: ReadonlySet<string> = new Set(["block", "cutter"]);

/** Checks that read against lines on the bed. */
const needsPrint: ReadonlySet<string> = new Set(["grid-diagonals", "line-along-x", "line-along-y", "beam-to-line"]);

/**
 * Every check that the layout and the stage allow, in all the ways in which it tells something different, with each
 * instrument that fits. Of two of the user's own instruments that would read the same stations, the one that reads worse
 * is left out. In the catalogue's order.
 */
export function possibleRuns(machine: Machine, timeline: Timeline, options: RunOptions = {}): PossibleRuns {
  const { stage = "cutting", kinds = [] } = options;
  const mine = inUse(timeline.instruments.values());
  const others = [...kinds]
    .filter(({ id }) => !mine.some(({ kind }) => kind === id))
    .map((kind) => usualInstrument(kind));
  const own: RunInReach[] = [];
  const listed: RunInReach[] = [];
  for (const check of geometricChecks) {
    if (!isOpen(check, machine, timeline, stage)) continue;
    const objects = objectsFor(check, timeline);
    const missing = check.roles.filter((role) => objects[role] === undefined && !alwaysAtHand.has(role));
    for (const variant of variantsOf(check, machine)) {
      const answers = withObjects(check, variant, objects, timeline);
      const take = (instruments: readonly Instrument[], lacks: (instrument: Instrument) => readonly string[]) =>
        fitting(suitingInstruments(check, variant), instruments).flatMap((instrument): RunInReach[] => {
          const setup = { machine, options: answers, instrument };
          if (check.stations(setup).length === 0) return [];
          return [{ check, setup, objects, minutes: check.words.minutes, lacks: lacks(instrument) }];
        });
      (missing.length === 0 ? own : listed).push(...withoutWorse(take(mine, () => missing)));
      listed.push(...take(others, ({ name }) => [name, ...missing]));
    }
  }
  return { own, listed };
}

function isOpen(check: GeometricCheck, machine: Machine, timeline: Timeline, stage: Stage): boolean {
  if (!check.layouts.includes(machine.layout.id)) return false;
  if (stages.indexOf(check.words.stage) > stages.indexOf(stage)) return false;
  return !needsPrint.has(check.id) || hasPrint(machine, timeline);
}

/** Lines lie on the bed when the description says so or somebody has read against them, until a skim takes them off. */
function hasPrint(machine: Machine, { runs, happenings }: Timeline): boolean {
  let skimmedAt = Number.NEGATIVE_INFINITY;
  for (const { kind, at } of happenings) if (kind === "skimmed") skimmedAt = Math.max(skimmedAt, at);
  const wasRead = runs.some(({ check, at, withdrawn }) => needsPrint.has(check) && at > skimmedAt && !withdrawn);
  return wasRead || (skimmedAt === Number.NEGATIVE_INFINITY && machine.dimensions.details.gridPitchMm !== null);
}

/** Instruments of these families, in their order. */
function fitting(families: readonly Instrument["family"][], all: readonly Instrument[]): readonly Instrument[] {
  return families.flatMap((family) => all.filter((instrument) => instrument.family === family));
}

/** Of each family that a role asks for, the object of which most is known beforehand. */
function objectsFor(check: GeometricCheck, { objects }: Timeline): PossibleRun["objects"] {
  const chosen = check.roles.flatMap((role) => {
    const candidates = inUse(objects.values()).filter((object) => object.family === role && suits(check, object));
    const [best] = [...candidates].sort((a, b) => doubtOf(a) - doubtOf(b));
    return best ? [[role, best.id] as const] : [];
  });
  return Object.fromEntries(chosen);
}

/** Grooves are cut with a pointed cutter, all else with one that has a diameter. */
function suits(check: GeometricCheck, object: MeasuringObject): boolean {
  const isPointed = object.includedAngleDeg !== undefined;
  return object.family !== "cutter" || isPointed === (check.id === "groove-widths");
}

function doubtOf({ priors }: MeasuringObject): number {
  return Object.values(priors).reduce((sum, prior) => sum + (prior?.sd ?? 0), 0);
}

/** What is written on the cutter is what the check's formula has to be told. */
function withObjects(
  check: GeometricCheck,
  options: Setup["options"],
  objects: PossibleRun["objects"],
  timeline: Timeline,
): Setup["options"] {
  const cutter = objects.cutter === undefined ? undefined : timeline.objects.get(objects.cutter);
  const asks = (key: string) => check.options.some((option) => option.key === key);
  return {
    ...options,
    ...(cutter?.diameterMm !== undefined && asks("cutterMm") && { cutterMm: cutter.diameterMm }),
    ...(cutter?.includedAngleDeg !== undefined && asks("angle") && { angle: cutter.includedAngleDeg }),
  };
}

/** Leaves out a run whose stations another instrument reads at least as well, with no more of an error that lasts. */
function withoutWorse(runs: readonly RunInReach[]): readonly RunInReach[] {
  return runs.filter((run, i) => !runs.some((other, j) => j !== i && isWorse(run, other, j < i)));
}

function isWorse(run: RunInReach, other: RunInReach, otherIsFirst: boolean): boolean {
  if (placesOf(run) !== placesOf(other)) return false;
  const [feel, lasting] = [readingFeel(run), lastingOf(run)];
  const [otherFeel, otherLasting] = [readingFeel(other), lastingOf(other)];
  if (otherFeel > feel || otherLasting > lasting) return false;
  return otherIsFirst || otherFeel < feel || otherLasting < lasting;
}

function placesOf({ check, setup }: RunInReach): string {
  return JSON.stringify(check.stations(setup).map(({ at, to, nominal }) => [at, to, nominal]));
}

/** At the longest length of the run, mm. */
function lastingOf({ check, setup }: RunInReach): number {
  const lengths = check.stations(setup).map(({ nominal = 0 }) => nominal);
  const longest = Math.max(0, ...lengths);
  const error = lastingError(setup.instrument, useOfInstrument(check, setup, lengths));
  return error.form === "none" ? 0 : error.form === "scale" ? error.sd * longest : error.sdMm;
}
