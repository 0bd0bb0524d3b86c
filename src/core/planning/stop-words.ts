import { formatNumber, type Step, type SystemOfUnits, stepForUncertainty } from "../base/number-format.ts";
import { type UnitId, unitFromCore, unitOf } from "../base/units.ts";
import { type Station, usualEntries } from "../checks/check.ts";
import type { Instrument, InstrumentFamily, LeafSet } from "../instruments/instrument.ts";
import { type Stack, stacksOf } from "../instruments/leaves.ts";
import { leafText } from "../machine/adjusters/sentence.ts";
import type { StopAt } from "./plan.ts";

/** How the person reads, and what the move is. */
export interface StopDetails {
  /** Leaves of the gauge; left out, those that the run's instrument states. */
  readonly leaves?: LeafSet | null;
  readonly system?: SystemOfUnits;
  /** True where leaves are laid at the joint: they settle the amount, and the gauge is a check of it. */
  readonly packed?: boolean;
}

/** The reading at which to stop, and the readings that are good enough, each by itself. */
export interface StopWords {
  /** "Stop when", or what makes of the reading a check only. */
  readonly lead: string;
  /** "station 6 (rear right) reads 0.6 goes and 0.65 does not". */
  readonly clause: string;
  /** "Anything from 0.59 to 0.69 is good enough."; null where it would be narrower than what the gauge tells apart. */
  readonly band: string | null;
  /** What has to stand before the joint is opened, or what to do where it stands no more; null where nothing has to. */
  readonly setUp: string | null;
}

/**
 * The reading at which to stop, and what is good enough, in whole sentences; lengths in mm stand without their unit. No
 * number is finer than the instrument, and a band that is narrower than what it can tell apart is not named.
 */
export function stopInWords(stop: StopAt, details: StopDetails = {}): string {
  const { lead, clause, band, setUp } = stopWords(stop, details);
  const sentence = `${lead} ${clause}.`;
  const told = stop.setUp === "before the move" || stop.homesFirst ? [setUp, sentence, band] : [sentence, band, setUp];
  return told.filter((words) => words !== null).join(" ");
}

export function stopWords(stop: StopAt, details: StopDetails = {}): StopWords {
  const gauge = gaugeOf(stop, details);
  const asNumber = stop.against !== null || !gauge.isFelt || stop.setUp === "before the move";
  const said = asNumber ? saidAsNumber(stop, gauge) : saidWithLeaves(stop, gauge);
  const lead = details.packed
    ? "The leaves laid settle the amount; as a check,"
    : stop.homesFirst
      ? "It is right when"
      : "Stop when";
  return { lead, ...said, setUp: setUpInWords(stop, gauge) };
}

/** What has to stand before the joint is opened; what to do where a run's set-up has been taken down since. */
function setUpInWords(stop: StopAt, gauge: Gauge): string | null {
  const { check, station, changesBy, setUp } = stop;
  if (stop.homesFirst) {
    const how = check.words.setUp === undefined ? "" : ` ${check.words.setUp}`;
    return `Home first, and leave the drives on until all is read: a push at the gantry, or the power off, undoes what the homing set.${how}`;
  }
  if (setUp === "anew") return null;
  const name = stationName(stop, station);
  if (setUp === "before the move") {
    const how = check.words.setUp === undefined ? "" : ` ${check.words.setUp}`;
    return `Before the joint is opened, set this up and leave it standing.${how} Read ${name} once.`;
  }
  const change = roundedTo(changesBy, gauge);
  const until = change === 0 ? "the same" : `${textOf(Math.abs(change), gauge)} ${change > 0 ? "more" : "less"}`;
  return `If anything of that run's set-up has been touched since, set it up before the joint is opened, read ${name} once, and stop when it reads ${until} than then.`.replace(
    "the same than then",
    "the same as then",
  );
}

interface Gauge {
  readonly instrument: Instrument | null;
  readonly isFelt: boolean;
  readonly stacks: readonly Stack[];
  readonly feelMm: number;
  readonly system: SystemOfUnits;
  readonly unit: UnitId;
  /** In `unit`: what is told apart, and what a band is rounded to. */
  readonly step: Step;
}

interface Said {
  readonly clause: string;
  readonly band: string | null;
}

/** A gap's leaves where it is not stated which there are: every 0.05 (common practice, no source). */
const USUAL_LEAVES: readonly Stack[] = Array.from({ length: 40 }, (_, i) => {
  const totalMm = (i + 1) / 20;
  return { totalMm, leavesMm: [totalMm] };
});
const USUAL_FEEL = 0.05;

