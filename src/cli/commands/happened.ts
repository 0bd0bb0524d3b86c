import { sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { findingById, findings } from "../../core/findings/catalogue.ts";
import { findingUnitOf } from "../../core/findings/finding.ts";
import { adjustersOf } from "../../core/machine/adjusters.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say } from "../terminal.ts";
import { splitPair } from "./create.ts";

export interface HappenedOptions {
  readonly member?: readonly string[];
  readonly amount?: string;
  readonly note?: string;
  readonly by?: string;
  readonly at?: string;
}

const plainKinds = ["homed", "powered-on", "skimmed", "transported", "knocked", "part-replaced"] as const;

/** Something happened to the machine: it was homed, knocked, moved at one of its adjusters, skimmed … */
export function happened(file: string, what: string, options: HappenedOptions): number {
  const session = openLogbook(file);
  const at = options.at === undefined ? undefined : Date.parse(options.at);
  if (at !== undefined && Number.isNaN(at))
    throw new BadInput([
      refusal("word-form", {}, { word: options.at ?? "", of: "--at", expected: "2026-03-14T16:22:05+01:00" }),
    ]);
  const stamp = new Stamp(hereAndNow, options.by, at);
  const event = eventFor(
    stamp,
    what,
    options,
    adjustersOf(session.machine).map(({ id }) => id),
  );
  accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  say(`Noted: ${what}. What readings before it say now counts only as far as this has not touched it.`);
  return 0;
}

function eventFor(stamp: Stamp, what: string, options: HappenedOptions, adjusters: readonly string[]): LogEvent {
  const note = options.note === undefined ? {} : { note: options.note };
  const members = options.member === undefined ? {} : { members: options.member };
  if (what === "homed" || what === "powered-on") return stamp.event(what, {} as never);
  if (what === "transported") return stamp.event(what, note as never);
  // The cutter decides how much comes off, so a skim has no amount and is no move, by whichever name it is noted.
  if (what === "skimmed" || what === "bed.skim") return stamp.event("skimmed", note as never);
  if (what === "knocked" || what === "part-replaced") return stamp.event(what, { ...members, ...note } as never);
  if (adjusters.includes(what)) {
    const amount = Number((options.amount ?? "1").replace(",", ".").replace("−", "-"));
    if (!Number.isFinite(amount))
      throw new BadInput([refusal("word-form", {}, { word: options.amount ?? "", of: "--amount", expected: "0.29" })]);
    return stamp.event("move-made", { adjuster: what, amount, ...note } as never);
  }
  const listed = [...plainKinds, ...adjusters];
  throw new BadInput([
    refusal(
      "word-unknown",
      {},
      { word: what, of: "what happened", listed: listed.join(", "), meant: nearestWord(what, listed) ?? "" },
    ),
  ]);
}

/** The user's own limit for a finding; "none" goes back to what is usual. */
export function setLimit(file: string, id: string, value: string, options: { by?: string }): number {
  const session = openLogbook(file);
  const finding = findingById(id);
  if (!finding) {
    const ids = findings.map((candidate) => candidate.id);
    throw new BadInput([
      refusal("finding-unknown-here", {}, { finding: id, listed: ids.join(", "), meant: nearestWord(id, ids) ?? "" }),
    ]);
  }
  const limit = value === "none" ? null : Number(value.replace(",", "."));
  if (limit !== null && !(limit > 0))
    throw new BadInput([
      refusal("word-form", {}, { word: value, of: "a limit", expected: "a number above 0, or none" }),
    ]);
  const event = new Stamp(hereAndNow, options.by).event("limit-set", {
    finding: id,
    limit,
    unit: findingUnitOf(finding),
  } as never);
  accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  say(
    limit === null
      ? `${finding.title} is judged by what is usual again.`
      : `${finding.title} is judged by ${limit} ${finding.unit}.`,
  );
  return 0;
}

/** The user's own axes and zero: "x=X+0 y=Y+0 z=Z-70" maps each of ours to theirs, direction and where their zero lies. */
export function setCoordinates(
  file: string,
  pairs: readonly string[],
  options: { tried?: boolean; by?: string },
): number {
  const session = openLogbook(file);
  const axes = Object.fromEntries(
    pairs.map((pair) => {
      const [ours, theirs] = splitPair(pair, "an axis", "x=X+0, y=Y-500 …");
      const match = /^([A-Za-z]\w*)([+-])(-?[\d.]+)$/.exec(theirs);
      if (!match)
        throw new BadInput([
          refusal(
            "word-form",
            {},
            {
              word: pair,
              of: "an axis",
              expected: "x=X+0: their name, + or − for the direction, and where their zero lies in ours",
            },
          ),
        ]);
      return [ours, { named: match[1], direction: match[2] === "+" ? 1 : -1, zeroMm: Number(match[3]) }];
    }),
  );
  const event = new Stamp(hereAndNow, options.by).event("coordinates-set", {
    axes,
    tried: options.tried ?? false,
  } as never);
  accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  say(
    options.tried
      ? "Stations are shown in your coordinates."
      : "Stations are shown in your coordinates. Try them by one move before the first powered check, then give --tried.",
  );
  return 0;
}
