import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { type Machine, machineFromDescription } from "../core/machine/machine.ts";
import type { Chronicle } from "../core/planning/wishes.ts";
import type { LogEvent } from "../logbook/events.ts";
import { type Logbook, placesInLogbook, readLogbook } from "../logbook/read.ts";
import { eventFromJson } from "../logbook/read-event.ts";
import { replay } from "../logbook/replay.ts";
import { lineFromEvent } from "../logbook/write.ts";
import { knownCatalogue } from "./known.ts";

/** A logbook that has been read and understood from its first event to its last. */
export interface Session {
  readonly logbook: Logbook;
  readonly timeline: Chronicle;
  readonly machine: Machine;
}

export function openSession(content: string | Uint8Array, file: string): Outcome<Session> {
  const read = readLogbook(content, file);
  if (!read.ok) return read;
  const replayed = replay(read.value.events, knownCatalogue, placesInLogbook(read.value));
  if (!replayed.ok) return replayed;
  const session = {
    logbook: read.value,
    timeline: replayed.value,
    machine: machineFromDescription(replayed.value.machine),
  };
  return succeed(session, [...read.diagnostics, ...replayed.diagnostics]);
}

/** The session as it is with more events; refused whole when they contradict what is there. Nothing is written. */
export function sessionWith(session: Session, events: readonly LogEvent[]): Outcome<Session> {
  const sound = soundEvents(events);
  if (!sound.ok) return sound;
  const all = [...session.logbook.events, ...events];
  const replayed = replay(all, knownCatalogue);
  if (!replayed.ok) return refuse(...replayed.diagnostics);
  const machine = machineFromDescription(replayed.value.machine);
  return succeed(
    { logbook: { ...session.logbook, events: all }, timeline: replayed.value, machine },
    replayed.diagnostics,
  );
}

/** A logbook that does not exist yet, begun by its first events. */
export function newSession(file: string, events: readonly LogEvent[]): Outcome<Session> {
  const sound = soundEvents(events);
  if (!sound.ok) return sound;
  const replayed = replay(events, knownCatalogue);
  if (!replayed.ok) return replayed;
  const logbook: Logbook = { file, events, lines: new Int32Array(events.length), torn: null, endsWithLineEnd: true };
  const machine = machineFromDescription(replayed.value.machine);
  return succeed({ logbook, timeline: replayed.value, machine }, replayed.diagnostics);
}

/** What is about to be written must be readable: each event as it will stand in its line, held to the schema. */
function soundEvents(events: readonly LogEvent[]): Outcome<readonly LogEvent[]> {
  const read = events.map((event) => eventFromJson(JSON.parse(lineFromEvent(event)), {}));
  const diagnostics = read.flatMap((outcome) => (outcome.ok ? [] : outcome.diagnostics));
  return diagnostics.length > 0 ? refuse(...diagnostics) : succeed(events);
}
