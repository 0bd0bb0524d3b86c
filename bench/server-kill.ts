// Kills a server under load again and again at random moments, and looks what is left:
//   node --import tsx bench/server-kill.ts 100
import { randomBytes } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { Agent } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { LogEvent } from "../src/logbook/events.ts";
import { ask, readingOf, seeded, startProcess, workshopOf } from "./server-client.ts";

export interface KillResult {
  readonly kills: number;
  /** Acknowledged before a kill, over all of them. */
  readonly acknowledged: number;
  /** Batches that were on their way when the server died, and were sent again. */
  readonly sentAgain: number;
  readonly lost: number;
  readonly double: number;
  /** In the store and never sent. */
  readonly unknown: number;
}

const writers = 6;
// Counted in what was acknowledged, so that a busy computer tries as much as an idle one; then somewhere within a batch.
const mostAcknowledged = 60;
const longestFromThereMs = 5;

/** One store, and as many servers after one another as there are kills; each begins with what the last one left. */
export async function killServers(kills: number, seed: number): Promise<KillResult> {
  const folder = mkdtempSync(join(tmpdir(), "kilter-kill-"));
  const random = seeded(seed);
  const machine = randomBytes(16).toString("hex");
  const first = workshopOf(writers);
  const acknowledged = new Set(first.map(({ id }) => id));
  const sent = new Set(acknowledged);
  let waiting: (readonly LogEvent[])[] = [];
  let [sentAgain, lost, double, unknown] = [0, 0, 0, 0];
  try {
    for (let kill = 0; kill <= kills; kill += 1) {
      const server = await startProcess(folder);
      const agent = new Agent({ keepAlive: true });
      const post = (events: readonly LogEvent[]) =>
        ask(server.loopback, `/api/machines/${machine}/events`, { json: { events }, agent });
      if (kill === 0) await ask(server.loopback, "/api/machines", { json: { id: machine, events: first } });
      const there = await eventsOn(server.loopback, machine);
      const ids = new Set(there);
      double += there.length - ids.size;
      lost += [...acknowledged].filter((id) => !ids.has(id)).length;
      unknown += there.filter((id) => !sent.has(id)).length;
      // As the outbox of a page does: what was not acknowledged is sent again, whether it had arrived or not.
      for (const events of waiting) {
        const { status, text } = await post(events);
        if (status !== 200) throw new Error(text);
        for (const { id } of events) acknowledged.add(id);
        sentAgain += 1;
      }
      waiting = [];
      if (kill === kills) {
        server.child.kill("SIGTERM");
        await server.ended;
        break;
      }
      let isKilled = false;
      let left = 1 + Math.floor(mostAcknowledged * random());
      let reached = () => {};
      const isReached = new Promise<void>((resolve) => {
        reached = resolve;
      });
      const writing = Array.from({ length: writers }, async (_, writer) => {
        while (!isKilled) {
          const events = Array.from({ length: 1 + Math.floor(4 * random()) }, () => readingOf(writer, random));
          for (const { id } of events) sent.add(id);
          try {
            const { status, text } = await post(events);
            if (status !== 200) throw new Error(text);
            for (const { id } of events) acknowledged.add(id);
            left -= 1;
            if (left === 0) reached();
          } catch (problem) {
            if (!isKilled) {
              reached();
              throw problem;
            }
            waiting.push(events);
          }
        }
      });
      await isReached;
      await new Promise((resolve) => setTimeout(resolve, longestFromThereMs * random()));
      isKilled = true;
      server.child.kill("SIGKILL");
      await Promise.all([server.ended, ...writing]);
      agent.destroy();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { kills, acknowledged: acknowledged.size, sentAgain, lost, double, unknown };
}

async function eventsOn(port: number, machine: string): Promise<readonly string[]> {
  const ids: string[] = [];
  for (let after = 0; ; ) {
    const { text } = await ask(port, `/api/machines/${machine}/events?after=${after}`);
    const { events, lastSequence } = JSON.parse(text) as {
      events: { sequence: number; event: { id: string } }[];
      lastSequence: number;
    };
    ids.push(...events.map(({ event }) => event.id));
    after = events.at(-1)?.sequence ?? lastSequence;
    if (after >= lastSequence) return ids;
  }
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const result = await killServers(Number(process.argv[2] ?? 100), 4170);
  console.log(JSON.stringify(result));
  process.exitCode = result.lost + result.double + result.unknown > 0 ? 1 : 0;
}
