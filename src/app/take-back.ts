import { refusal } from "../core/base/diagnostic.ts";
import { formatTrimmed } from "../core/base/number-format.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import type { Happening } from "../core/fit/timeline.ts";
import type { Adjuster } from "../core/machine/adjusters/adjuster.ts";
import { adjustersOf } from "../core/machine/adjusters/catalogue.ts";
import { handWayMm } from "../core/machine/adjusters/direction.ts";
import { directionOf, stepsFactor } from "../core/machine/adjusters/sentence.ts";
import type { Machine } from "../core/machine/machine.ts";
import type { LogEvent } from "../logbook/events.ts";
import type { Session } from "./session.ts";
import type { Stamp } from "./stamp.ts";

/** Something that can be taken back: it stands in the logbook and has not been taken back yet. */
export interface Takeable {
  readonly happening: Happening;
  /** When it was, in the words of whoever wrote it: date and time of day at their place. */
  readonly when: string;
  readonly words: string;
}

/** Moves and all else that happened, the latest first. */
export function takeableFrom({ logbook, timeline, machine }: Session): readonly Takeable[] {
  const times = new Map(logbook.events.map(({ id, at }) => [id, at]));
  return timeline.happenings
    .map((happening) => ({
      happening,
      when: (times.get(happening.id) ?? "").slice(0, 16).replace("T", " "),
      words: happeningInWords(machine, happening),
    }))
    .reverse();
}

/** What takes something back, and what that was. */
export interface TakenBack {
  readonly events: readonly LogEvent[];
  readonly taken: Takeable;
  /** The reading that was noted with a move, and goes with it. */
  readonly reading: string | null;
}

/** The events that take back what an id, or an ending that only one has, names. */
export function takeBack(session: Session, stamp: Stamp, text: string, because: string): Outcome<TakenBack> {
  const named = takeableFrom(session).filter(({ happening }) => text !== "" && happening.id.endsWith(text));
  if (named.length === 0) return refuse(refusal("happening-not-there", {}, { text }));
  if (named.length > 1) return refuse(refusal("happening-ambiguous", {}, { text, count: named.length }));
  const [taken] = named;
  const { happening } = taken;
  if (happening.kind !== "moved") {
    const event = stamp.event("happening-withdrawn", { happening: happening.id, because } as never);
    return succeed({ events: [event], taken, reading: null });
  }
  const undone = stamp.event("move-undone", { move: happening.id, because } as never);
  const homed = session.timeline.happenings
    .filter(({ kind, at }) => kind === "homed" && happening.at < at && at < happening.at + WITH_IT)
    .map(({ id }) => stamp.event("happening-withdrawn", { happening: id, because } as never));
  const { last, others } = readingsOf(session, happening);
  const withdrawn = [...others, ...(last === null ? [] : [last])].map((reading) =>
    stamp.event("reading-withdrawn", { reading, because: `It was read for a move: ${because}` } as never),
  );
  return succeed({ events: [undone, ...homed, ...withdrawn], taken, reading: last });
}

/** All that is noted with a move stands within so many milliseconds of it. */
const WITH_IT = 4;

/**
 * A move's last reading was noted with it: it stands a few milliseconds behind it, at the same place of the same run.
 * In a run that was begun for the move, what it was held against stands within as little.
 */
function readingsOf(
  { timeline }: Session,
  { gauge, at }: Extract<Happening, { kind: "moved" }>,
): { readonly last: string | null; readonly others: readonly string[] } {
  if (!gauge) return { last: null, others: [] };
  const { run, station, final } = gauge;
  const ofRun = timeline.readings.filter((one) => one.run === run && one.withdrawn === null && one.at < at + WITH_IT);
  const last = ofRun.find((one) => final !== undefined && one.station === station && at <= one.at)?.id ?? null;
  const begun = timeline.runs.find(({ id }) => id === run)?.at ?? Number.NEGATIVE_INFINITY;
  const isOwn = at - WITH_IT < begun && begun <= at;
  return { last, others: isOwn ? ofRun.map(({ id }) => id).filter((id) => id !== last) : [] };
}

export function happeningInWords(machine: Machine, happening: Happening): string {
  switch (happening.kind) {
    case "moved": {
      const adjuster = adjustersOf(machine).find(({ id }) => id === happening.adjuster);
      return adjuster === undefined ? happening.adjuster : movedInWords(adjuster, happening.amount);
    }
    case "knocked":
      return `knocked: ${membersInWords(happening.members)}`;
    case "part-replaced":
      return `replaced: ${membersInWords(happening.members)}`;
    case "powered-on":
      return "powered on";
    case "skimmed":
      return "the bed, skimmed";
    case "homed":
    case "transported":
      return happening.kind;
  }
}

/** "the right end of the beam 1.89 mm to the front": what a move moved, how far and which way, as the hand saw it. */
function movedInWords(adjuster: Adjuster, amount: number): string {
  const { kind, moves, words, unit } = adjuster;
  if (kind !== "add") return words;
  if (adjuster.id.startsWith("steps."))
    return `steps per mm of ${adjuster.id.slice(-1).toUpperCase()} times ${formatTrimmed(stepsFactor(amount), 5)}`;
  const way = directionOf(adjuster, amount);
  if (moves === null || way === null) return `${words}: ${amount > 0 ? "+" : ""}${formatTrimmed(amount, 3)} ${unit}`;
  return `${moves.words} ${formatTrimmed(handWayMm(moves, amount), 2)} mm ${way}`;
}

function membersInWords(members: readonly string[]): string {
  return members.length === 0 ? "the whole machine" : members.join(", ");
}
