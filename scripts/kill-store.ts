// Kills a process that appends to a database at random moments, and looks each time whether everything that it had said
// was kept is there: node --import tsx scripts/kill-store.ts 100
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { openStore } from "../src/store/open-store.ts";

export interface KillReport {
  readonly kills: number;
  /** Kills that came before the database was open. */
  readonly whileOpening: number;
  readonly acknowledged: number;
  /** Events that are there although the kill came before they could be acknowledged. */
  readonly unacknowledged: number;
  /** What should not be; none where all is well. */
  readonly faults: readonly string[];
}

const child = fileURLToPath(new URL("append-to-store.ts", import.meta.url));
const killsOfOneDatabase = 10;
// Starting takes some hundred milliseconds, so a kill within these comes now before the opening, now within it.
const longestFromStartMs = 900;
// Counted in what has been said, so that a busy computer tries as much as an idle one; then somewhere within an append.
const mostSaid = 100;
const longestFromSaidMs = 5;

/** Each database is killed ten times in a row and then begun anew; two are worked on at once. */
export async function killRounds(kills: number, chance: () => number): Promise<KillReport> {
  const rows = Array.from({ length: Math.ceil(kills / killsOfOneDatabase) }, (_, n) =>
    Math.min(killsOfOneDatabase, kills - n * killsOfOneDatabase),
  );
  const reports: KillReport[] = [];
  const work = async () => {
    for (let row = rows.pop(); row !== undefined; row = rows.pop()) reports.push(await killOneDatabase(row, chance));
  };
  await Promise.all([work(), work()]);
  const sum = (count: (report: KillReport) => number) => reports.reduce((total, report) => total + count(report), 0);
  return {
    kills: sum((report) => report.kills),
    whileOpening: sum((report) => report.whileOpening),
    acknowledged: sum((report) => report.acknowledged),
    unacknowledged: sum((report) => report.unacknowledged),
    faults: reports.flatMap(({ faults }) => faults),
  };
}

async function killOneDatabase(kills: number, chance: () => number): Promise<KillReport> {
  const folder = mkdtempSync(join(tmpdir(), "kilter-kill-"));
  const path = join(folder, "kilter.db");
  const acknowledged = new Set<string>();
  const faults: string[] = [];
  let whileOpening = 0;
  let there = 0;
  for (let n = 0; n < kills; n += 1) {
    const { isOpen, ids, complaint } = await oneKill(path, n % 3 === 0 ? "start" : "open", chance);
    if (!isOpen) whileOpening += 1;
    if (complaint !== "") faults.push(complaint);
    for (const id of ids) acknowledged.add(id);
    there = look(path, acknowledged, faults);
  }
  rmSync(folder, { recursive: true, force: true });
  const count = acknowledged.size;
  return { kills, whileOpening, acknowledged: count, unacknowledged: there - count, faults };
}

/** Starts the process, kills it, and gives the ids that it acknowledged. */
function oneKill(path: string, from: "start" | "open", chance: () => number) {
  return new Promise<{ isOpen: boolean; ids: readonly string[]; complaint: string }>((done) => {
    const process_ = spawn(process.execPath, ["--import", "tsx", child, path], { stdio: ["ignore", "pipe", "pipe"] });
    let [said, complaint, isTimed] = ["", "", false];
    const killWithin = (longestMs: number) => {
      isTimed = true;
      setTimeout(() => process_.kill("SIGKILL"), chance() * longestMs);
    };
    if (from === "start") killWithin(longestFromStartMs);
    const enough = 1 + Math.floor(chance() * mostSaid);
    process_.stdout.on("data", (chunk) => {
      said += chunk;
      if (!isTimed && said.split("\n").length > enough) killWithin(longestFromSaidMs);
    });
    process_.stderr.on("data", (chunk) => {
      complaint += chunk;
    });
    process_.once("close", () => {
      // A line that the kill has cut off acknowledges nothing.
      const words = said.split("\n").slice(0, -1);
      done({ isOpen: words[0] === "open", ids: words.slice(1), complaint });
    });
  });
}

/** Holds the database against what was acknowledged; gives how many events there are. */
function look(path: string, acknowledged: ReadonlySet<string>, faults: string[]): number {
  const opened = openStore(path);
  if (!opened.ok) {
    faults.push(`it does not open: ${JSON.stringify(opened.diagnostics)}`);
    return 0;
  }
  const store = opened.value;
  const ids = store.eventsAfter(0).map(({ event }) => event.id);
  const held = new Set(ids);
  if (held.size !== ids.length) faults.push(`${ids.length - held.size} events are there twice`);
  const lost = [...acknowledged].filter((id) => !held.has(id));
  if (lost.length > 0) faults.push(`${lost.length} acknowledged events are gone`);
  faults.push(...store.faults().map(({ data }) => String(data.found)));
  store.close();
  return ids.length;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const report = await killRounds(Number(process.argv[2] ?? 100), Math.random);
  const { kills, whileOpening, acknowledged, unacknowledged, faults } = report;
  console.log(`${kills} kills, ${whileOpening} of them before the database was open`);
  console.log(`${acknowledged} events acknowledged, ${unacknowledged} more kept that could not be`);
  console.log(faults.length === 0 ? "none lost, none twice, every database sound" : faults.join("\n"));
  process.exitCode = faults.length === 0 ? 0 : 1;
}
