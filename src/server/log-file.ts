import { closeSync, fstatSync, openSync, renameSync, writeSync } from "node:fs";

const mostBytes = 4_000_000;

/** The file that log lines go to; when it is full it becomes the one before, and that one goes. */
export class LogFile {
  readonly path: string;
  #handle: number | null;
  #bytes: number;

  constructor(path: string) {
    this.path = path;
    this.#handle = openSync(path, "a", 0o600);
    this.#bytes = fstatSync(this.#handle).size;
  }

  write(line: string): void {
    if (this.#handle === null) return;
    try {
      this.#bytes += writeSync(this.#handle, line);
      if (this.#bytes > mostBytes) this.#turn();
    } catch {
      // A full disk must not stop what does not need it.
    }
  }

  close(): void {
    if (this.#handle !== null) closeSync(this.#handle);
    this.#handle = null;
  }

  #turn(): void {
    this.close();
    renameSync(this.path, `${this.path}.before`);
    this.#handle = openSync(this.path, "a", 0o600);
    this.#bytes = 0;
  }
}
