// How long a logbook of years takes to read and replay, in a process that has done nothing else:
//   node --import tsx bench/logbook.ts
import { readFileSync } from "node:fs";
import { knownCatalogue } from "../src/app/known.ts";
import { eventIdFrom } from "../src/logbook/event-id.ts";
import { eventTimeFromInstant } from "../src/logbook/event-time.ts";
import { placesInLogbook, readLogbook } from "../src/logbook/read.ts";
import { replay } from "../src/logbook/replay.ts";
import { workedGantry } from "../tests/simulation/simulate.ts";
import { print, tell } from "./measure.ts";

const budgets = JSON.parse(readFileSync(new URL("budgets.json", import.meta.url), "utf8"));
const { events, mostMs, mostMegabytes } = budgets.logbook as Readonly<Record<string, number>>;

const stations = ["front left", "front middle", "front right", "rear left", "rear middle", "rear right"];

const bytes = new TextEncoder().encode(logbookOf(events!));
const started = performance.now();
const logbook = readLogbook(bytes, "made for measuring");
if (!logbook.ok) throw new Error(JSON.stringify(logbook.diagnostics));
const read = performance.now();
const timeline = replay(logbook.value.events, knownCatalogue, placesInLogbook(logbook.value));
if (!timeline.ok) throw new Error(JSON.stringify(timeline.diagnostics));
const replayed = performance.now();

tell(
  `${logbook.value.events.length} events, ${timeline.value.readings.length} readings: ` +
    `read in ${Math.round(read - started)} ms, replayed in ${Math.round(replayed - read)} ms`,
);
print(
  { name: "a logbook of 100,000 events opens", value: replayed - started, unit: "ms", budget: mostMs! },
  { name: "  and takes", value: process.resourceUsage().maxRSS / 1024, unit: "MB", budget: mostMegabytes! },
);

/** Runs of six readings by leaves and by a dial, with withdrawals, homings, moves and notes between them. */
function logbookOf(count: number): string {
  const lines: string[] = [];
  const random = new Uint8Array(10);
  const put = (body: Readonly<Record<string, unknown>>): string => {
    const instant = Date.UTC(2024, 0, 1) + lines.length * 20_000;
    const id = eventIdFrom(instant, random);
    lines.push(JSON.stringify({ v: 1, id, at: eventTimeFromInstant(instant, 60), ...body }));
    return id;
  };
  put({ kind: "machine-described", machine: workedGantry });
  put({ kind: "instrument-added", instrument: { id: "leaves", kind: "feeler-leaves" } });
  put({ kind: "instrument-added", instrument: { id: "dial", kind: "dial-indicator" } });
  put({ kind: "object-added", object: { id: "oak", kind: "block" } });
  for (let n = 0; lines.length < count; n += 1) {
    const run = `run-${n}`;
    const byLeaves = n % 2 === 0;
    const conditions = { carriageParkedMm: 300, temperatureC: 18, note: "hose off" };
    put(
      byLeaves
        ? {
            kind: "run-begun",
            run,
            check: "gap-under-beam",
            instrument: "leaves",
            objects: { block: "oak" },
            conditions,
          }
        : { kind: "run-begun", run, check: "bed-touch", instrument: "dial" },
    );
    let last = "";
    for (const [k, station] of stations.entries()) {
      const place = `x=${20 + ((n * 7) % 560)} y=${40 + k * 60}`;
      const reading = byLeaves
        ? { station, unit: "mm", goes: 0.6, doesNotGo: 0.65 }
        : { station: place, unit: n % 4 === 1 ? "thou" : "mm", value: ((n % 40) - 20) / 100 };
      last = put({ kind: "reading-taken", run, ...reading });
    }
    if (n % 5 === 0) put({ kind: "reading-withdrawn", reading: last, because: "a chip lay under the block" });
    if (n % 7 === 0) put({ kind: "move-made", adjuster: "beam.right", amount: 0.05 });
    if (n % 9 === 0) put({ kind: "homed" });
    if (n % 11 === 0) put({ kind: "note-added", text: "wiped the rails" });
  }
  return `${lines.slice(0, count).join("\n")}\n`;
}
