import { join } from "node:path";
import { type EventStore, StoreFailure } from "../app/event-store.ts";
import type { Diagnostic } from "../core/base/diagnostic.ts";
import { refusal } from "../core/base/diagnostic.ts";
import { invariant } from "../core/base/invariant.ts";
import { backupName, backupsIn, pruneBackups } from "./backup.ts";
import { messageOf } from "./failure.ts";

/** Runs something once after a time; what comes back calls it off. */
export type Timer = (run: () => void, afterMs: number) => () => void;

export interface ScheduleOptions {
  readonly folder: string;
  /** So long after the last backup the next one is made. */
  readonly everyHours: number;
  /** So many of the newest are kept. */
  readonly keep: number;
  readonly timer: Timer;
  readonly nowMs: () => number;
  readonly onBackup?: (path: string, removed: readonly string[]) => void;
  /** A backup that could not be made; it is tried again after an hour. */
  readonly onFailure: (diagnostic: Diagnostic) => void;
}

const hourMs = 3_600_000;
/** Timers count in 32 bits, and a computer that slept wakes up late: it is looked again at least so often. */
const longestWaitMs = 24 * hourMs;

/** Backs a store up whenever so many hours have passed since the last backup in the folder, whoever made that. */
export class BackupSchedule {
  readonly #store: Pick<EventStore, "backUp">;
  readonly #options: ScheduleOptions;
  #callOff: (() => void) | null = null;

  constructor(store: Pick<EventStore, "backUp">, options: ScheduleOptions) {
    invariant(options.everyHours > 0 && options.keep >= 1, "a schedule has a time and keeps a backup");
    this.#store = store;
    this.#options = options;
  }

  /** Makes the backup that is due, if one is, and waits for the next. */
  start(): void {
    this.stop();
    this.#lookAndWait();
  }

  stop(): void {
    this.#callOff?.();
    this.#callOff = null;
  }

  #lookAndWait(): void {
    const isDone = this.#msUntilDue() > 0 || this.#backUp();
    const wait = isDone ? Math.max(1, this.#msUntilDue()) : hourMs;
    this.#callOff = this.#options.timer(() => this.#lookAndWait(), Math.min(wait, longestWaitMs));
  }

  #msUntilDue(): number {
    const { folder, everyHours, nowMs } = this.#options;
    // What is dated later than now was made while the clock was wrong, and says nothing of when the last one was made.
    const last = this.#listed(folder).find(({ atMs }) => atMs <= nowMs());
    return last === undefined ? 0 : last.atMs + everyHours * hourMs - nowMs();
  }

  #listed(folder: string): ReturnType<typeof backupsIn> {
    try {
      return backupsIn(folder);
    } catch {
      // A folder that cannot be read is told when the backup fails.
      return [];
    }
  }

  #backUp(): boolean {
    const { folder, keep, nowMs, onBackup, onFailure } = this.#options;
    const path = join(folder, backupName(nowMs()));
    try {
      this.#store.backUp(path);
      const removed = pruneBackups(folder, keep, nowMs());
      onBackup?.(path, removed);
      return true;
    } catch (fault) {
      const told =
        fault instanceof StoreFailure
          ? fault.diagnostic
          : refusal("backup-failed", { file: path }, { reason: messageOf(fault) });
      onFailure(told);
      return false;
    }
  }
}
