import type { EventStore, StoredEvent } from "../app/event-store.ts";

export interface LiveLimits {
  readonly inAll: number;
  /** Of one paired device, and of the computer itself. */
  readonly perDevice: number;
  /** Connections that one device may open within a minute. */
  readonly opensPerMinute: number;
  readonly heartbeatMs: number;
  /** A connection that has taken nothing for so long is closed; its page comes back and goes on where it was. */
  readonly stalledAfterMs: number;
}

export const usualLiveLimits: LiveLimits = {
  inAll: 128,
  perDevice: 12,
  opensPerMinute: 60,
  heartbeatMs: 15_000,
  stalledAfterMs: 45_000,
};

export interface LiveVisitor {
  readonly device: string;
  /** Asked with every heartbeat: a device that has been removed hears nothing more. */
  readonly isWelcome: () => boolean;
  readonly hangUp: () => void;
}

/** One message as it goes over the wire, with the sequences it covers. */
interface Message {
  readonly first: number;
  readonly last: number;
  readonly bytes: Uint8Array;
}

/** The latest messages, kept ready for all connections alike; whoever is behind them is served from the store. */
const mostRecent = 256;
const mostRecentBytes = 2_000_000;
/** From the store one connection is given so many events at a time. */
const mostEventsAtOnce = 200;
const encoder = new TextEncoder();

/**
 * Tells open pages of new events by server-sent events. A connection is no queue, only the place it has reached: it is
 * given more when it has taken what it had, so that a slow one costs no memory and misses nothing.
 */
export class Live {
  readonly #store: EventStore;
  readonly #limits: LiveLimits;
  readonly #nowMs: () => number;
  readonly #onStalled: () => void;
  readonly #connections = new Set<Connection>();
  readonly #opens = new Map<string, { readonly sinceMs: number; count: number }>();
  readonly #heart: NodeJS.Timeout;
  #recent: Message[] = [];
  #recentBytes = 0;
  /** All that comes after this is among the recent messages. */
  #recentAfter: number;
  #isClosed = false;

  constructor(store: EventStore, limits: LiveLimits, nowMs: () => number, onStalled: () => void) {
    this.#store = store;
    this.#limits = limits;
    this.#nowMs = nowMs;
    this.#onStalled = onStalled;
    this.#recentAfter = store.lastSequence();
    this.#heart = setInterval(() => this.beat(), limits.heartbeatMs);
    this.#heart.unref();
  }

  get count(): number {
    return this.#connections.size;
  }

