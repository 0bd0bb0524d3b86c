import { writeFileSync } from "node:fs";
import { newSession, type Session, sessionWith } from "../src/app/session.ts";
import { Stamp } from "../src/app/stamp.ts";
import type { Surroundings } from "../src/app/surroundings.ts";
import { checkById } from "../src/core/checks/catalogue.ts";
import type { GeometricCheck, Station } from "../src/core/checks/check.ts";
import { ownHomingVariance, predictObservation } from "../src/core/fit/linearise.ts";
import { type LaidOutObservation, layOutProblem, type Problem } from "../src/core/fit/problem.ts";
import type { Instrument } from "../src/core/instruments/instrument.ts";
import { homingYaw } from "../src/core/machine/machine.ts";
import { createRandom, type Random } from "../src/core/numerics/random.ts";
import type { LogEvent } from "../src/logbook/events.ts";
import { textFromEvents } from "../src/logbook/write.ts";
import { type Step, slip, steps } from "./demonstration/plan.ts";
import { trueUnknowns, truth } from "./demonstration/truth.ts";

/** Makes the demonstration logbook from a stated truth and a seed: the same file every time. */
const random = createRandom(20260905);

const machine = {
  name: "The shared workshop's router",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 600, z: 75 },
  railPlanesMm: { left: -130, right: 730 },
  wheelbaseMm: 160,
  beamCentreMm: 142,
  toolFromBeamMm: -85,
  details: {
    railContactMm: 37,
    beamUndersideMm: 102,
    bedMm: { left: -100, right: 700, front: -50, rear: 650 },
    gridPitchMm: 50,
    drives: {
      x: { kind: "belt", motorStepsPerTurn: 200, microsteps: 16, travelPerTurnMm: 40 },
      y: { kind: "belt", motorStepsPerTurn: 200, microsteps: 16, travelPerTurnMm: 40 },
      z: { kind: "screw", motorStepsPerTurn: 200, microsteps: 16, travelPerTurnMm: 4 },
    },
    motorsOnY: 2,
    guides: "blocks",
  },
};

const tools: readonly (readonly [event: "instrument-added" | "object-added", own: Record<string, unknown>])[] = [
  ["instrument-added", { id: "leaves", kind: "feeler-leaves" }],
  ["instrument-added", { id: "dial", kind: "dial-indicator" }],
  ["instrument-added", { id: "test-indicator", kind: "test-indicator" }],
  ["instrument-added", { id: "rule", kind: "steel-rule" }],
  ["instrument-added", { id: "rule-with-loupe", kind: "steel-rule-with-loupe" }],
  ["instrument-added", { id: "line-by-eye", kind: "line-by-eye-with-loupe" }],
  ["instrument-added", { id: "touch-plate", kind: "touch-plate" }],
  ["instrument-added", { id: "calipers", kind: "calipers-300" }],
  ["instrument-added", { id: "tuner", kind: "tuner" }],
  ["object-added", { id: "school-square", kind: "square", name: "the school's square" }],
  [
    "object-added",
    {
      id: "oak-block",
      kind: "block",
      name: "oak block",
      stated: { heightMm: { value: 101.2, expandedUncertainty: 0.1, coverageFactor: 2 } },
    },
  ],
];

const OFFSET_OF_SUMMER = 120;

function surroundingsAt(ms: number): Surroundings {
  return {
    nowMs: () => ms,
    offsetMinutes: () => OFFSET_OF_SUMMER,
    randomBytes: (count) => Uint8Array.from({ length: count }, () => random.integer(256)),
  };
}

function stampAt(at: string): Stamp {
  return new Stamp(surroundingsAt(Date.parse(at)), "workshop");
}

function mustBe<T>(outcome: { ok: true; value: T } | { ok: false; diagnostics: readonly unknown[] }): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics, null, 2));
  return outcome.value;
}

const first = stampAt("2026-09-05T09:00:00+02:00");
const begun: LogEvent[] = [first.event("machine-described", { machine } as never)];
for (const [kind, own] of tools)
  begun.push(first.event(kind, { [kind === "instrument-added" ? "instrument" : "object"]: own } as never));
let session: Session = mustBe(newSession("shared-workshop.jsonl", begun));
const events: LogEvent[] = [...begun];
let runNumber = 0;

for (const step of steps) {
  const added = eventsOfStep(step, stampAt(step.at));
  session = mustBe(sessionWith(session, added));
  events.push(...added);
}

const filled = fillReadings(session, events);
const text = textFromEvents(filled);
// A test holds the committed file to what would be written.
if (process.argv.includes("--print")) process.stdout.write(text);
else writeFileSync(new URL("../catalog/demonstration/shared-workshop.jsonl", import.meta.url), text);

