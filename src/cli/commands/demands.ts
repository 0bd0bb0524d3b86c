import { assess } from "../../app/assess.ts";
import { type DemandDraft, dropDemand, limitDemand, ownDemand, usualLimit } from "../../app/demand-changes.ts";
import { groundsOfDemand } from "../../app/demand-grounds.ts";
import { kindsOfWork, usualKindOfWork } from "../../app/kinds-of-work.ts";
import { demandResults } from "../../app/plan-for.ts";
import { type Session, sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { numberOrNull } from "../../app/typed-number.ts";
import { type OpenDemand, openDemandAsJson, whatSettles } from "../../app/what-settles.ts";
import { type StatedDemand, statedDemands } from "../../app/wished-demands.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { formatTrimmed } from "../../core/base/number-format.ts";
import { unitFromSpelling, unitsOfQuantity } from "../../core/base/units.ts";
import { demandKinds } from "../../core/work/catalogue.ts";
import type { DemandKind } from "../../core/work/demand-kind.ts";
import type { DemandResult } from "../../core/work/demand-result.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { sayCarriers } from "../carrier-lines.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { demandNamed } from "../named-demand.ts";
import { sayWhatSettles } from "../next-lines.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, sayJson, table, toned, wrap } from "../terminal.ts";
import { numbersFrom, pairFrom } from "../typed-words.ts";
import { sayResults } from "./work.ts";

export interface DemandsOptions {
  readonly limit?: string;
  readonly unit?: string;
  readonly size?: readonly string[];
  readonly middle?: string;
  readonly name?: string;
  readonly json?: boolean;
  readonly by?: string;
}

const actions = ["choose", "set", "limit", "drop", "explain"] as const;

/** What the work asks of the machine: shown, chosen, stated, limited, dropped, and one of it with its grounds. */
export function demands(
  file: string,
  action: string | undefined,
  words: readonly string[],
  options: DemandsOptions,
): number {
  const session = openLogbook(file);
  if (action === undefined) {
    const assessment = assess(session.timeline);
    const { results } = demandResults(assessment);
    show(session, options.json ?? false, { results, open: whatSettles(assessment, results) });
    return 0;
  }
  if (!(actions as readonly string[]).includes(action)) {
    const data = { word: action, of: "what is to be done with demands", listed: actions.join(", ") };
    throw new BadInput([refusal("word-unknown", {}, { ...data, meant: nearestWord(action, actions) ?? "" })]);
  }
  const [first, second] = words;
  if (first === undefined || (action === "limit" && second === undefined)) {
    const reason = `${action} lacks ${first === undefined ? wordAfter[action as (typeof actions)[number]] : "a limit"}`;
    throw new BadInput([refusal("command-misused", {}, { reason, expected: usage, help: "kilter demands --help" })]);
  }
  if (action === "explain") {
    explain(session, first, options.json ?? false);
    return 0;
  }
  const stamp = new Stamp(hereAndNow, options.by);
  const event =
    action === "choose"
      ? choose(stamp, first)
      : action === "set"
        ? set(session, stamp, first, options)
        : action === "limit"
          ? limit(session, stamp, first, second, options)
          : drop(session, stamp, first);
  const next = accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  show(next, options.json ?? false);
  return 0;
}

const wordAfter = {
  choose: "a kind of work",
  set: "a kind of demand",
  limit: "a demand",
  drop: "a demand",
  explain: "a demand",
} as const;
const usage = "choose KIND-OF-WORK; set KIND --limit 0.2; limit DEMAND 0.2; drop DEMAND; or explain DEMAND";

function choose(stamp: Stamp, kindOfWork: string): LogEvent {
  if (kindOfWork === "usual") return stamp.event("work-chosen", { kindOfWork: null } as never);
  if (kindsOfWork.has(kindOfWork)) return stamp.event("work-chosen", { kindOfWork } as never);
  const listed = [...kindsOfWork.keys()];
  const data = { word: kindOfWork, of: "a kind of work", listed: listed.join(", ") };
  throw new BadInput([refusal("word-unknown", {}, { ...data, meant: nearestWord(kindOfWork, listed) ?? "" })]);
}

/** A demand of the user's own, named after itself where they give it no name. */
function set(session: Session, stamp: Stamp, text: string, options: DemandsOptions): LogEvent {
  const kind = demandKinds.find(({ id }) => id === text);
  if (kind === undefined) {
    const listed = demandKinds.map(({ id }) => id);
    const data = { kind: text, listed: listed.join(", "), meant: nearestWord(text, listed) ?? "" };
    throw new BadInput([refusal("demand-kind-unknown", {}, data)]);
  }
  if (options.limit === undefined) {
    const reason = `nothing says how far out ${kind.words} may be`;
    const expected = `--limit with a number of ${kind.unit}`;
    throw new BadInput([refusal("command-misused", {}, { reason, expected, help: "kilter demands --help" })]);
  }
  const limited = { limit: limitFrom(options.limit), unit: unitFrom(options.unit, kind) };
  const sizes = Object.fromEntries((options.size ?? []).map((pair) => sizeFromPair(kind, pair)));
  const [x, y] = options.middle === undefined ? [] : numbersFrom(options.middle, 2, "--middle", "300x250");
  const place = x === undefined || y === undefined ? {} : { place: { x, y } };
  const draft = accepted(ownDemand(session.machine, { kind: kind.id, sizes, ...place }, limited, options.name));
  return eventOf(stamp, draft);
}

function eventOf(stamp: Stamp, { kind, ...payload }: DemandDraft): LogEvent {
  return stamp.event(kind, payload as never);
}

function statedBy({ machine, timeline }: Session): readonly StatedDemand[] {
  return statedDemands(machine, timeline.wishes);
}

/** An own limit for a demand of the kind of work, or another for one of the user's own; "usual" goes back. */
function limit(session: Session, stamp: Stamp, text: string, value: string, options: DemandsOptions): LogEvent {
  const stated = demandNamed(statedBy(session), text);
  const { demand, name } = stated;
  if (name === null && value === "usual") return eventOf(stamp, usualLimit(stated));
  const kind = demandKinds.find(({ id }) => id === demand.kind) as DemandKind;
  const limited = { limit: limitFrom(value), unit: unitFrom(options.unit, kind) };
  return eventOf(stamp, limitDemand(session.timeline.wishes, stated, limited));
}

function drop(session: Session, stamp: Stamp, text: string): LogEvent {
  return eventOf(stamp, dropDemand(demandNamed(statedBy(session), text)));
}

function limitFrom(text: string): number {
  const value = numberOrNull(text);
  if (value !== null && value > 0) return value;
  throw new BadInput([refusal("word-form", {}, { word: text, of: "a limit", expected: "a number above 0" })]);
}

function unitFrom(text: string | undefined, kind: DemandKind): string {
  if (text === undefined) return kind.unit;
  const quantity = kind.unit === "mm" ? "length" : "slope";
  const unit = unitFromSpelling(text, quantity);
  if (unit?.quantity === quantity) return unit.id;
  const expected = unitsOfQuantity(quantity)
    .map(({ id }) => id)
    .join(", ");
  throw new BadInput([refusal("unit-not-known", {}, { text, expected })]);
}

/** "width=400" for "widthMm=400": the unit behind a size's name may be left out. */
function sizeFromPair({ sizes }: DemandKind, pair: string): [string, number | string] {
  const [name, text] = pairFrom(pair, "--size", "width=400");
  const key = sizes.find(({ key }) => key === name || key.replace(/Mm$|Degrees$/, "") === name)?.key ?? name;
  return [key, numberOrNull(text) ?? text];
}

/** One demand: how it stands, what that means for the work, where its doubt comes from, and what would settle it. */
function explain(session: Session, text: string, asJson: boolean): void {
  const asked = statedBy(session).filter(({ dropped }) => !dropped);
  const { demand } = demandNamed(asked, text);
  const assessment = assess(session.timeline);
  const result = demandResults(assessment).results.find((one) => one.demand.id === demand.id) as DemandResult;
  const { meaning, doubtFrom } = groundsOfDemand(assessment, result);
  const open = whatSettles(assessment, [result]);
  if (asJson) {
    const { id, kind, title, limit, unit } = demand;
    const { value, low, high, probability, verdict } = result;
    const stands = { value, low, high, probability, verdict };
    sayJson({
      demand: { id, kind, title, limit, unit, ...stands },
      meaning,
      doubtFrom,
      settling: open.map(openDemandAsJson),
    });
    return;
  }
  say(toned(demand.title, "strong"));
  sayResults([result], null);
  say(wrap(meaning));
  if (doubtFrom.length > 0) {
    say();
    say(toned("Where its doubt comes from", "strong"));
    sayCarriers(doubtFrom);
  }
  sayWhatSettles(open);
}

/** What is known of the demands, and what would settle those of which too little is. */
interface Judged {
  readonly results: readonly DemandResult[];
  readonly open: readonly OpenDemand[];
}

/** @param judged left out where demands were changed: the list alone is the answer then */
function show(session: Session, asJson: boolean, judged: Judged | null = null): void {
  const { wishes } = session.timeline;
  const work = (wishes.kindOfWork === null ? undefined : kindsOfWork.get(wishes.kindOfWork)) ?? usualKindOfWork;
  const stated = statedBy(session);
  const resultOf = (id: string) => judged?.results.find(({ demand }) => demand.id === id) ?? null;
  if (asJson) {
    const demands = stated.map(({ demand: { id, kind, title, limit, unit }, ...rest }) => {
      const verdict = rest.dropped ? null : (resultOf(id)?.verdict ?? null);
      return { id, kind, title, limit, unit, ...rest, ...(judged && { verdict }) };
    });
    sayJson({ kindOfWork: work.id, demands, ...(judged && { settling: judged.open.map(openDemandAsJson) }) });
    return;
  }
  say(toned(wrap(`${work.name}: ${work.about}`), "strong"));
  say(
    table(
      [
        { head: "demand", gives: true },
        { head: "what it is", gives: true },
        { head: "limit", right: true },
        { head: "in" },
        ...(judged ? [{ head: "stands" }] : []),
        { head: "" },
      ],
      stated.map(({ demand, name, usualLimit, dropped }) => [
        name ?? demand.id,
        demand.title,
        dropped ? "–" : formatTrimmed(demand.limit, 4),
        demand.unit,
        ...(judged ? [dropped ? "" : (resultOf(demand.id)?.verdict ?? "")] : []),
        name !== null
          ? "yours"
          : dropped
            ? "dropped"
            : demand.limit === usualLimit
              ? ""
              : `usual ${formatTrimmed(usualLimit ?? 0, 4)}`,
      ]),
    ),
  );
  if (judged) sayWhatSettles(judged.open);
}
