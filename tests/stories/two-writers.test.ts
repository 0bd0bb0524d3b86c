import { type ChildProcess, spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { dirname } from "node:path";
import { afterEach, expect, it } from "vitest";
import { createMachine, done, kilterCommand, layouts, newLogbook } from "./kilter.ts";

const started: ChildProcess[] = [];
afterEach(() => {
  for (const child of started.splice(0)) child.kill("SIGKILL");
});

function start(args: readonly string[]): Promise<{ readonly status: number | null; readonly err: string }> {
  const [program, ...words] = kilterCommand(args);
  const child = spawn(program, words, { stdio: ["ignore", "ignore", "pipe"], env: { ...process.env, NO_COLOR: "1" } });
  started.push(child);
  let err = "";
  child.stderr.on("data", (chunk) => {
    err += chunk;
  });
  return new Promise((resolve) => child.once("close", (status) => resolve({ status, err })));
}

it("many who note something in one logbook at the same moment all get it in, and nothing else is there", async () => {
  const file = newLogbook();
  createMachine(file, layouts[0]);
  const before = readFileSync(file, "utf8");
  const notes = Array.from({ length: 8 }, (_, n) => `note ${n}`);
  const ended = await Promise.all(notes.map((note) => start(["happened", file, "knocked", "--note", note])));
  for (const { status, err } of ended) {
    // Whoever finds that others were sooner is told so.
    expect(err === "" || err.includes("[logbook-grew]"), err).toBe(true);
    expect(status).toBe(0);
  }
  const now = readFileSync(file, "utf8");
  expect(now.startsWith(before)).toBe(true);
  const added = now.slice(before.length).trimEnd().split("\n");
  expect(added.map((line) => (JSON.parse(line) as { note: string }).note).sort()).toEqual(notes);
  expect(readdirSync(dirname(file))).toEqual(["machine.jsonl"]);
  done(["inspect", file]);
});
