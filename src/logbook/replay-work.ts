import { refusal } from "../core/base/diagnostic.ts";
import { coreFromUnit, type UnitId, unitFromCore, unitOf, unitsOfQuantity } from "../core/base/units.ts";
import type { DemandKindId, DemandWish } from "../core/work/demand.ts";
import { eventsOf, type Timed } from "./event-order.ts";
import type { EventOf, LogEvent } from "./events.ts";
import type { Known } from "./known.ts";
import { nearestWord } from "./nearest-word.ts";
import type { Report } from "./report.ts";

/** The kind of work that was chosen last; null for the usual first one. */
export function kindOfWorkFromEvents(ordered: readonly Timed[], known: Known, report: Report): string | null {
  let chosen: string | null = null;
  for (const { event } of eventsOf(ordered, "work-chosen")) {
    const { kindOfWork } = event;
    if (kindOfWork === null || known.kindsOfWork.has(kindOfWork)) chosen = kindOfWork;
    else {
      const listed = [...known.kindsOfWork];
      const data = { kindOfWork, listed: listed.join(", "), meant: nearestWord(kindOfWork, listed) ?? "" };
      report.add(event, [refusal("kind-of-work-unknown", { field: "kindOfWork" }, data)]);
    }
  }
  return chosen;
}

/** The user's own demands by their names, limits in the kinds' units. The latest under a name counts; null drops it. */
export function demandsFromEvents(
  ordered: readonly Timed[],
  known: Known,
  report: Report,
): ReadonlyMap<string, DemandWish> {
  const stated = new Map<string, { readonly event: LogEvent; readonly wish: DemandWish }>();
  for (const { event } of eventsOf(ordered, "demand-set")) {
    stated.delete(event.name);
    const wish = event.demand && wishFrom(event, event.demand, known, report);
    if (wish !== null) stated.set(event.name, { event, wish });
  }
  // Only what still stands must have room on the machine as it is now described.
  for (const { event, wish } of stated.values()) report.add(event, known.demandProblems(wish), "demand");
  return new Map(Array.from(stated, ([name, { wish }]) => [name, wish]));
}

/** Own limits for demands of the kind of work, in the demands' units; null drops one. Left out, it is as usual again. */
export function demandLimitsFromEvents(
  ordered: readonly Timed[],
  known: Known,
  report: Report,
): ReadonlyMap<string, number | null> {
  const limits = new Map<string, number | null>();
  for (const { event } of eventsOf(ordered, "demand-limit-set")) {
    const { demand, limit, unit } = event;
    // A demand's id begins with its kind; which sizes stand behind it depends on the kind of work chosen at the time.
    const own = unitOfKind(demand.split(" ")[0], "demand", event, known, report);
    if (own === null) continue;
    if (limit === undefined) limits.delete(demand);
    else if (limit === null) limits.set(demand, null);
    else {
      const inUnit = limitInUnit(limit, unit ?? own, own, "unit", event, report);
      if (inUnit !== null) limits.set(demand, inUnit);
    }
  }
  return limits;
}

/** Whether the bed will be skimmed; null until it has been said. */
export function skimFromEvents(ordered: readonly Timed[]): boolean | null {
  return eventsOf(ordered, "skim-decided").at(-1)?.event.will ?? null;
}

function wishFrom(
  event: LogEvent,
  { kind, sizes = {}, place, limit, unit }: NonNullable<EventOf<"demand-set">["demand"]>,
  known: Known,
  report: Report,
): DemandWish | null {
  const own = unitOfKind(kind, "demand.kind", event, known, report);
  const inUnit = own && limitInUnit(limit, unit, own, "demand.unit", event, report);
  if (inUnit === null) return null;
  return { kind: kind as DemandKindId, sizes, ...(place !== undefined && { place }), limit: inUnit };
}

function unitOfKind(kind: string, field: string, event: LogEvent, known: Known, report: Report): UnitId | null {
  const unit = known.demandKinds.get(kind);
  if (unit !== undefined) return unit;
  const listed = [...known.demandKinds.keys()];
  const data = { kind, listed: listed.join(", "), meant: nearestWord(kind, listed) ?? "" };
  report.add(event, [refusal("demand-kind-unknown", { field }, data)]);
  return null;
}

function limitInUnit(
  limit: number,
  typed: UnitId,
  own: UnitId,
  field: string,
  event: LogEvent,
  report: Report,
): number | null {
  const { quantity } = unitOf(own);
  if (unitOf(typed).quantity === quantity) return unitFromCore(coreFromUnit(limit, typed), own);
  const expected = unitsOfQuantity(quantity)
    .map(({ id }) => id)
    .join(", ");
  const data = { text: typed, typed: unitOf(typed).quantity, asked: quantity, expected };
  report.add(event, [refusal("unit-of-other-quantity", { field }, data)]);
  return null;
}
