import { randomBytes } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { Agent, request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ask, readingOf, type ServerProcess, seeded, startProcess, workshopOf } from "./server-client.ts";

export interface LoadOptions {
  /** Devices with an open page; the first of them also write. */
  readonly devices: number;
  readonly writers: number;
  readonly seconds: number;
  /** Of one writer between two batches, on average. */
  readonly pauseMs: number;
  readonly seed: number;
}

export interface LoadResult {
  /** Events that the server has acknowledged. */
  readonly events: number;
  /** From sending a batch to its acknowledgement, 99 of 100 of them. */
  readonly acknowledgedP99Ms: number;
  /** From sending an event to its arrival on a device, 99 of 100 over all devices. */
  readonly heardP99Ms: number;
  readonly megabytes: number;
  /** Over all devices: acknowledged and never heard; heard more than once; heard and never sent. */
  readonly lost: number;
  readonly double: number;
  readonly unknown: number;
}

interface Device {
  readonly cookie: string;
  readonly heard: Map<string, { atMs: number; times: number }>;
  readonly close: () => void;
}

/** Pages open on many paired devices, some of them writing, against a server in a process of its own. */
export async function runLoad(options: LoadOptions): Promise<LoadResult> {
  const folder = mkdtempSync(join(tmpdir(), "kilter-load-"));
  const server = await startProcess(folder);
  try {
    return await load(server, options);
  } finally {
    server.child.kill("SIGTERM");
    await server.ended;
    rmSync(folder, { recursive: true, force: true });
  }
}

async function load(server: ServerProcess, options: LoadOptions): Promise<LoadResult> {
  const { devices: count, writers, seconds, pauseMs, seed } = options;
  const machine = randomBytes(16).toString("hex");
  const made = await ask(server.loopback, "/api/machines", { json: { id: machine, events: workshopOf(writers) } });
  const { lastSequence } = JSON.parse(made.text) as { lastSequence: number };
  const devices: Device[] = [];
  for (let n = 0; n < count; n += 1) devices.push(await pairedDevice(server, lastSequence));

  const sent = new Map<string, number>();
  const acknowledged: string[] = [];
  const acknowledgedMs: number[] = [];
  const agent = new Agent({ keepAlive: true });
  const end = performance.now() + seconds * 1000;
  await Promise.all(
    devices.slice(0, writers).map(async ({ cookie }, writer) => {
      const random = seeded(seed + writer);
      for (;;) {
        await new Promise((resolve) => setTimeout(resolve, 2 * pauseMs * random()));
        if (performance.now() > end) return;
        const events = Array.from({ length: 1 + Math.floor(3 * random()) }, () => readingOf(writer, random));
        const startMs = performance.now();
        for (const { id } of events) sent.set(id, startMs);
        const answer = await ask(server.network, `/api/machines/${machine}/events`, {
          json: { events },
          cookie,
          agent,
        });
        if (answer.status !== 200) throw new Error(answer.text);
        acknowledgedMs.push(performance.now() - startMs);
        acknowledged.push(...events.map(({ id }) => id));
      }
    }),
  );
  await settled(devices, acknowledged.length);
  const megabytes = residentMegabytes(server.child.pid!);
  for (const device of devices) device.close();
  agent.destroy();

  const heardMs: number[] = [];
  let [lost, double, unknown] = [0, 0, 0];
  for (const { heard } of devices) {
    lost += acknowledged.filter((id) => !heard.has(id)).length;
    for (const [id, { atMs, times }] of heard) {
      const startMs = sent.get(id);
      if (startMs === undefined) unknown += 1;
      else heardMs.push(atMs - startMs);
      if (times > 1) double += 1;
    }
  }
  return {
    events: acknowledged.length,
    acknowledgedP99Ms: p99(acknowledgedMs),
    heardP99Ms: p99(heardMs),
    megabytes,
    lost,
    double,
    unknown,
  };
}

async function pairedDevice({ loopback, network }: ServerProcess, after: number): Promise<Device> {
  const offer = await ask(loopback, "/api/pairing", { json: { role: "helper" } });
  const { code } = JSON.parse(offer.text) as { code: string };
  const { cookie } = await ask(network, "/api/pair", { json: { code } });
  if (cookie === null) throw new Error("the device was not paired");
  const heard: Device["heard"] = new Map();
  const hear = (data: string): void => {
    const atMs = performance.now();
    for (const { id } of (JSON.parse(data) as { events: { id: string }[] }).events) {
      const before = heard.get(id);
      if (before) before.times += 1;
      else heard.set(id, { atMs, times: 1 });
    }
  };
  return new Promise((resolve, reject) => {
    const path = `/api/live?after=${after}`;
    const opened = request(
      { host: "127.0.0.1", port: network, path, headers: { cookie }, agent: false },
      (response) => {
        if (response.statusCode !== 200) reject(new Error(`live news were refused with ${response.statusCode}`));
        let text = "";
        response.setEncoding("utf8");
        response.on("error", () => {});
        response.on("data", (chunk: string) => {
          text += chunk;
          const messages = text.split("\n\n");
          text = messages.pop()!;
          for (const message of messages) {
            const data = /^data: (.*)$/m.exec(message)?.[1];
            if (data !== undefined) hear(data);
          }
        });
        resolve({ cookie, heard, close: () => opened.destroy() });
      },
    );
    opened.on("error", reject);
    opened.end();
  });
}

/** Until every device has heard as much as was acknowledged, or nothing has come for two seconds. */
async function settled(devices: readonly Device[], events: number): Promise<void> {
  const total = () => devices.reduce((sum, { heard }) => sum + heard.size, 0);
  let [last, sinceMs] = [total(), performance.now()];
  while (total() < events * devices.length && performance.now() - sinceMs < 2000) {
    await new Promise((resolve) => setTimeout(resolve, 20));
    if (total() > last) [last, sinceMs] = [total(), performance.now()];
  }
}

/** What the process holds in memory, as the system counts it; 0 where it does not say. */
function residentMegabytes(process: number): number {
  try {
    const [, kilobytes] = /^VmHWM:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${process}/status`, "utf8")) ?? [];
    return Number(kilobytes ?? 0) / 1024;
  } catch {
    return 0;
  }
}

function p99(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * 0.99))] ?? 0;
}
