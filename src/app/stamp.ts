import { eventIdFrom } from "../logbook/event-id.ts";
import { eventTimeFromInstant } from "../logbook/event-time.ts";
import type { EventKind, EventOf, LogEvent } from "../logbook/events.ts";
import type { Surroundings } from "./surroundings.ts";

type Payload<Kind extends EventKind> = Omit<EventOf<Kind>, "v" | "id" | "at" | "by" | "kind">;

/** Gives events their envelope: id, time and who. Events of one call follow one another by a millisecond. */
export class Stamp {
  readonly #surroundings: Surroundings;
  readonly #by: string | undefined;
  #nextMs: number;

  constructor(surroundings: Surroundings, by?: string, atMs = surroundings.nowMs()) {
    this.#surroundings = surroundings;
    this.#by = by;
    this.#nextMs = atMs;
  }

  event<Kind extends EventKind>(kind: Kind, payload: Payload<Kind>): EventOf<Kind> & LogEvent {
    const at = this.#nextMs++;
    const envelope = {
      v: 1,
      id: eventIdFrom(at, this.#surroundings.randomBytes(10)),
      at: eventTimeFromInstant(at, this.#surroundings.offsetMinutes(at)),
      ...(this.#by === undefined ? {} : { by: this.#by }),
      kind,
    };
    return { ...envelope, ...payload } as unknown as EventOf<Kind> & LogEvent;
  }
}
