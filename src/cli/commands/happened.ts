import { type Session, sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { numberOrNull } from "../../app/typed-number.ts";
import { type Diagnostic, refusal } from "../../core/base/diagnostic.ts";
import { findingsOf } from "../../core/findings/catalogue.ts";
import { findingUnitOf } from "../../core/findings/finding.ts";
import type { Adjuster } from "../../core/machine/adjusters/adjuster.ts";
import { adjustersOf } from "../../core/machine/adjusters/catalogue.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { findingNamed } from "../named-finding.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, wrap } from "../terminal.ts";
import { momentFrom, numberFrom, pairFrom } from "../typed-words.ts";

export interface HappenedOptions {
  readonly member?: readonly string[];
  readonly amount?: string;
  readonly note?: string;
  readonly by?: string;
  readonly at?: string;
}

/** The bed was skimmed by the machine itself. */
export function noteSkim(
  file: string,
  session: Session,
  options: { readonly note?: string; readonly at?: string; readonly by?: string },
): number {
  const stamp = new Stamp(hereAndNow, options.by, options.at === undefined ? undefined : momentFrom(options.at));
  const note = options.note === undefined ? {} : { note: options.note };
  const event = stamp.event("skimmed", note as never);
  accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  say("Noted: the bed is skimmed. Its surface is what the machine cut it to.");
  return 0;
}

const plainKinds = ["homed", "powered-on", "skimmed", "transported", "knocked", "part-replaced"] as const;

/** Something happened to the machine: it was homed, knocked, moved at one of its adjusters, skimmed … */
export function happened(file: string, what: string, options: HappenedOptions): number {
  const session = openLogbook(file);
  const stamp = new Stamp(hereAndNow, options.by, options.at === undefined ? undefined : momentFrom(options.at));
  const event = eventFor(stamp, what, options, adjustersOf(session.machine));
  accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  const by = "amount" in event && options.amount !== undefined ? ` by ${options.amount}` : "";
  say(wrap(`Noted: ${what}${by}. Readings from before it still count, but not for what this has changed.`));
  return 0;
}

function eventFor(stamp: Stamp, what: string, options: HappenedOptions, adjusters: readonly Adjuster[]): LogEvent {
  const note = options.note === undefined ? {} : { note: options.note };
  const members = options.member === undefined ? {} : { members: options.member };
  if (what === "homed" || what === "powered-on") return stamp.event(what, {} as never);
  if (what === "transported") return stamp.event(what, note as never);
  // The cutter decides how much comes off, so a skim has no amount and is no move, by whichever name it is noted.
  if (what === "skimmed" || what === "bed.skim") return stamp.event("skimmed", note as never);
  if (what === "part-replaced" && options.member === undefined) throw new BadInput([membersMissing()]);
  if (what === "knocked" || what === "part-replaced") return stamp.event(what, { ...members, ...note } as never);
  const adjuster = adjusters.find(({ id }) => id === what);
  if (adjuster)
    return stamp.event("move-made", { adjuster: what, amount: amountOf(adjuster, options), ...note } as never);
  const listed: string[] = [...plainKinds, ...adjusters.filter(({ kind }) => kind !== "skim").map(({ id }) => id)];
  throw new BadInput([
    refusal(
      "word-unknown",
      {},
      { word: what, of: "what happened", listed: listed.join(", "), meant: nearestWord(what, listed) ?? "" },
    ),
  ]);
}

function membersMissing(): Diagnostic {
  const expected = "--member with one of bed, rails, beam, carriage, slide, spindle, frame, bridge, table";
  const data = { reason: "nothing says which part was replaced", expected, help: "kilter happened --help" };
  return refusal("command-misused", {}, data);
}

/** What is taken up or set anew has no amount that counts; anything else was moved by some amount, and only its mover knows it. */
function amountOf({ id, kind, unit }: Adjuster, { amount }: HappenedOptions): number {
  if (amount !== undefined) return numberFrom(amount, "--amount", "a number such as 0.29 or −0.1");
  if (kind === "assign") return 1;
  throw new BadInput([refusal("amount-missing", {}, { adjuster: id, unit })]);
}

/** The user's own limit for a finding; "none" goes back to what is usual. */
export function setLimit(file: string, text: string, value: string, options: { by?: string }): number {
  const session = openLogbook(file);
  const finding = findingNamed(findingsOf(session.machine), text);
  const limit = value === "none" ? null : (numberOrNull(value) ?? 0);
  if (limit !== null && !(limit > 0))
    throw new BadInput([
      refusal("word-form", {}, { word: value, of: "a limit", expected: "a number above 0, or none" }),
    ]);
  const event = new Stamp(hereAndNow, options.by).event("limit-set", {
    finding: finding.id,
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
      const [ours, theirs] = pairFrom(pair, "an axis", "x=X+0, y=Y-500 …");
      const match = /^([A-Za-z]\w*)([+\-−])([-−]?[\d.,]+)$/.exec(theirs);
      const zeroMm = numberOrNull(match?.[3] ?? "");
      if (!match || zeroMm === null)
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
      return [ours, { named: match[1], direction: match[2] === "+" ? 1 : -1, zeroMm }];
    }),
  );
  if (Object.keys(axes).sort().join() !== "x,y,z") {
    const data = {
      word: pairs.join(" "),
      of: "a set of axes",
      expected: "x, y and z, each once, as x=X+0 y=Y+0 z=Z-70",
    };
    throw new BadInput([refusal("word-form", {}, data)]);
  }
  const event = new Stamp(hereAndNow, options.by).event("coordinates-set", {
    axes,
    tried: options.tried ?? false,
  } as never);
  accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  say(
    wrap(
      options.tried
        ? "Stations are shown in your coordinates."
        : "Stations are shown in your coordinates. Try them by one move before the first powered check, then give --tried.",
    ),
  );
  return 0;
}
