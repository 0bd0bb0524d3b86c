// Appends to a database until it is killed, and says of every event, once the append has returned, that it is kept:
//   node --import tsx scripts/append-to-store.ts DATABASE
import { randomBytes } from "node:crypto";
import { writeSync } from "node:fs";
import { Stamp } from "../src/app/stamp.ts";
import type { LogEvent } from "../src/logbook/events.ts";
import { appendChecked } from "../src/store/append-checked.ts";
import { openStore } from "../src/store/open-store.ts";
import { workedGantry } from "../tests/simulation/simulate.ts";

const machineId = "shed";

const surroundings = {
  nowMs: () => Date.now(),
  offsetMinutes: () => 0,
  randomBytes: (count: number) => Uint8Array.from(randomBytes(count)),
};

const opened = openStore(process.argv[2]!);
if (!opened.ok) throw new Error(JSON.stringify(opened.diagnostics));
const store = opened.value;
acknowledge("open");

if (store.machines().length === 0) {
  const first = new Stamp(surroundings).event("machine-described", { machine: workedGantry });
  store.addMachine({ id: machineId, demonstration: false }, [first]);
  acknowledge(first.id);
}
for (let n = 0; ; n += 1) {
  const stamp = new Stamp(surroundings);
  // One event at a time, as readings come, and now and then several at once, as a device brings them that was away.
  const events: readonly LogEvent[] = Array.from({ length: n % 10 === 9 ? 25 : 1 }, (_, k) =>
    stamp.event("note-added", { text: `note ${n} ${k} ${"x".repeat((n * 37) % 900)}` }),
  );
  const outcome = appendChecked(store, machineId, events);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  for (const { id } of events) acknowledge(id);
}

function acknowledge(word: string): void {
  writeSync(1, `${word}\n`);
}
