import { refusal } from "../core/base/diagnostic.ts";
import type { Run } from "../core/fit/timeline.ts";
import type { Instrument } from "../core/instruments/instrument.ts";
import type { MeasuringObject } from "../core/instruments/object.ts";
import { eventsOf, type Timed } from "./event-order.ts";
import type { EventOf } from "./events.ts";
import type { Known, KnownCheck } from "./known.ts";
import { nearestWord } from "./nearest-word.ts";
import { reachesFromEvents } from "./replay-machine.ts";
import type { Report } from "./report.ts";

/** A run and what its readings are held against. `check` is null where the run itself was refused. */
export interface RunContext {
  readonly run: Run;
  readonly check: KnownCheck | null;
  readonly instrument: Instrument | null;
}

/** What runs refer to. */
export interface Definitions {
  readonly known: Known;
  readonly instruments: ReadonlyMap<string, Instrument>;
  readonly objects: ReadonlyMap<string, MeasuringObject>;
}

/** Runs in the order in which they were begun, and each by its id for the readings. */
export function runsFromEvents(
  ordered: readonly Timed[],
  definitions: Definitions,
  report: Report,
): { readonly runs: readonly Run[]; readonly contexts: ReadonlyMap<string, RunContext> } {
  const begun = new Map<string, Timed<EventOf<"run-begun">>>();
  for (const timed of eventsOf(ordered, "run-begun")) {
    const { event } = timed;
    if (!begun.has(event.run)) begun.set(event.run, timed);
    else report.add(event, [refusal("run-begun-twice", { field: "run" }, { run: event.run })]);
  }

  const withdrawn = new Map<string, string | null>();
  const factors = new Map<string, number>();
  for (const { event } of eventsOf(ordered, "run-withdrawn", "run-restored", "run-reinterpreted")) {
    if (!begun.has(event.run)) report.add(event, [runUnknown(event.run, begun)]);
    else if (event.kind === "run-reinterpreted") factors.set(event.run, event.factor);
    else withdrawn.set(event.run, event.kind === "run-withdrawn" ? event.because : null);
  }

  const reachWhen = reachesFromEvents(ordered);
  const contexts = new Map<string, RunContext>();
  for (const [id, timed] of begun) {
    const reach = reachWhen(timed.at);
    const run = {
      ...runFromEvent(timed, factors.get(id) ?? 1, withdrawn.get(id) ?? null),
      ...(reach !== null && { reach }),
    };
    contexts.set(id, contextOfRun(run, timed.event, definitions, report));
  }
  return { runs: Array.from(contexts.values(), ({ run }) => run), contexts };
}

export function runUnknown(run: string, known: ReadonlyMap<string, unknown>) {
  return refusal("run-unknown", { field: "run" }, { run, meant: nearestWord(run, known.keys()) ?? "" });
}

function runFromEvent({ event, at }: Timed<EventOf<"run-begun">>, factor: number, withdrawn: string | null): Run {
  const { run: id, check, instrument = null, objects = {}, options = {}, conditions = {} } = event;
  return { id, check, at, instrument, objects, options, conditions, factor, withdrawn };
}

function contextOfRun(run: Run, event: EventOf<"run-begun">, definitions: Definitions, report: Report): RunContext {
  const { known, instruments, objects } = definitions;
  const check = known.checks.get(run.check) ?? null;
  const instrument = run.instrument === null ? null : (instruments.get(run.instrument) ?? null);
  if (check === null) {
    const data = { check: run.check, meant: nearestWord(run.check, known.checks.keys()) ?? "" };
    report.add(event, [refusal("check-unknown", { field: "check" }, data)]);
  }
  if (run.instrument !== null && instrument === null) {
    const data = { instrument: run.instrument, meant: nearestWord(run.instrument, instruments.keys()) ?? "" };
    report.add(event, [refusal("instrument-unknown", { field: "instrument" }, data)]);
  }
  for (const [role, object] of Object.entries(run.objects)) {
    if (objects.has(object)) continue;
    const data = { object, meant: nearestWord(object, objects.keys()) ?? "" };
    report.add(event, [refusal("object-unknown", { field: `objects.${role}` }, data)]);
  }
  if (check === null) return { run, check, instrument };
  const problems = known.runProblems(run, instrument);
  report.add(event, problems);
  const refused = problems.some(({ severity }) => severity === "refusal");
  return { run, check: refused ? null : check, instrument };
}
