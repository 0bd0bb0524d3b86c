import type { Instrument } from "../core/instruments/instrument.ts";
import type { MeasuringObject } from "../core/instruments/object.ts";
import { eventsOf, type Timed } from "./event-order.ts";
import type { Known } from "./known.ts";
import type { Report } from "./report.ts";

/** Instruments by id, each as it was last stated, with what is usual for its kind where nothing was. */
export function instrumentsFromEvents(
  ordered: readonly Timed[],
  known: Known,
  report: Report,
): ReadonlyMap<string, Instrument> {
  const instruments = new Map<string, Instrument>();
  for (const { event } of eventsOf(ordered, "instrument-added")) {
    const instrument = known.instrumentFrom(event.instrument);
    report.add(event, instrument.diagnostics, "instrument");
    if (instrument.ok) instruments.set(event.instrument.id, instrument.value);
  }
  return instruments;
}

export function objectsFromEvents(
  ordered: readonly Timed[],
  known: Known,
  report: Report,
): ReadonlyMap<string, MeasuringObject> {
  const objects = new Map<string, MeasuringObject>();
  for (const { event } of eventsOf(ordered, "object-added")) {
    const object = known.objectFrom(event.object);
    report.add(event, object.diagnostics, "object");
    if (object.ok) objects.set(event.object.id, object.value);
  }
  return objects;
}