function gaugeOf({ check, setup: { instrument } }: StopAt, { leaves, system = "metric" }: StopDetails): Gauge {
  const set = leaves ?? (instrument?.measures === "length" ? instrument.leaves : null) ?? null;
  const isFelt = instrument === null || instrument.family === "feeler";
  const isSlope = check.quantity === "slope";
  const unit = isSlope ? (system === "metric" ? "mm/m" : "thou/ft") : system === "metric" ? "mm" : "in";
  const finest = { mm: 0.01, in: 0.0005, "mm/m": 0.01, "thou/ft": 0.1 }[unit];
  return {
    ...{ instrument, isFelt, system, unit },
    stacks: set && set.leavesMm.length > 0 ? stacksOf(set) : USUAL_LEAVES,
    feelMm: instrument?.measures === "length" ? instrument.settingMm : USUAL_FEEL,
    // The step of the series 1, 2, 5 that is not below what is told apart.
    step: stepForUncertainty(3 * unitFromCore(toldApart(instrument), unit), finest),
  };
}

/** What the gauge tells apart, in the core's unit. */
function toldApart(instrument: Instrument | null): number {
  if (instrument?.measures === "length") return instrument.resolutionMm ?? instrument.settingMm;
  if (instrument?.measures === "slope") return instrument.resolutionMmPerM ?? instrument.settingMmPerM;
  return USUAL_FEEL;
}

function saidWithLeaves(stop: StopAt, gauge: Gauge): Said {
  const { check, reads } = stop;
  if (check.entries === undefined) return saidAsGap(`${stationName(stop, stop.station)} reads`, stop, gauge);
  if (!check.oneTouches) return saidAsNumber(stop, gauge);
  const [first, second] = check.entries;
  const { totalMm: thinnest } = gauge.stacks[0];
  const at = `at ${stationName(stop, stop.station)}`;
  if (Math.abs(reads) < thinnest) {
    const clause = `not even ${leafText(thinnest, gauge.system)} goes into the ${first} or the ${second} ${at}`;
    return { clause, band: null };
  }
  const [open, closed] = reads > 0 ? [first, second] : [second, first];
  const band = reads > 0 ? stop : { reads: -reads, from: -stop.to, to: -stop.from };
  return saidAsGap(`the ${closed} ${at} is shut and the ${open} reads`, band, gauge);
}

/** Two stacks around the gap: what goes and what does not. */
function saidAsGap(subject: string, { reads, from, to }: Pick<StopAt, "reads" | "from" | "to">, gauge: Gauge): Said {
  const { below, above } = stacksToTry(gauge.stacks, reads, gauge.feelMm);
  const [goes, doesNotGo] = [below, above].map((stack) => stack && leafText(stack.totalMm, gauge.system));
  const text = [goes && `${goes} goes`, doesNotGo && `${doesNotGo} does not`].filter(Boolean).join(" and ");
  const gap = below && above ? above.totalMm - below.totalMm : Number.POSITIVE_INFINITY;
  const fine = stepForUncertainty(0, gauge.system === "metric" ? 0.01 : 0.0005);
  const band = to - from < gap ? null : bandInWords(Math.max(0, from), to, { ...gauge, step: fine }, "");
  return { clause: `${subject} ${text}`, band };
}

/**
 * The thickest stack that goes and the thinnest that does not, further apart than the feel can miss (twice its standard
 * uncertainty), and of those the closest pair, few leaves before many.
 */
function stacksToTry(
  stacks: readonly Stack[],
  targetMm: number,
  feelMm: number,
): { readonly below: Stack | null; readonly above: Stack | null } {
  const below = stacks.filter(({ totalMm }) => totalMm <= targetMm);
  const above = stacks.filter(({ totalMm }) => totalMm > targetMm);
  if (below.length === 0 || above.length === 0) return { below: below.at(-1) ?? null, above: above[0] ?? null };
  const least = 2 * feelMm - 1e-9;
  const worthOf = (a: Stack, b: Stack) =>
    b.totalMm - a.totalMm + A_LEAF_MORE * (a.leavesMm.length + b.leavesMm.length) + offMiddle(a, b, targetMm);
  let best: { below: Stack; above: Stack; worth: number } | null = null;
  for (const a of below.slice(-MOST_TRIED)) {
    for (const b of above.slice(0, MOST_TRIED)) {
      const worth = worthOf(a, b);
      if (b.totalMm - a.totalMm >= least && (!best || worth < best.worth)) best = { below: a, above: b, worth };
    }
  }
  return best ?? { below: below.at(-1) as Stack, above: above[0] };
}

/** One leaf more in the hand is worth this much of the gap between two stacks, mm. */
const A_LEAF_MORE = 0.01;
const MOST_TRIED = 40;

function offMiddle(a: Stack, b: Stack, targetMm: number): number {
  return Math.abs((a.totalMm + b.totalMm) / 2 - targetMm) / 10;
}

