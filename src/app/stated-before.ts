import { refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { inOrderOfTime } from "../logbook/event-order.ts";
import type { EventOf, LogEvent } from "../logbook/events.ts";
import { nearestWord } from "../logbook/nearest-word.ts";
import type { Session } from "./session.ts";
import type { Stamp } from "./stamp.ts";

/** What is stated whole each time, so that the latest counts: the machine, and each tool by its id. */
type Statement = EventOf<"machine-described"> | EventOf<"instrument-added"> | EventOf<"object-added">;
type ToolStatement = Exclude<Statement, { kind: "machine-described" }>;

/** How a statement that counts is taken back: by what stood before it, or, of a tool that was new, by putting it away. */
export interface WayBack {
  /** The statement that is taken back. */
  readonly id: string;
  readonly to: "before" | "away";
}

/**
 * Of the machine and of every tool the way back from what counts now. None where a description is the first, and none
 * where nothing but the name of the machine has changed.
 */
export function waysBack(events: readonly LogEvent[]): readonly WayBack[] {
  return [...statementsBySubject(events).values()].flatMap((statements): WayBack[] => {
    const [before, now] = [statements.at(-2), statements.at(-1) as Statement];
    if (before !== undefined) return saysTheSame(before, now) ? [] : [{ id: now.id, to: "before" }];
    return now.kind === "machine-described" || toolOf(now).putAway !== undefined ? [] : [{ id: now.id, to: "away" }];
  });
}

/** The event that takes a statement back. The machine keeps the name that it has. */
export function takeStatementBack(session: Session, stamp: Stamp, id: string, because: string): Outcome<LogEvent> {
  const { events } = session.logbook;
  const way = waysBack(events).find((one) => one.id === id);
  if (way === undefined) return refuse(refusal("happening-not-there", {}, { text: id }));
  const statements = [...statementsBySubject(events).values()].find((all) => all.at(-1)?.id === id) ?? [];
  const [before, now] = [statements.at(-2), statements.at(-1) as Statement];
  if (way.to === "away") return succeed(toolStated(stamp, now as ToolStatement, because));
  if (before?.kind === "machine-described") {
    const machine = { ...before.machine, name: session.timeline.machine.name };
    return succeed(stamp.event("machine-described", { machine } as never));
  }
  return succeed(toolStated(stamp, before as ToolStatement, toolOf(before as ToolStatement).putAway ?? null));
}

/** The event that puts a tool away, with why, or with null takes it out again; it stays what it was otherwise. */
export function putAway(session: Session, stamp: Stamp, tool: string, because: string | null): Outcome<LogEvent> {
  const stated = toolStatements(session.logbook.events);
  const now = stated.get(tool);
  if (now !== undefined) return succeed(toolStated(stamp, now, because));
  const data = { tool, listed: [...stated.keys()].join(", "), meant: nearestWord(tool, stated.keys()) ?? "" };
  return refuse(refusal("tool-not-there", {}, data));
}

/** What each tool's owner last stated of it, by the tool's id. */
export function toolStatements(events: readonly LogEvent[]): ReadonlyMap<string, ToolStatement> {
  const latest = [...statementsBySubject(events).values()].map((statements) => statements.at(-1) as Statement);
  return new Map(latest.flatMap((now) => (now.kind === "machine-described" ? [] : [[toolOf(now).id, now] as const])));
}

function statementsBySubject(events: readonly LogEvent[]): ReadonlyMap<string, readonly Statement[]> {
  const found = new Map<string, Statement[]>();
  for (const { event } of inOrderOfTime(events)) {
    const subject = subjectOf(event);
    if (subject !== null) found.set(subject, [...(found.get(subject) ?? []), event as Statement]);
  }
  return found;
}

function subjectOf(event: LogEvent): string | null {
  if (event.kind === "machine-described") return "machine";
  if (event.kind === "instrument-added") return `instrument ${event.instrument.id}`;
  return event.kind === "object-added" ? `object ${event.object.id}` : null;
}

function saysTheSame(before: Statement, now: Statement): boolean {
  const told = (statement: Statement) =>
    statement.kind === "machine-described" ? { ...statement.machine, name: "" } : toolOf(statement);
  return JSON.stringify(told(before)) === JSON.stringify(told(now));
}

function toolOf(statement: ToolStatement) {
  return statement.kind === "instrument-added" ? statement.instrument : statement.object;
}

function toolStated(stamp: Stamp, statement: ToolStatement, because: string | null): LogEvent {
  const { putAway: _before, ...tool } = toolOf(statement);
  const stated = because === null ? tool : { ...tool, putAway: because };
  return statement.kind === "instrument-added"
    ? stamp.event("instrument-added", { instrument: stated } as never)
    : stamp.event("object-added", { object: stated } as never);
}
