import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect } from "vitest";
import type { LogEvent } from "../../src/logbook/events.ts";
import type { StartOptions } from "../../src/server/start-server.ts";
import { sampleEvent, soundLogbook } from "../logbook/sample-events.ts";
import { type Asked, ask, machineId, type TestServer, testServer } from "./asking.ts";

/** A shared server with a page and one machine, to be attacked. */
export interface Attacked {
  readonly server: TestServer;
  readonly machine: string;
  /** Fails unless the machine is as it was when this was last asked, or when the server began. */
  expectUntouched(): Promise<void>;
  /** The machine has been changed, and was meant to. */
  lookAgain(): Promise<void>;
  /** Whether the log has this refusal. */
  logTells(code: string): boolean;
  /** Fails unless the server still answers. */
  close(): Promise<void>;
}

export async function attackedServer(options: Partial<StartOptions> = {}): Promise<Attacked> {
  const server = await testServer({ web: builtPage(), ...options });
  const machine = machineId();
  const made = await ask(server.port, "/api/machines", { json: { id: machine, events: soundLogbook() } });
  expect(made.status).toBe(201);
  const look = async () => (await ask(server.port, `/api/machines/${machine}/export`)).text;
  let before = await look();
  return {
    server,
    machine,
    expectUntouched: async () => expect(await look()).toBe(before),
    lookAgain: async () => {
      before = await look();
    },
    logTells: (code) => server.log().some((line) => line.event === "refused" && line.code === code),
    close: async () => {
      expect((await ask(server.port, "/api/health")).json()).toMatchObject({ ok: true });
      await server.close();
    },
  };
}

/** A page of one file and a script. */
function builtPage(): string {
  const web = mkdtempSync(join(tmpdir(), "kilter-web-"));
  mkdirSync(join(web, "assets"));
  writeFileSync(join(web, "index.html"), "<!doctype html><title>Kilter</title>");
  writeFileSync(join(web, "assets/page.js"), "export {};");
  return web;
}

export function note(n: number, text = "wiped the rails"): LogEvent {
  return sampleEvent(n, { kind: "note-added", text });
}

/** One event to be added. */
export function adding(n: number): Asked {
  return { json: { events: [note(n)] } };
}
