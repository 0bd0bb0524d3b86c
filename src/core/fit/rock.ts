import { bestValue } from "../instruments/reading-uncertainty.ts";
import type { Timeline } from "./timeline.ts";

/**
 * What the tip moves by hand, as a standard uncertainty, mm: the largest "stays on release" of the latest
 * push-and-release, taken as equally likely anywhere within it (w/√12) [GUM §4.3.7].
 */
export function rockOfMachine(timeline: Timeline): number {
  const run = [...timeline.runs]
    .reverse()
    .find(({ check, withdrawn }) => check === "push-and-release" && withdrawn === null);
  if (!run) return 0;
  let largest = 0;
  for (const reading of timeline.readings) {
    if (reading.run !== run.id || reading.withdrawn !== null || !reading.station.endsWith("stays")) continue;
    const [entry] = reading.entries;
    if (entry.form !== "verdict") largest = Math.max(largest, Math.abs(run.factor * bestValue(entry)));
  }
  return largest / Math.sqrt(12);
}
