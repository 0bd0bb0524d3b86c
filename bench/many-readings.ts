import { eliminate } from "../src/core/estimation/elimination.ts";
import { layOutProblem } from "../src/core/fit/problem.ts";
import type { Timeline } from "../src/core/fit/timeline.ts";
import { createRandom } from "../src/core/numerics/random.ts";
import { eventIdFrom } from "../src/logbook/event-id.ts";
import { eventTimeFromInstant } from "../src/logbook/event-time.ts";
import {
  drawTruth,
  type PlannedRun,
  plannedTimeline,
  simulateReadings,
  workedMachine,
} from "../tests/simulation/simulate.ts";

/** Checks that one machine may see in a long afternoon: some twenty runs whose stations are read again and again. */
const plan: readonly PlannedRun[] = [
  { check: "bed-touch" },
  { check: "tram-sweep" },
  { check: "gap-under-beam" },
  { check: "hole-rectangle" },
  { check: "hole-field" },
  { check: "level-ride", options: { lies: "side" } },
  { check: "level-ride", options: { lies: "fore" } },
  { check: "line-along-y" },
  { check: "line-along-x" },
  { check: "beam-to-line" },
  { check: "rail-wind" },
  { check: "upright-sweep", objects: { square: "square" } },
  { check: "upright-sweep", objects: { square: "square" }, options: { towards: "fore" } },
  { check: "turnaround", options: { axis: "X" } },
  { check: "turnaround", options: { axis: "Y" } },
  { check: "turnaround", options: { axis: "Z" } },
  { check: "travel", options: { axis: "X" } },
  { check: "travel", options: { axis: "Y" } },
  { check: "ring-diameters", objects: { cutter: "cutter" } },
  { check: "ring-diameters", objects: { cutter: "cutter" }, options: { direction: "clockwise" } },
];

/** A timeline of about so many readings: every station of the plan repeated as often as it takes. */
export function timelineOf(readings: number): Timeline {
  const machine = workedMachine("moving-gantry");
  const once = plannedTimeline(machine, plan);
  const repeats = Math.ceil(readings / once.readings.length);
  const many = once.readings.flatMap((reading) =>
    Array.from({ length: repeats }, (_, k) => ({ ...reading, id: `${reading.id} ${k}`, at: reading.at + k })),
  );
  const blank = layOutProblem(machine, { ...once, readings: many.slice(0, readings) });
  const random = createRandom(5000);
  // Whoever sets up a gauge turns its zero under the pointer.
  const truth = drawTruth(blank, random).map((value, i) => (/: zero/.test(blank.variables[i].id) ? 0 : value));
  return simulateReadings(blank, truth, random);
}

/** The same as the text of a logbook file. */
export function logbookOf(timeline: Timeline): string {
  const lines: string[] = [];
  const random = new Uint8Array(10);
  const start = Date.UTC(2026, 2, 1);
  const put = (body: Readonly<Record<string, unknown>>) => {
    const instant = start + lines.length * 10;
    lines.push(
      JSON.stringify({ v: 1, id: eventIdFrom(instant, random), at: eventTimeFromInstant(instant, 60), ...body }),
    );
  };
  put({ kind: "machine-described", machine: timeline.machine });
  const kinds: Readonly<Record<string, string>> = {
    "touch plate": "touch-plate",
    dial: "dial-indicator",
    "test indicator": "test-indicator",
    calipers: "calipers-300",
    rule: "steel-rule-with-loupe",
    "line by eye": "line-by-eye-with-loupe",
    level: "level-0.1",
    feeler: "feeler-leaves",
    tape: "tape-class-2",
    loupe: "loupe-with-scale",
  };
  for (const id of timeline.instruments.keys())
    put({ kind: "instrument-added", instrument: { id: keyOf(id), kind: kinds[id] } });
  put({ kind: "object-added", object: { id: "square", kind: "square" } });
  put({ kind: "object-added", object: { id: "cutter", kind: "cutter" } });
  for (const { id, check, instrument, objects, options } of timeline.runs)
    put({ kind: "run-begun", run: keyOf(id), check, instrument: instrument && keyOf(instrument), objects, options });
  const instrumentOf = new Map(timeline.runs.map(({ id, instrument }) => [id, instrument ?? ""]));
  const zeros = zerosOfRuns(timeline, instrumentOf);
  for (const { run, station, entries } of timeline.readings) {
    const [entry] = entries;
    const zero = zeros.get(run) ?? 0;
    const unit = instrumentOf.get(run) === "level" ? "mm/m" : "mm";
    const shown =
      entry.form === "interval"
        ? { goes: tidy(entry.goes - zero), doesNotGo: tidy(entry.doesNotGo - zero) }
        : { value: tidy((entry.form === "value" ? entry.value : 0) - zero) };
    put({ kind: "reading-taken", run: keyOf(run), station, unit, ...shown });
  }
  return `${lines.join("\n")}\n`;
}

/** How far a gauge shows to each side, mm. */
const shows: Readonly<Record<string, number>> = { dial: 9, "test indicator": 0.39 };

/**
 * What is free in a run is chosen so that it can be read: a run that would leave its gauge's range has the zero turned to
 * the middle, and for leaves a block is taken that leaves three tenths at the narrowest.
 */
function zerosOfRuns({ readings }: Timeline, instrumentOf: ReadonlyMap<string, string>): ReadonlyMap<string, number> {
  const spans = new Map<string, { least: number; most: number }>();
  for (const { run, entries } of readings) {
    const [entry] = entries;
    const value = entry.form === "value" ? entry.value : entry.form === "interval" ? entry.goes : 0;
    const { least, most } = spans.get(run) ?? { least: value, most: value };
    spans.set(run, { least: Math.min(least, value), most: Math.max(most, value) });
  }
  const zeros = [...spans].flatMap(([run, { least, most }]): [string, number][] => {
    const instrument = instrumentOf.get(run) ?? "";
    if (instrument === "feeler") return [[run, least - 0.3]];
    const side = shows[instrument] ?? Number.POSITIVE_INFINITY;
    return least < -side || most > side ? [[run, (least + most) / 2]] : [];
  });
  return new Map(zeros);
}

function tidy(value: number): number {
  return Number(value.toFixed(4));
}

/** Keys of a logbook have no spaces. */
function keyOf(name: string): string {
  return name.replaceAll(" ", "-");
}

/** One QR of a dense system, for comparison with what the fit takes. */
export function millisecondsOfOneQr(rows: number, columns: number): number {
  const random = createRandom(1);
  const names = Array.from({ length: columns }, (_, i) => i);
  const stage = Array.from({ length: rows }, () => ({
    columns: names,
    coefficients: Float64Array.from(names, () => random.normal()),
    rightSide: random.normal(),
  }));
  const started = performance.now();
  eliminate({ variables: columns, stages: [stage], keepToEnd: [] });
  return performance.now() - started;
}
