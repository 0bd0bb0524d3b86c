import type { Diagnostic, Place } from "../core/base/diagnostic.ts";
import type { LogEvent } from "./events.ts";

/** Collects what is to be said about events, each with the place where its event stands. */
export class Report {
  readonly told: Diagnostic[] = [];
  readonly #placeOf: (event: LogEvent) => Place;

  constructor(placeOf: (event: LogEvent) => Place) {
    this.#placeOf = placeOf;
  }

  get refuses(): boolean {
    return this.told.some(({ severity }) => severity === "refusal");
  }

  /** Something about all events together. */
  addOfWhole(first: LogEvent | undefined, diagnostic: Diagnostic): void {
    const file = first && this.#placeOf(first).file;
    this.told.push({ ...diagnostic, where: file === undefined ? {} : { file } });
  }

  /** `field` is the path within the event under which a diagnostic's own field lies. */
  add(event: LogEvent, diagnostics: readonly Diagnostic[], field?: string): void {
    for (const diagnostic of diagnostics) {
      const path = [field, diagnostic.where.field].filter((part) => part !== undefined).join(".");
      const where = { ...this.#placeOf(event), ...(path !== "" && { field: path }) };
      this.told.push({ ...diagnostic, where });
    }
  }
}
