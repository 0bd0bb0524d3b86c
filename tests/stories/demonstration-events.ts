import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { LogEvent } from "../../src/logbook/events.ts";

export const demonstrationFile = fileURLToPath(
  new URL("../../catalog/demonstration/shared-workshop.jsonl", import.meta.url),
);
export const demonstrationText = readFileSync(demonstrationFile, "utf8");

/** All that stands in the demonstration's logbook, in its order. */
export const demonstrationEvents: readonly LogEvent[] = demonstrationText
  .split("\n")
  .filter((line) => line !== "")
  .map((line) => JSON.parse(line) as LogEvent);
