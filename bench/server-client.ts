import { type ChildProcess, spawn } from "node:child_process";
import { randomBytes } from "node:crypto";
import { type Agent, request } from "node:http";
import { fileURLToPath } from "node:url";
import { eventIdFrom } from "../src/logbook/event-id.ts";
import { eventTimeFromInstant } from "../src/logbook/event-time.ts";
import type { LogEvent } from "../src/logbook/events.ts";
import { workedGantry } from "../tests/simulation/simulate.ts";

export interface Answer {
  readonly status: number;
  readonly text: string;
  readonly cookie: string | null;
}

/** Asks as the server's own page does. Rejects where the connection breaks. */
export function ask(
  port: number,
  path: string,
  { json, cookie, agent }: { readonly json?: unknown; readonly cookie?: string; readonly agent?: Agent } = {},
): Promise<Answer> {
  const body = json === undefined ? undefined : JSON.stringify(json);
  const headers = {
    origin: `http://127.0.0.1:${port}`,
    ...(body !== undefined && { "content-type": "application/json", "content-length": Buffer.byteLength(body) }),
    ...(cookie !== undefined && { cookie }),
  };
  const method = body === undefined ? "GET" : "POST";
  return new Promise((resolve, reject) => {
    const sent = request({ host: "127.0.0.1", port, path, method, headers, agent }, (response) => {
      let text = "";
      response.setEncoding("utf8");
      response.on("data", (chunk: string) => {
        text += chunk;
      });
      response.on("error", reject);
      response.on("end", () => {
        const cookies = response.headers["set-cookie"];
        resolve({ status: response.statusCode ?? 0, text, cookie: cookies?.[0]?.split(";")[0] ?? null });
      });
    });
    sent.on("error", reject);
    sent.end(body);
  });
}

export interface ServerProcess {
  readonly child: ChildProcess;
  /** Port of the computer's own door. */
  readonly loopback: number;
  readonly network: number;
  readonly ended: Promise<void>;
}

/** Starts a server on a folder and waits until it listens. */
export function startProcess(folder: string): Promise<ServerProcess> {
  const script = fileURLToPath(new URL("server-process.ts", import.meta.url));
  const child = spawn(process.execPath, ["--import", "tsx", script, folder], { stdio: ["pipe", "pipe", "pipe"] });
  const ended = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  return new Promise((resolve, reject) => {
    let told = "";
    let complaint = "";
    child.stderr.on("data", (chunk) => {
      complaint += chunk;
    });
    child.stdout.on("data", (chunk) => {
      told += chunk;
      if (told.includes("\n")) resolve({ child, ended, ...JSON.parse(told) });
    });
    child.once("exit", (status, signal) =>
      reject(new Error(`the server ended with ${status ?? signal}: ${complaint}`)),
    );
  });
}

let count = 0;

/** An event of a workshop's day, later than the one before it. */
export function freshEvent(body: Readonly<Record<string, unknown>>): LogEvent {
  count += 1;
  const at = Date.UTC(2026, 2, 14) + count;
  return {
    v: 1,
    id: eventIdFrom(at, Uint8Array.from(randomBytes(10))),
    at: eventTimeFromInstant(at, 60),
    ...body,
  } as unknown as LogEvent;
}

/** A machine with leaves and with one run for each writer. */
export function workshopOf(writers: number): readonly LogEvent[] {
  const runs = Array.from({ length: writers }, (_, n) =>
    freshEvent({ kind: "run-begun", run: `run-${n}`, check: "gap-under-beam", instrument: "leaves" }),
  );
  return [
    freshEvent({ kind: "machine-described", machine: workedGantry }),
    freshEvent({ kind: "instrument-added", instrument: { id: "leaves", kind: "feeler-leaves" } }),
    ...runs,
  ];
}

/** A reading of a writer's own run, anywhere on the bed. */
export function readingOf(writer: number, random: () => number): LogEvent {
  const station = `x=${20 + Math.floor(random() * 560)} y=${40 + Math.floor(random() * 400)}`;
  return freshEvent({ kind: "reading-taken", run: `run-${writer}`, station, unit: "mm", goes: 0.6, doesNotGo: 0.65 });
}

/** Numbers from 0 to 1, the same for the same seed. */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
