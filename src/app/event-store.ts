import type { Diagnostic } from "../core/base/diagnostic.ts";
import type { LogEvent } from "../logbook/events.ts";

/**
 * Where the server keeps machines and their events. An append that has returned is on the disk. Where the disk or the
 * database refuses, a method throws a `StoreFailure` and nothing of what was asked has been done.
 */
export interface EventStore {
  /** Machines in the order in which they came, those set aside included. */
  machines(): readonly StoredMachine[];
  /** Adds a machine with its first events, the description among them. The id is the caller's, fresh and random. */
  addMachine(machine: NewMachine, events: readonly LogEvent[]): Appended;
  /** Adds events in one transaction. An id that is there already with the same content is passed over. */
  append(machine: string, events: readonly LogEvent[]): Appended;
  /** In rising sequence, of one machine or of all. */
  eventsAfter(
    sequence: number,
    options?: { readonly machine?: string; readonly most?: number },
  ): readonly StoredEvent[];
  /** Highest sequence that has been given out, 0 in an empty store. */
  lastSequence(): number;
  /** Takes a machine away with all that belongs to it; what is gone is gone, so an export goes before. */
  deleteMachine(machine: string): void;
  addPhotograph(machine: string, photograph: Photograph): void;
  /** Null where there is none, or where its bytes have been removed. */
  photograph(machine: string, sha256: string): Photograph | null;
  removePhotographBytes(machine: string, sha256: string): void;
  /** A whole and sound copy of the database at the path, which must not exist yet. */
  backUp(path: string): void;
  close(): void;
}

export interface NewMachine {
  readonly id: string;
  /** The machine that came with the program: seeded once, removable. */
  readonly demonstration: boolean;
}

export interface StoredMachine extends NewMachine {
  readonly events: number;
  /** Of the machine's last event, 0 while it has none. */
  readonly lastSequence: number;
}

/** Sequences grow by the order of arrival over all machines; the order of what happened is in the events' own time. */
export interface StoredEvent {
  readonly sequence: number;
  readonly machine: string;
  readonly event: LogEvent;
}

export interface Appended {
  readonly added: readonly StoredEvent[];
  readonly passedOver: number;
}

export interface Photograph {
  readonly sha256: string;
  readonly mediaType: "image/jpeg" | "image/png" | "image/webp";
  readonly bytes: Uint8Array;
}

/** The disk is full, the database damaged or held by another program: nobody's slip, so it is thrown, with its words. */
export class StoreFailure extends Error {
  override readonly name = "StoreFailure";
  readonly diagnostic: Diagnostic;

  constructor(diagnostic: Diagnostic) {
    super(diagnostic.code);
    this.diagnostic = diagnostic;
  }
}
