import { expect } from "vitest";
import { wordsForDiagnostic } from "../../src/core/base/diagnostic-words.ts";
import type { Chronicle } from "../../src/core/planning/wishes.ts";
import type { LogEvent } from "../../src/logbook/events.ts";
import { placesInLogbook, readLogbook } from "../../src/logbook/read.ts";
import { replay } from "../../src/logbook/replay.ts";
import { textFromEvents } from "../../src/logbook/write.ts";
import { shippedCatalogue } from "./catalogue.ts";
import { soundLogbook } from "./sample-events.ts";

export function timelineOf(events: readonly LogEvent[]): Chronicle {
  const outcome = replay(events, shippedCatalogue);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

/** What a sound logbook with further events comes to. */
export const timelineAfter = (...bodies: Record<string, unknown>[]): Chronicle => timelineOf(soundLogbook(...bodies));

/** Code, field and line of everything that is said about a sound logbook with further events. */
export function saidOf(...bodies: Record<string, unknown>[]) {
  return saidOfEvents(soundLogbook(...bodies));
}

export function saidOfEvents(events: readonly LogEvent[]) {
  const logbook = readLogbook(textFromEvents(events), "shed.jsonl");
  if (!logbook.ok) throw new Error(JSON.stringify(logbook.diagnostics));
  const outcome = replay(logbook.value.events, shippedCatalogue, placesInLogbook(logbook.value));
  for (const { code, data } of outcome.diagnostics) {
    expect(Object.values(wordsForDiagnostic(code, data)).join(" ")).not.toMatch(/undefined|NaN|\[object/);
  }
  return outcome.diagnostics.map(({ code, where }) => [code, where.line, where.field]);
}
