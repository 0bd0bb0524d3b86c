import type { Connection, Driver, Value } from "./driver.ts";
import { codeOf } from "./failure.ts";

/** Held until released, or until the process ends, however it ends. */
export interface Lock {
  release(): void;
}

/**
 * Takes the lock that keeps a second writer from the database. It is an open transaction on a small database of its own
 * beside the real one: the system lets go of it when the process dies, so none is ever left behind, and readers of the
 * real database are not in its way. Where another process has it, its number is given, or 0.
 */
export function takeLock(driver: Driver, path: string): Lock | { readonly heldBy: number } {
  const connection = driver.open(`${path}-lock`, { readOnly: false, waitMs: 0 });
  try {
    connection.exec("BEGIN IMMEDIATE");
    connection.exec("CREATE TABLE IF NOT EXISTS holder (process INTEGER) STRICT");
    connection.exec("DELETE FROM holder");
    connection.prepare("INSERT INTO holder VALUES (?)").run([process.pid]);
    // The number must be readable for others while the lock is held.
    connection.exec("COMMIT; BEGIN IMMEDIATE");
  } catch (fault) {
    const heldBy = holderOf(connection);
    rollBack(connection);
    connection.close();
    if (codeOf(fault).startsWith("SQLITE_BUSY")) return { heldBy };
    throw fault;
  }
  return {
    release() {
      // The driver closes a connection only when its statements are collected, and until then it would hold the lock.
      rollBack(connection);
      connection.close();
    },
  };
}

function holderOf(connection: Connection): number {
  try {
    const [number]: readonly (Value | undefined)[] = connection.prepare("SELECT process FROM holder").get() ?? [];
    return typeof number === "number" ? number : 0;
  } catch {
    return 0;
  }
}

function rollBack(connection: Connection): void {
  try {
    connection.exec("ROLLBACK");
  } catch {
    // None was open any more.
  }
}
