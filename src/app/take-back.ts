import { refusal } from "../core/base/diagnostic.ts";
import { formatTrimmed } from "../core/base/number-format.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import type { Happening } from "../core/fit/timeline.ts";
import { adjustersOf } from "../core/machine/adjusters/catalogue.ts";
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

/** The event that takes back what an id, or an ending that only one has, names. */
export function takeBack(
  session: Session,
  stamp: Stamp,
  text: string,
  because: string,
): Outcome<{ readonly event: LogEvent; readonly taken: Takeable }> {
  const named = takeableFrom(session).filter(({ happening }) => text !== "" && happening.id.endsWith(text));
  if (named.length === 0) return refuse(refusal("happening-not-there", {}, { text }));
  if (named.length > 1) return refuse(refusal("happening-ambiguous", {}, { text, count: named.length }));
  const [taken] = named;
  const { kind, id } = taken.happening;
  const event =
    kind === "moved"
      ? stamp.event("move-undone", { move: id, because } as never)
      : stamp.event("happening-withdrawn", { happening: id, because } as never);
  return succeed({ event, taken });
}

export function happeningInWords(machine: Machine, happening: Happening): string {
  switch (happening.kind) {
    case "moved": {
      const adjuster = adjustersOf(machine).find(({ id }) => id === happening.adjuster);
      if (adjuster === undefined || adjuster.kind === "assign") return adjuster?.words ?? happening.adjuster;
      const sign = happening.amount > 0 ? "+" : "";
      return `${adjuster.words}: ${sign}${formatTrimmed(happening.amount, 4)} ${adjuster.unit}`;
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

function membersInWords(members: readonly string[]): string {
  return members.length === 0 ? "the whole machine" : members.join(", ");
}
