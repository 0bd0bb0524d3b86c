import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, symlinkSync, utimesSync, writeFileSync } from "node:fs";
import { hostname, tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { whileLocked } from "./writers-lock.ts";

const module = new URL("writers-lock.ts", import.meta.url).href;
const loader = import.meta.resolve("tsx");
const briefly = 150;
const started: ChildProcess[] = [];
afterEach(() => {
  for (const child of started.splice(0)) child.kill("SIGKILL");
});

let file: string;
beforeEach(() => {
  file = join(mkdtempSync(join(tmpdir(), "kilter-lock-")), "machine.jsonl");
  writeFileSync(file, "");
});

/** Another process that has the lock and does not let go; resolves when it has it. */
function holder(): Promise<ChildProcess> {
  const script = `const { writeSync } = await import("node:fs");
    const { whileLocked } = await import(${JSON.stringify(module)});
    whileLocked(${JSON.stringify(file)}, () => {
      writeSync(1, "got it");
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
    });`;
  const child = spawn(process.execPath, ["--import", loader, "--input-type=module", "-e", script], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  started.push(child);
  return new Promise((resolve) => child.stdout.once("data", () => resolve(child)));
}

const gone = (child: ChildProcess) => new Promise((resolve) => child.once("exit", resolve));

describe("the lock of whoever writes", () => {
  it("is there while something runs, and not afterwards, even where that throws", () => {
    expect(whileLocked(file, () => existsSync(`${file}.lock`))).toBe(true);
    expect(existsSync(`${file}.lock`)).toBe(false);
    expect(() =>
      whileLocked(file, () => {
        throw new Error("full");
      }),
    ).toThrow("full");
    expect(existsSync(`${file}.lock`)).toBe(false);
  });

  it("keeps out whoever asks while another process has it, by whichever name, and says which process", async () => {
    const other = await holder();
    const name = `${file}.link`;
    symlinkSync(file, name);
    for (const path of [file, name]) {
      expect(whileLocked(path, () => "in", briefly)).toEqual({ heldBy: other.pid });
    }
    expect(readFileSync(`${file}.lock`, "utf8")).toContain(String(other.pid));
  });

  it("is free at once when the process that had it was killed", async () => {
    const other = await holder();
    const ended = gone(other);
    other.kill("SIGKILL");
    await ended;
    expect(existsSync(`${file}.lock`)).toBe(true);
    expect(whileLocked(file, () => "in", 0)).toBe("in");
    expect(existsSync(`${file}.lock`)).toBe(false);
  });

  it.each([
    ["of another computer", JSON.stringify({ token: "t", process: process.pid, computer: `not ${hostname()}` })],
    [
      "of a number that was given out again",
      JSON.stringify({ token: "t", process: process.pid, computer: hostname() }),
    ],
    ["half written", '{"tok'],
  ])("%s counts while it is fresh, and for nothing once it is old", (_, text) => {
    const lock = `${file}.lock`;
    writeFileSync(lock, text);
    expect(whileLocked(file, () => "in", briefly)).toHaveProperty("heldBy");
    const longAgo = Date.now() / 1000 - 60;
    utimesSync(lock, longAgo, longAgo);
    expect(whileLocked(file, () => "in", briefly)).toBe("in");
  });

  it("is done without where nothing can be made beside the file", () => {
    expect(whileLocked(join(file, "below", "a-file"), () => "in", 0)).toBe("in");
  });
});
