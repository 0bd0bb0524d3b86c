import type { Assessment } from "../../app/assess.ts";
import { headlineOf } from "../../core/findings/headline.ts";
import { assessmentOf, hereAndNow, isDemonstration, isHeld, labelOf, plannedThings } from "./held.ts";
import { nextThing } from "./next-thing.ts";
import type { MachineCard } from "./protocol.ts";
import { smallPlan } from "./small-plan.ts";
import { toldFrom } from "./told.ts";

const DAY = 86_400_000;

/** A machine in the list: a small plan, one sentence of how it stands, and the next thing to do. */
export function machineCard(machine: string): MachineCard | null {
  if (!isHeld(machine)) return null;
  const label = labelOf(machine);
  const assessed = assessmentOf(machine);
  const common = { id: machine, ...label, demonstration: isDemonstration(machine) };
  if (!assessed.ok) {
    const refused = toldFrom(assessed.diagnostics);
    return { ...common, sentence: "Its logbook contradicts itself.", measured: "", plan: "", next: null, refused };
  }
  const { timeline, findings } = assessed.value;
  const read = timeline.readings.length > 0;
  return {
    ...common,
    sentence: read ? headlineOf(findings) : "Nothing has been measured yet.",
    measured: read ? `Last read ${sinceInWords(assessed.value)}.` : "",
    plan: smallPlan(assessed.value.machine, 132),
    next: nextThing(assessed.value, plannedThings(machine)),
    refused: [],
  };
}

/** "today", "yesterday", "12 days ago", by the days of this place. */
function sinceInWords({ timeline }: Assessment): string {
  const last = timeline.readings.reduce((latest, { at }) => Math.max(latest, at), 0);
  const day = (at: number) => Math.floor((at + 60_000 * hereAndNow.offsetMinutes(at)) / DAY);
  const days = day(hereAndNow.nowMs()) - day(last);
  if (days < 0) return `on ${new Date(last).toISOString().slice(0, 10)}`;
  return days === 0 ? "today" : days === 1 ? "yesterday" : `${days} days ago`;
}