function eventsOfStep(step: Step, stamp: Stamp): LogEvent[] {
  if (step.note !== undefined) return [stamp.event("note-added", { text: step.note } as never)];
  if (step.happened) return [stamp.event(step.happened, {} as never)];
  const check = checkById(step.check as string);
  if (!check) throw new Error(`no check ${step.check}`);
  runNumber += 1;
  const run = `run-${String(runNumber).padStart(2, "0")}`;
  const out: LogEvent[] = [
    stamp.event("run-begun", {
      run,
      check: check.id,
      instrument: step.with ?? null,
      ...(step.objects && { objects: step.objects }),
      ...(step.options && { options: step.options }),
      ...(step.conditions && { conditions: step.conditions }),
    } as never),
  ];
  const instrument = step.with ? (session.timeline.instruments.get(step.with) ?? null) : null;
  const stations = check.stations({ machine: session.machine, options: step.options ?? {}, instrument });
  stations.forEach((station, i) => {
    const repeats = check.id === "turnaround" ? 3 : 1;
    for (let k = 0; k < repeats; k++)
      out.push(
        stamp.event("reading-taken", {
          run,
          station: station.key,
          ...blankReading(step, check.kind === "geometric", station, i),
        } as never),
      );
  });
  return out;
}

function blankReading(step: Step, geometric: boolean, station: Station, index: number): Record<string, unknown> {
  const typed = step.typed?.[index];
  if (!geometric) return typeof typed === "boolean" ? { passed: typed } : { unit: step.unit, value: typed };
  // A length is near its nominal; everything else gets its number below.
  const value = station.nominal ?? 0.5;
  return { unit: "mm", value };
}

/** Puts what the true machine shows in the place of every blank. */
function fillReadings(blank: Session, all: readonly LogEvent[]): readonly LogEvent[] {
  const problem = layOutProblem(blank.machine, blank.timeline);
  const values = trueValues(problem);
  const typed = new Map<string, Record<string, unknown>>();
  const zeros = new Map<string, number>();
  for (const observation of problem.observations) {
    const predicted = predictObservation(problem, observation, values);
    const spot = Math.sqrt(observation.ownVariance) * random.normal();
    const homing = Math.sqrt(ownHomingVariance(problem, observation, predicted.gradient));
    for (const { reading, sd } of observation.values) {
      const feel = observation.setup.instrument?.family === "feeler" ? 0.02 : sd * 0.9;
      let value = predicted.value + spot + feel * random.normal() + homing * random.normal();
      value += zeroShift(observation, value, zeros);
      typed.set(reading.id, entryFor(observation, value, random));
    }
  }
  return all.map((event) => {
    const entry = event.kind === "reading-taken" ? typed.get(event.id) : undefined;
    if (!entry) return event;
    const { value: _value, ...rest } = event as LogEvent & { value?: number };
    return { ...rest, ...entry } as LogEvent;
  });
}

function trueValues(problem: Problem): Float64Array {
  return Float64Array.from(problem.variables, (variable) => {
    const base = variable.id.split(" @")[0];
    if (variable.kind === "mode") {
      // A board and a metal frame drift a little from month to month.
      const later = variable.id.includes(" @") ? 0.3 * variable.usualSd * 0.1 * random.normal() : 0;
      return (truth[base] ?? 0) + later;
    }
    if (variable.id in trueUnknowns) return trueUnknowns[variable.id];
    if (variable.id.startsWith(homingYaw)) return 0.7 * variable.usualSd * random.normal();
    // Zeros are set so that the first station reads nothing; lasting errors and places are as usual.
    return /zero|position|yaw|slope|roll/.test(variable.id) ? 0 : 0.8 * variable.usualSd * random.normal();
  });
}

/** People zero a dial at the first station. */
function zeroShift({ run, station, check }: LaidOutObservation, value: number, zeros: Map<string, number>): number {
  if (
    !(check as GeometricCheck)
      .unknowns({ machine: session.machine, options: run.options, instrument: null }, station)
      .some(({ key }) => key.startsWith("zero"))
  )
    return 0;
  const key = `${run.id} ${check.id === "tram-sweep" ? station.key.split(",")[0] : ""}`;
  const known = zeros.get(key);
  if (known !== undefined) return known;
  zeros.set(key, -value);
  return -value;
}

function entryFor(
  { setup, check, station, run }: LaidOutObservation,
  value: number,
  chance: Random,
): Record<string, unknown> {
  const instrument = setup.instrument as Instrument;
  const nominal = station.nominal ?? 0;
  const slipped = run.check === slip.check && station.key === slip.station ? slip.addMm : 0;
  if (check.entries && instrument.family === "feeler") {
    if (check.id === "stop-gaps") {
      const left = 0.5 + 0.1 * chance.uniform();
      return { first: leaves(left + value), second: leaves(left) };
    }
    return value >= 0
      ? { first: leaves(value), second: { value: 0 } }
      : { first: { value: 0 }, second: leaves(-value) };
  }
  if (instrument.family === "feeler") return leaves(value + slipped);
  const step = (instrument.measures === "length" && instrument.resolutionMm) || 0.05;
  return { value: Number((Math.round((value + nominal) / step) * step).toFixed(4)) };
}

function leaves(gap: number): Record<string, unknown> {
  const goes = Math.floor(gap / 0.05 + 1e-9) * 0.05;
  if (goes < 0.05) return { doesNotGo: 0.05 };
  return { goes: Number(goes.toFixed(2)), doesNotGo: Number((goes + 0.05).toFixed(2)) };
}