function saidAsNumber(stop: StopAt, gauge: Gauge): Said {
  const { check, setup, station, against, reads, from, to } = stop;
  const name = stationName(stop, station);
  const shown = roundedTo(reads, gauge);
  const isTwo = check.entries !== undefined && usualEntries(check, setup.instrument) === 2;
  if (stop.setUp === "before the move") return saidAsChange(stop, gauge, isTwo ? check.entries : null);
  if (against === null && !isTwo) {
    const how = setup.instrument ? (howRead[setup.instrument.family] ?? "") : "";
    return { clause: `${name} reads ${textOf(shown, gauge)}${how}`, band: bandAround(shown, from, to, gauge, "") };
  }
  const amount = textOf(Math.abs(shown), gauge);
  const band = bandOfDifference(shown, from, to, gauge);
  if (against !== null) {
    const other = stationName(stop, against);
    if (shown === 0) return { clause: `${name} reads the same as ${other}`, band };
    return { clause: `${name} reads ${amount} ${shown > 0 ? "more" : "less"} than ${other}`, band };
  }
  const [first, second] = check.entries as readonly [string, string];
  if (shown === 0) return { clause: `the ${first} and the ${second} are alike at ${name}`, band };
  return { clause: `the ${first} is ${amount} ${shown > 0 ? "more" : "less"} than the ${second} at ${name}`, band };
}

/** How far the reading has gone since the joint was opened. */
function saidAsChange(stop: StopAt, gauge: Gauge, entries: readonly [string, string] | null | undefined): Said {
  const { station, reads, from, to } = stop;
  const name = stationName(stop, station);
  const shown = roundedTo(reads, gauge);
  const amount = textOf(Math.abs(shown), gauge);
  const band = bandOfDifference(shown, from, to, gauge);
  if (entries) {
    const [first, second] = entries;
    return { clause: `the ${first} has ${shown < 0 ? "lost" : "gained"} ${amount} on the ${second} at ${name}`, band };
  }
  if (shown === 0) return { clause: `${name} reads the same as then`, band };
  return { clause: `${name} reads ${amount} ${shown > 0 ? "more" : "less"} than then`, band };
}

const howRead: Partial<Record<InstrumentFamily, string>> = {
  dial: " on the dial",
  "test indicator": " on the test indicator",
  calipers: " by the calipers",
  rule: " on the rule",
  tape: " on the tape",
  level: " on the level",
  "touch plate": " by the touch plate",
};

/** A difference has no sign that a person has to know: it is more or less. */
function bandOfDifference(shown: number, from: number, to: number, gauge: Gauge): string | null {
  if (from >= 0) return bandAround(shown, from, to, gauge, " more");
  if (to <= 0) return bandAround(-shown, -to, -from, gauge, " less");
  const [low, high] = inwards(from, to, gauge.step, gauge.unit);
  if (low > shown || high < shown || low >= high) return null;
  const say = (value: number) =>
    value === 0 ? "no difference" : `${textOf(Math.abs(value), gauge)} ${value < 0 ? "less" : "more"}`;
  return `Anything from ${say(low)} to ${say(high)} is good enough.`;
}

/** A number that is rounded out of its own band would contradict it. */
function bandAround(shown: number, from: number, to: number, gauge: Gauge, more: string): string | null {
  const [low, high] = inwards(from, to, gauge.step, gauge.unit);
  return shown < low || shown > high ? null : bandInWords(from, to, gauge, more);
}

/** Null where the band is finer than what the gauge tells apart. */
function bandInWords(from: number, to: number, gauge: Gauge, more: string): string | null {
  const [low, high] = inwards(from, to, gauge.step, gauge.unit);
  if (low >= high) return null;
  return `Anything from ${textOf(low, gauge)} to ${textOf(high, gauge)}${more} is good enough.`;
}

/** Rounded towards one another, in `unit`, so that what is named is good enough too. */
function inwards(from: number, to: number, { size }: Step, unit: UnitId): readonly [number, number] {
  const slack = 1e-9;
  const low = Math.ceil(unitFromCore(from, unit) / size - slack) * size;
  const high = Math.floor(unitFromCore(to, unit) / size + slack) * size;
  return [low, high];
}

/** In the gauge's unit. */
function roundedTo(value: number, { unit, step }: Gauge): number {
  return Math.round(unitFromCore(value, unit) / step.size) * step.size + 0;
}

/** A number that is already in the gauge's unit. */
function textOf(value: number, { unit, step }: Gauge): string {
  const text = formatNumber(value, step.decimals);
  return unit === "mm" ? text : `${text} ${unitOf(unit).symbol}`;
}

function stationName({ check, setup }: StopAt, station: Station): string {
  const all = check.stations(setup);
  const index = all.findIndex(({ key }) => key === station.key);
  // A length is known by its two ends.
  const name = station.to === undefined ? station.key : station.words;
  if (index < 0) return `the place of your own (${station.words})`;
  return all.length === 1 ? `the only station (${station.key})` : `station ${index + 1} (${name})`;
}
