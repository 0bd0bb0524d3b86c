import { type Assessment, assess } from "../../app/assess.ts";
import { newSession, type Session, sessionWith } from "../../app/session.ts";
import type { Surroundings } from "../../app/surroundings.ts";
import { invariant } from "../../core/base/invariant.ts";
import type { Outcome } from "../../core/base/outcome.ts";
import type { FindingResult } from "../../core/findings/evaluate.ts";
import type { Estimate } from "../../core/fit/estimate.ts";
import { eventsOf, inOrderOfTime } from "../../logbook/event-order.ts";
import type { LogEvent } from "../../logbook/events.ts";
import type { PlannedThings } from "./protocol-moves.ts";

/** One machine as it is held here: its events, and what they come to once somebody has asked. */
interface Held {
  demonstration: boolean;
  readonly events: Map<string, LogEvent>;
  session: Outcome<Session> | null;
  assessment: Assessment | null;
  /** What the findings were before the last events came, for whoever asks what is known better now. */
  before: readonly FindingResult[] | null;
  /** The last estimate, where it came to rest and only readings have come since: the next one starts there. */
  startFrom: Estimate | null;
  /** What the plan for it gives to do, and of how many events that was worked out. */
  planned: { readonly version: number; readonly things: PlannedThings } | null;
}

const machines = new Map<string, Held>();

/** Takes events in, each id once; true when something was new. */
export function addEvents(machine: string, events: readonly LogEvent[], demonstration?: boolean): boolean {
  let held = machines.get(machine);
  if (!held) {
    held = {
      demonstration: false,
      events: new Map(),
      session: null,
      assessment: null,
      before: null,
      startFrom: null,
      planned: null,
    };
    machines.set(machine, held);
  }
  if (demonstration !== undefined) held.demonstration = demonstration;
  const fresh = events.filter(({ id }) => !held.events.has(id));
  for (const event of fresh) held.events.set(event.id, event);
  if (fresh.length === 0) return false;
  if (held.assessment) {
    held.before = held.assessment.findings;
    const { estimate } = held.assessment;
    held.startFrom = estimate.converged ? estimate : null;
  }
  if (!fresh.every(({ kind }) => kind === "reading-taken" || kind === "run-begun")) held.startFrom = null;
  held.assessment = null;
  const grown = held.session?.ok ? sessionWith(held.session.value, fresh) : null;
  // Events of two devices come in any order: what contradicts now may be explained by what comes next.
  held.session = grown?.ok ? grown : null;
  return true;
}

export function forgetMachine(machine: string): void {
  machines.delete(machine);
}

export function heldMachines(): readonly string[] {
  return [...machines.keys()];
}

export function isHeld(machine: string): boolean {
  return machines.has(machine);
}

export function isDemonstration(machine: string): boolean {
  return machines.get(machine)?.demonstration ?? false;
}

export function eventsOfMachine(machine: string): readonly LogEvent[] {
  return [...(machines.get(machine)?.events.values() ?? [])];
}

/** Grows with every event: what was worked out for an earlier one is old. */
export function versionOf(machine: string): number {
  return machines.get(machine)?.events.size ?? 0;
}

/** Events from a version on, in the order in which they came here. */
export function eventsSince(machine: string, version: number): readonly LogEvent[] {
  return eventsOfMachine(machine).slice(version);
}

/** What the plan for a machine as it stands gives to do; null until somebody has had it worked out. */
export function plannedThings(machine: string): PlannedThings | null {
  const planned = machines.get(machine)?.planned;
  return planned?.version === versionOf(machine) ? planned.things : null;
}

export function keepPlanned(machine: string, version: number, things: PlannedThings): void {
  const held = machines.get(machine);
  if (held) held.planned = { version, things };
}

export function sessionOf(machine: string): Outcome<Session> {
  const held = machines.get(machine);
  invariant(held !== undefined, "a machine that is asked about is held");
  held.session ??= newSession("", [...held.events.values()]);
  return held.session;
}

/** What a machine's logbook comes to; kept until its next event. */
export function assessmentOf(machine: string): Outcome<Assessment> {
  const session = sessionOf(machine);
  if (!session.ok) return session;
  const held = machines.get(machine) as Held;
  held.assessment ??= assess(session.value.timeline, held.startFrom ?? undefined);
  return { ok: true, value: held.assessment, diagnostics: session.diagnostics };
}

export function findingsBefore(machine: string): readonly FindingResult[] | null {
  return machines.get(machine)?.before ?? null;
}

/** Name and whether it is set aside, without working anything out. */
export function labelOf(machine: string): { readonly name: string; readonly setAside: string | null } {
  const ordered = inOrderOfTime(eventsOfMachine(machine));
  const named = eventsOf(ordered, "machine-described", "machine-renamed").at(-1)?.event;
  const aside = eventsOf(ordered, "machine-set-aside", "machine-brought-back").at(-1)?.event;
  return {
    name: named === undefined ? "" : named.kind === "machine-renamed" ? named.name : named.machine.name,
    setAside: aside?.kind === "machine-set-aside" ? aside.because : null,
  };
}

/** Time and chance of this device. */
export const hereAndNow: Surroundings = {
  nowMs: () => Date.now(),
  offsetMinutes: (atMs) => -new Date(atMs).getTimezoneOffset(),
  randomBytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
};
