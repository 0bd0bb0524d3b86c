import type { EventKind } from "../logbook/events.ts";

/** An owner may do everything; a helper may read, measure and tick. */
export type Role = "owner" | "helper";

/**
 * Who may add which events. A helper adds readings and what goes with taking them, what happens to the machine, moves
 * made, notes and photographs; what the machine is and what is wanted of it is the owner's.
 */
export const leastRole: Readonly<Partial<Record<EventKind, Role>>> = {
  "machine-described": "owner",
  "machine-renamed": "owner",
  "machine-set-aside": "owner",
  "machine-brought-back": "owner",
  "coordinates-set": "owner",
  "instrument-added": "helper",
  "object-added": "helper",
  "run-begun": "helper",
  "reading-taken": "helper",
  "reading-withdrawn": "helper",
  "reading-restored": "helper",
  "run-withdrawn": "helper",
  "run-restored": "helper",
  "run-reinterpreted": "helper",
  homed: "helper",
  "powered-on": "helper",
  knocked: "helper",
  transported: "helper",
  "part-replaced": "helper",
  "move-made": "helper",
  "move-undone": "helper",
  "happening-withdrawn": "helper",
  skimmed: "helper",
  "work-chosen": "owner",
  "demand-set": "owner",
  "demand-limit-set": "owner",
  "skim-decided": "owner",
  "stock-set": "owner",
  "adjuster-locked": "owner",
  "adjuster-unlocked": "owner",
  "adjuster-changed": "owner",
  "limit-set": "owner",
  "prior-set": "owner",
  "note-added": "helper",
  "photograph-added": "helper",
};

/** A kind that nobody has decided about is the owner's. */
export function mayAdd(role: Role, kind: EventKind): boolean {
  return role === "owner" || leastRole[kind] === "helper";
}
