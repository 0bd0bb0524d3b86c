import { refusal } from "../core/base/diagnostic.ts";
import type { Happening, MoveGauge } from "../core/fit/timeline.ts";
import { eventsOf, type Timed } from "./event-order.ts";
import type { EventOf } from "./events.ts";
import type { Known } from "./known.ts";
import { nearestWord } from "./nearest-word.ts";
import { entryOfPart } from "./replay-readings.ts";
import { type RunContext, runUnknown } from "./replay-runs.ts";
import type { Report } from "./report.ts";

/** What changes the machine, a move excepted: that has its own way of being taken back. */
const plainKinds = ["homed", "powered-on", "skimmed", "knocked", "transported", "part-replaced"] as const;

/** What changed the machine between readings, in order. What was entered by mistake has never been. */
export function happeningsFromEvents(
  ordered: readonly Timed[],
  contexts: ReadonlyMap<string, RunContext>,
  known: Known,
  report: Report,
): readonly Happening[] {
  const mistaken = mistakenHappenings(ordered, report);
  const happenings: Happening[] = [];
  for (const { event, at } of eventsOf(ordered, "move-made", ...plainKinds)) {
    const { id } = event;
    const happening = event.kind === "move-made" ? moveFrom(event, at, contexts, known, report) : plainFrom(event, at);
    if (!mistaken.has(id)) happenings.push(happening);
  }
  return happenings;
}

/** Ids of moves that were undone and of happenings that were withdrawn. */
function mistakenHappenings(ordered: readonly Timed[], report: Report): ReadonlySet<string> {
  const idsOf = (...kinds: Parameters<typeof eventsOf>[1][]) =>
    new Set(eventsOf(ordered, ...kinds).map(({ event }) => event.id));
  const [moves, happenings] = [idsOf("move-made"), idsOf(...plainKinds)];
  const mistaken = new Set<string>();
  for (const { event } of eventsOf(ordered, "move-undone", "happening-withdrawn")) {
    if (event.kind === "move-undone") {
      if (moves.has(event.move)) mistaken.add(event.move);
      else report.add(event, [refusal("move-unknown", { field: "move" }, { move: event.move })]);
    } else if (happenings.has(event.happening)) mistaken.add(event.happening);
    else {
      const data = { happening: event.happening, isMove: moves.has(event.happening) ? 1 : 0 };
      report.add(event, [refusal("happening-unknown", { field: "happening" }, data)]);
    }
  }
  return mistaken;
}

function plainFrom(event: EventOf<(typeof plainKinds)[number]>, at: number): Happening {
  const { id, kind } = event;
  if (kind === "knocked" || kind === "part-replaced") return { kind, id, at, members: event.members ?? [] };
  return { kind, id, at };
}

function moveFrom(
  event: EventOf<"move-made">,
  at: number,
  contexts: ReadonlyMap<string, RunContext>,
  known: Known,
  report: Report,
): Happening {
  const { id, adjuster, amount, planned } = event;
  // A skim is an event of its own kind, not a move by some amount.
  const movable = [...known.adjusters].flatMap(([name, { kind }]) => (kind === "skim" ? [] : [name]));
  if (!movable.includes(adjuster)) {
    const data = { adjuster, meant: nearestWord(adjuster, movable) ?? "" };
    report.add(event, [refusal("adjuster-unknown", { field: "adjuster" }, data)]);
  }
  const gauge = gaugeFrom(event, contexts, known, report);
  return {
    kind: "moved",
    id,
    at,
    adjuster,
    amount,
    ...(planned !== undefined && { planned }),
    ...(gauge !== null && { gauge }),
  };
}

/** What the gauge showed, held against its run as the run's own readings are. */
function gaugeFrom(
  event: EventOf<"move-made">,
  contexts: ReadonlyMap<string, RunContext>,
  known: Known,
  report: Report,
): MoveGauge | null {
  const { gauge } = event;
  if (gauge === undefined) return null;
  const { run, station, unit } = gauge;
  const context = contexts.get(run);
  if (context === undefined) {
    report.add(event, [runUnknown(run, contexts)], "gauge");
    return null;
  }
  if (context.check === null) return null;
  const misplaced = known.stationProblems(context.run, context.instrument)(station);
  if (misplaced !== null) report.add(event, [misplaced], "gauge");
  const entryOf = (part: "loose" | "nipped" | "final") => {
    const forms = gauge[part];
    if (forms === undefined) return null;
    const { entry, problems } = entryOfPart(forms, unit, context, known);
    report.add(event, problems, `gauge.${part}`);
    return entry;
  };
  return { run, station, loose: entryOf("loose"), nipped: entryOf("nipped"), final: entryOf("final") };
}
