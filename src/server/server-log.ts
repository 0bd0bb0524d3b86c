import type { RefusalCode } from "./refusals.ts";

export type Level = "info" | "warn" | "error";

/** What a line may say. Never a name, a note, a cookie, an address of a page or anything that was sent. */
export type LogData = Readonly<Record<string, string | number | boolean | null>>;

const quietMs = 60_000;

/**
 * The server's log: one JSON object a line, `at` in UTC first. A refusal is written once for each kind and minute; how
 * many more there were is told with the next of its kind, or at the end.
 */
export class ServerLog {
  readonly #write: (line: string) => void;
  readonly #nowMs: () => number;
  readonly #refused = new Map<RefusalCode, { sinceMs: number; passedOver: number }>();

  constructor(write: (line: string) => void, nowMs: () => number) {
    this.#write = write;
    this.#nowMs = nowMs;
  }

  tell(level: Level, event: string, data: LogData = {}): void {
    const at = new Date(this.#nowMs()).toISOString();
    this.#write(`${JSON.stringify({ at, level, event, ...data })}\n`);
  }

  refused(code: RefusalCode, data: LogData): void {
    const now = this.#nowMs();
    const before = this.#refused.get(code);
    if (before && now - before.sinceMs < quietMs) {
      before.passedOver += 1;
      return;
    }
    this.#refused.set(code, { sinceMs: now, passedOver: 0 });
    this.tell("warn", "refused", { code, ...data, alsoBefore: before?.passedOver ?? 0 });
  }

  /** Tells what has been counted and not told yet. */
  close(): void {
    for (const [code, { passedOver }] of this.#refused) {
      if (passedOver > 0) this.tell("warn", "refused", { code, alsoBefore: passedOver });
    }
    this.#refused.clear();
  }
}
