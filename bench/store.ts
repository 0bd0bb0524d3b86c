// What the database costs, in a process of its own: node --import tsx bench/store.ts
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { eventIdFrom } from "../src/logbook/event-id.ts";
import { eventTimeFromInstant } from "../src/logbook/event-time.ts";
import type { LogEvent } from "../src/logbook/events.ts";
import { appendChecked } from "../src/store/append-checked.ts";
import { openStore } from "../src/store/open-store.ts";
import { workedGantry } from "../tests/simulation/simulate.ts";
import { print } from "./measure.ts";

const budgets = JSON.parse(readFileSync(new URL("budgets.json", import.meta.url), "utf8"));
const { appends, appendsMs, events, addMs, openMs, readMs, backUpMs } = budgets.store as Readonly<
  Record<string, number>
>;

const random = new Uint8Array(10);
let made = 0;

function event(body: Readonly<Record<string, unknown>>): LogEvent {
  const instant = Date.UTC(2024, 0, 1) + made++ * 20_000;
  return {
    v: 1,
    id: eventIdFrom(instant, random),
    at: eventTimeFromInstant(instant, 60),
    ...body,
  } as unknown as LogEvent;
}

const stations = ["front left", "front middle", "front right", "rear left", "rear middle", "rear right"];

/** The n-th event of runs of six readings by leaves. */
function nextOfRuns(n: number): LogEvent {
  const run = `run-${Math.floor(n / 7)}`;
  if (n % 7 === 0) return event({ kind: "run-begun", run, check: "gap-under-beam", instrument: "leaves" });
  const station = stations[(n % 7) - 1];
  return event({ kind: "reading-taken", run, station, unit: "mm", goes: 0.6, doesNotGo: 0.65 });
}

const folder = mkdtempSync(join(tmpdir(), "kilter-bench-"));
const path = join(folder, "kilter.db");
const store = opened();

const first = [
  event({ kind: "machine-described", machine: workedGantry }),
  event({ kind: "instrument-added", instrument: { id: "leaves", kind: "feeler-leaves" } }),
];
const long = [...first, ...Array.from({ length: events! - first.length }, (_, n) => nextOfRuns(n))];
const adding = timed(() => store.addMachine({ id: "long", demonstration: false }, long));

// Into the long logbook, so that what an append costs does not hide behind a short one. The first reads what is there.
const nextRun = 7 * Math.ceil(long.length / 7);
const singles = Array.from({ length: appends! + 1 }, (_, n) => nextOfRuns(nextRun + n));
append(singles[0]!);
const appending = timed(() => singles.slice(1).forEach(append));
const backingUp = timed(() => store.backUp(join(folder, "copy.db")));
store.close();

let again = store;
const opening = timed(() => {
  again = opened();
});
const reading = timed(() => again.eventsAfter(0, { machine: "long" }));
again.close();
rmSync(folder, { recursive: true });

print(
  { name: `${appends} checked appends, each on the disk`, value: appending, unit: "ms", budget: appendsMs! },
  { name: "a database of 100,000 events opens", value: opening, unit: "ms", budget: openMs! },
  { name: "  its events are read", value: reading, unit: "ms", budget: readMs! },
  { name: "  were added at once", value: adding, unit: "ms", budget: addMs! },
  { name: "  and are backed up", value: backingUp, unit: "ms", budget: backUpMs! },
);

function append(one: LogEvent): void {
  const outcome = appendChecked(store, "long", [one]);
  if (!outcome.ok || outcome.value.added.length !== 1) throw new Error(JSON.stringify(outcome));
}

function opened() {
  const outcome = openStore(path);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

function timed(work: () => unknown): number {
  const started = performance.now();
  work();
  return performance.now() - started;
}
