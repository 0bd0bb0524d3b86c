import { eventIdFrom } from "../../src/logbook/event-id.ts";
import { eventTimeFromInstant } from "../../src/logbook/event-time.ts";
import type { LogEvent } from "../../src/logbook/events.ts";

const begin = Date.UTC(2026, 2, 14, 15, 0, 0);

/** The worked machine of eight numbers. */
export const sampleMachine = {
  name: "router in the shed",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 500, z: 70 },
  railPlanesMm: { left: -90, right: 690 },
  wheelbaseMm: 140,
  beamCentreMm: 105,
  toolFromBeamMm: -75,
} as const;

/** The n-th id of a test's logbook. */
export function sampleId(n: number): string {
  const random = new Uint8Array(10);
  random[8] = n >> 8;
  random[9] = n & 255;
  return eventIdFrom(begin + n * 1000, random);
}

/** The n-th event, n seconds after the logbook's first; the body needs no more than kind and payload. */
export function sampleEvent(n: number, body: Record<string, unknown>): LogEvent {
  return { v: 1, id: sampleId(n), at: eventTimeFromInstant(begin + n * 1000, 60), ...body } as unknown as LogEvent;
}

/** A short and sound logbook: a machine, leaves, one run of two readings. Bodies given are added at its end. */
export function soundLogbook(...bodies: readonly Record<string, unknown>[]): readonly LogEvent[] {
  const first = [
    { kind: "machine-described", machine: sampleMachine },
    { kind: "instrument-added", instrument: { id: "leaves", kind: "feeler-leaves" } },
    { kind: "run-begun", run: "gap-1", check: "gap-under-beam", instrument: "leaves" },
    { kind: "reading-taken", run: "gap-1", station: "front left", unit: "mm", goes: 0.6, doesNotGo: 0.65 },
    { kind: "reading-taken", run: "gap-1", station: "front right", unit: "mm", goes: 0.45, doesNotGo: 0.5 },
  ];
  return [...first, ...bodies].map((body, n) => sampleEvent(n, body));
}
