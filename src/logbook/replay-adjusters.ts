import { type Diagnostic, refusal } from "../core/base/diagnostic.ts";
import type { Happening } from "../core/fit/timeline.ts";
import { type AdjusterChange, takesScrew } from "../core/machine/adjusters/change.ts";
import { eventsOf, type Timed } from "./event-order.ts";
import type { EventOf } from "./events.ts";
import type { Known } from "./known.ts";
import { nearestWord } from "./nearest-word.ts";
import type { Report } from "./report.ts";

/** Adjusters that must stay as they are, with the reason. */
export function locksFromEvents(ordered: readonly Timed[], known: Known, report: Report): ReadonlyMap<string, string> {
  const locks = new Map<string, string>();
  for (const { event } of eventsOf(ordered, "adjuster-locked", "adjuster-unlocked")) {
    if (!isKnown(event, known, report)) continue;
    if (event.kind === "adjuster-locked") locks.set(event.adjuster, event.because);
    else locks.delete(event.adjuster);
  }
  return locks;
}

/** The user's own figures. The latest event counts whole; one that states nothing goes back to what is usual. */
export function adjusterChangesFromEvents(
  ordered: readonly Timed[],
  known: Known,
  report: Report,
): ReadonlyMap<string, AdjusterChange> {
  const changes = new Map<string, AdjusterChange>();
  for (const { event } of eventsOf(ordered, "adjuster-changed")) {
    if (!isKnown(event, known, report)) continue;
    const { adjuster, range, standardUncertainty, minutes, available, screwPitchMm } = event;
    report.add(event, [...rangeProblems(event, known), ...screwProblems(event, known)]);
    const change: AdjusterChange = {
      ...(range !== undefined && { range: [range.from, range.to] as const }),
      ...(standardUncertainty !== undefined && { sd: standardUncertainty }),
      ...(minutes !== undefined && { minutes }),
      ...(available !== undefined && { available }),
      ...(screwPitchMm !== undefined && { screwPitchMm }),
    };
    if (Object.keys(change).length > 0) changes.set(adjuster, change);
    else changes.delete(adjuster);
  }
  return changes;
}

/**
 * Leaves that are at hand: those of the latest statement, less what moves have laid since, with what they took out. Null
 * where none was stated: nobody then knows how often there is a leaf of a thickness.
 */
export function stockFromEvents(ordered: readonly Timed[], happenings: readonly Happening[]): readonly number[] | null {
  const made = new Set(happenings.map(({ id }) => id));
  let stock: number[] | null = null;
  for (const { event } of eventsOf(ordered, "stock-set", "move-made")) {
    if (event.kind === "stock-set") stock = event.leavesMm && [...event.leavesMm];
    else if (stock !== null && event.leaves !== undefined && made.has(event.id)) {
      for (const leaf of event.leaves.laidMm) {
        const at = stock.findIndex((other) => Math.abs(other - leaf) < 1e-6);
        if (at >= 0) stock.splice(at, 1);
      }
      stock.push(...event.leaves.takenOutMm);
    }
  }
  return stock?.sort((a, b) => b - a) ?? null;
}

function isKnown(
  event: EventOf<"adjuster-locked" | "adjuster-unlocked" | "adjuster-changed">,
  known: Known,
  report: Report,
): boolean {
  const { adjuster } = event;
  if (known.adjusters.has(adjuster)) return true;
  const data = { adjuster, meant: nearestWord(adjuster, known.adjusters.keys()) ?? "" };
  report.add(event, [refusal("adjuster-unknown", { field: "adjuster" }, data)]);
  return false;
}

function screwProblems({ adjuster, screwPitchMm }: EventOf<"adjuster-changed">, known: Known): readonly Diagnostic[] {
  if (screwPitchMm === undefined || takesScrew(known.adjusters.get(adjuster)!)) return [];
  return [refusal("adjuster-without-screw", { field: "screwPitchMm" }, { adjuster })];
}

/** Packing lies or does not; everything else can also be left where it stands. */
function rangeProblems({ adjuster, range }: EventOf<"adjuster-changed">, known: Known): readonly Diagnostic[] {
  if (range === undefined) return [];
  const { packing } = known.adjusters.get(adjuster)!;
  const { from, to } = range;
  const fits = packing === "one place" ? 0 <= from && from < to : from <= 0 && 0 <= to && from < to;
  if (fits) return [];
  const data = { from, to, packed: packing === "one place" ? 1 : 0 };
  return [refusal("adjuster-range-unfit", { field: "range" }, data)];
}