  /** Null where there are too many already, or too many came in the last minute. */
  open(visitor: LiveVisitor, after: number): ReadableStream<Uint8Array> | null {
    const own = [...this.#connections].filter(({ device }) => device === visitor.device).length;
    if (this.#isClosed || this.count >= this.#limits.inAll || own >= this.#limits.perDevice) return null;
    if (this.#opensTooOften(visitor.device)) return null;
    // A place ahead of everything is one of another store: all is told anew, and known events are passed over there.
    const place = after > this.#store.lastSequence() ? 0 : after;
    const connection = new Connection(visitor, place, this.#nowMs, (from) => this.#after(from));
    this.#connections.add(connection);
    return connection.stream(() => this.#connections.delete(connection));
  }

  publish(events: readonly StoredEvent[]): void {
    for (const message of messagesFrom(events)) {
      this.#recent.push(message);
      this.#recentBytes += message.bytes.length;
    }
    while (this.#recent.length > mostRecent || this.#recentBytes > mostRecentBytes) {
      const oldest = this.#recent.shift()!;
      this.#recentBytes -= oldest.bytes.length;
      this.#recentAfter = oldest.last;
    }
    for (const connection of this.#connections) connection.wake();
  }

  /** Tells every page that a machine is gone; this has no place in the sequence, and a page that is away asks anew. */
  publishDeleted(machine: string): void {
    const bytes = encoder.encode(`event: machine-deleted\ndata: ${JSON.stringify({ machine })}\n\n`);
    this.#recent = [];
    this.#recentBytes = 0;
    this.#recentAfter = this.#store.lastSequence();
    for (const connection of this.#connections) connection.say(bytes);
  }

  closeDevice(device: string): void {
    for (const connection of this.#connections) if (connection.device === device) connection.end();
  }

  /** Comments that keep connections open; what has stalled, or is welcome no more, is closed. */
  beat(): void {
    for (const connection of this.#connections) {
      if (!connection.isWelcome()) connection.end();
      else if (connection.stalledForMs() > this.#limits.stalledAfterMs) {
        this.#onStalled();
        connection.end();
      } else connection.say(encoder.encode(": still here\n\n"));
    }
  }

  close(): void {
    this.#isClosed = true;
    clearInterval(this.#heart);
    for (const connection of this.#connections) connection.end();
  }

  #after(place: number): readonly Message[] {
    // A place within a message comes from a page that has asked for events by itself.
    const isWithin = this.#recent.some(({ first, last }) => first <= place && place < last);
    if (place >= this.#recentAfter && !isWithin) return this.#recent.filter(({ last }) => last > place).slice(0, 16);
    return messagesFrom(this.#store.eventsAfter(place, { most: mostEventsAtOnce }));
  }

  #opensTooOften(device: string): boolean {
    const now = this.#nowMs();
    if (this.#opens.size > 1000) this.#opens.clear();
    const opens = this.#opens.get(device);
    if (!opens || now - opens.sinceMs >= 60_000) {
      this.#opens.set(device, { sinceMs: now, count: 1 });
      return false;
    }
    opens.count += 1;
    return opens.count > this.#limits.opensPerMinute;
  }
}

/** One message for each stretch of events of one machine. */
function messagesFrom(events: readonly StoredEvent[]): readonly Message[] {
  const messages: Message[] = [];
  for (let start = 0; start < events.length; ) {
    const { machine, sequence: first } = events[start]!;
    let end = start;
    while (end < events.length && events[end]!.machine === machine) end += 1;
    const last = events[end - 1]!.sequence;
    const data = { machine, sequence: last, events: events.slice(start, end).map(({ event }) => event) };
    messages.push({
      first,
      last,
      bytes: encoder.encode(`event: events\nid: ${last}\ndata: ${JSON.stringify(data)}\n\n`),
    });
    start = end;
  }
  return messages;
}

/** One open page: the place it has reached, and whether it is waiting for more. */
class Connection {
  readonly device: string;
  readonly isWelcome: () => boolean;
  readonly #hangUp: () => void;
  readonly #nowMs: () => number;
  readonly #after: (place: number) => readonly Message[];
  #place: number;
  #controller: ReadableStreamDefaultController<Uint8Array> | null = null;
  /** Set while everything has been taken and more is wanted. */
  #wanted: (() => void) | null = null;
  #tookMs: number;
  #hasEnded = false;
  #forget: () => void = () => {};

  constructor(
    { device, isWelcome, hangUp }: LiveVisitor,
    place: number,
    nowMs: () => number,
    after: (place: number) => readonly Message[],
  ) {
    this.device = device;
    this.isWelcome = isWelcome;
    this.#hangUp = hangUp;
    this.#place = place;
    this.#nowMs = nowMs;
    this.#after = after;
    this.#tookMs = nowMs();
  }

  stream(forget: () => void): ReadableStream<Uint8Array> {
    this.#forget = forget;
    return new ReadableStream<Uint8Array>(
      {
        start: (controller) => {
          this.#controller = controller;
          controller.enqueue(encoder.encode("retry: 2000\n\n"));
        },
        pull: () => this.#more(),
        cancel: () => this.#left(),
      },
      // Nothing is made ready before it is asked for.
      { highWaterMark: 0 },
    );
  }

  /** There is something new. */
  wake(): void {
    if (this.#wanted !== null && this.#giveNext()) this.#satisfied();
  }

  /** Something that has no place in the sequence; passed over where nothing is wanted. */
  say(bytes: Uint8Array): void {
    if (this.#wanted === null || this.#hasEnded) return;
    this.#controller?.enqueue(bytes);
    this.#satisfied();
  }

  stalledForMs(): number {
    return this.#wanted === null ? this.#nowMs() - this.#tookMs : 0;
  }

  end(): void {
    if (this.#hasEnded) return;
    const isStuck = this.#wanted === null;
    this.#left();
    this.#controller?.close();
    // Behind what has not been taken the end would never be seen.
    if (isStuck) this.#hangUp();
  }

  #more(): Promise<void> | undefined {
    this.#tookMs = this.#nowMs();
    if (this.#hasEnded || this.#giveNext()) return undefined;
    return new Promise((resolve) => {
      this.#wanted = resolve;
    });
  }

  #giveNext(): boolean {
    const messages = this.#after(this.#place);
    for (const { last, bytes } of messages) {
      this.#controller?.enqueue(bytes);
      this.#place = last;
    }
    return messages.length > 0;
  }

  #satisfied(): void {
    this.#tookMs = this.#nowMs();
    const resolve = this.#wanted;
    this.#wanted = null;
    resolve?.();
  }

  #left(): void {
    this.#hasEnded = true;
    this.#forget();
    this.#wanted?.();
    this.#wanted = null;
  }
}
