import type { Diagnostic, Place } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import type { Chronicle } from "../core/planning/wishes.ts";
import { diagnosticsUpTo } from "./diagnostics-up-to.ts";
import { inOrderOfTime } from "./event-order.ts";
import type { LogEvent } from "./events.ts";
import type { Catalogue } from "./known.ts";
import { adjusterChangesFromEvents, locksFromEvents, stockFromEvents } from "./replay-adjusters.ts";
import { happeningsFromEvents } from "./replay-happenings.ts";
import { coordinatesFromEvents, machineFromEvents, packingStatedAt, reportStrangePacking } from "./replay-machine.ts";
import { instrumentsFromEvents, objectsFromEvents } from "./replay-measuring.ts";
import { readingsFromEvents } from "./replay-readings.ts";
import { runsFromEvents } from "./replay-runs.ts";
import { limitsFromEvents, priorsFromEvents } from "./replay-wishes.ts";
import { demandLimitsFromEvents, demandsFromEvents, kindOfWorkFromEvents, skimFromEvents } from "./replay-work.ts";
import { Report } from "./report.ts";

/**
 * Reads events from the first to the last and says what they come to. The same events give the same chronicle, whatever
 * their order in the file. Each id stands once, as `readLogbook` sees to.
 *
 * Names may be used before the event that gives them: clocks of two devices differ, and a run begun on one is read on the
 * other. So definitions (machine, instruments, objects, runs) hold for the whole logbook, the latest of several; readings
 * and happenings keep their own time.
 *
 * Numbers are turned into the core's units here. Everything that the events contradict, or that cannot have been read, is
 * refused; `placeOf` says where an event stands.
 */
export function replay(
  events: readonly LogEvent[],
  catalogue: Catalogue,
  placeOf: (event: LogEvent) => Place = ({ id }) => ({ event: id }),
): Outcome<Chronicle> {
  const report = new Report(placeOf);
  const ordered = inOrderOfTime(events);
  const machine = machineFromEvents(ordered, report);
  if (machine === null) return refuse(...report.told);
  const known = catalogue(machine);
  reportStrangePacking(ordered, known, report);
  const coordinates = coordinatesFromEvents(ordered, report);
  const instruments = instrumentsFromEvents(ordered, known, report);
  const objects = objectsFromEvents(ordered, known, report);
  const { runs, contexts } = runsFromEvents(ordered, { known, instruments, objects }, report);
  const readings = readingsFromEvents(ordered, contexts, known, report);
  const happenings = happeningsFromEvents(ordered, contexts, known, report);
  const limits = limitsFromEvents(ordered, known, report);
  const priors = priorsFromEvents(ordered, known, report);
  const adjusterChanges = adjusterChangesFromEvents(ordered, known, report);
  const wishes = {
    kindOfWork: kindOfWorkFromEvents(ordered, known, report),
    demands: demandsFromEvents(ordered, known, report),
    demandLimits: demandLimitsFromEvents(ordered, known, report),
    willSkim: skimFromEvents(ordered),
    stockMm: stockFromEvents(ordered, happenings),
    locks: locksFromEvents(ordered, known, report),
  };
  if (report.refuses) return refuse(...inOrderOfLines(report.told));
  const chronicle = {
    machine,
    coordinates,
    instruments,
    objects,
    runs,
    readings,
    happenings,
    limits,
    priors,
    adjusterChanges,
    packingStatedAt: packingStatedAt(ordered),
    wishes,
  };
  return succeed(chronicle, inOrderOfLines(report.told));
}

function inOrderOfLines(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const sorted = [...diagnostics].sort((a, b) => (a.where.line ?? 0) - (b.where.line ?? 0));
  return diagnosticsUpTo(sorted, { ...(sorted[0]?.where.file !== undefined && { file: sorted[0].where.file }) });
}
