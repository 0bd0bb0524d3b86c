import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, it } from "vitest";
import { ask, until } from "./asking.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const started: ChildProcess[] = [];

afterEach(() => {
  // What was killed above goes by itself.
  for (const { pid } of started.splice(0)) endGroup(pid!);
});

function endGroup(pid: number): void {
  try {
    process.kill(-pid, "SIGKILL");
  } catch {
    // All of it has ended.
  }
}

const folder = () => mkdtempSync(join(tmpdir(), "kilter-start-"));

/** As a script would: its output goes into a pipe, and nobody types anything. */
async function npmStart(...words: readonly string[]) {
  const child = spawn("npm", ["start", "--", ...words], {
    cwd: root,
    env: { ...process.env, NO_COLOR: "1" },
    stdio: ["ignore", "pipe", "pipe"],
    detached: true,
    shell: process.platform === "win32",
  });
  started.push(child);
  let [out, err] = ["", ""];
  child.stdout.on("data", (chunk) => {
    out += chunk;
  });
  child.stderr.on("data", (chunk) => {
    err += chunk;
  });
  await until(() => out.includes("Ctrl+C stops it"));
  const port = Number(/Kilter is at http:\/\/127\.0\.0\.1:(\d+)/.exec(out)?.[1]);
  // What npm itself says of its scripts, unless it was told to be silent, ends with a blank line.
  const said = () => out.split(/^> node scripts\/start\.mjs.*\n\n/m).at(-1) ?? "";
  return { child, port, said, err: () => err };
}

/** As the terminal does at Ctrl+C: all of its programs hear it. */
function interrupt({ pid }: ChildProcess): void {
  process.kill(-pid!, "SIGINT");
}

const log = (data: string) => readFileSync(join(data, "server.log"), "utf8").trimEnd().split("\n");
const isRunning = (data: string) => !/"event":"stopped"/.test(log(data).at(-1)!);

describe("npm start", () => {
  it("shows the main job in one screenful, goes on serving the page, and ends in order when told to", async () => {
    const data = folder();
    const { child, port, said, err } = await npmStart("--port", "0", "--data", data);
    const lines = said()
      .replace(/^Building .*\n/, "")
      .trimEnd()
      .split("\n");
    expect(lines.length).toBeLessThanOrEqual(23);
    // The folder's own path may be of any length.
    for (const line of lines) if (!line.includes(data)) expect(line.length).toBeLessThanOrEqual(80);
    const text = lines.join("\n");
    expect(text).toMatch(/^The shared workshop's router \(invented/);
    expect(text).toMatch(/^◆ Squareness of Y to X .* ± .* mm\/m$/m);
    expect(text).toMatch(/^Square of 300: .* ± .* ± /m);
    expect(text).toMatch(/^Circle of 150: .* ± .* ± /m);
    expect(text).toMatch(/^\d moves, about \d+ minutes/m);
    expect(text).toMatch(/^1 {2}\S[\s\S]*?stop when [\s\S]*?\.\n(2 {2}|Then \d more moves)/m);
    expect((await ask(port, "/")).text).toContain("<title>Kilter</title>");
    const [machine] = (await ask(port, "/api/machines")).json<{ demonstration: boolean }[]>();
    expect(machine).toMatchObject({ demonstration: true });
    child.kill("SIGTERM");
    await until(() => !isRunning(data));
    expect(err()).toBe("");
  });

  it("brings the demonstration once: when it is deleted, only where the page is stands there", async () => {
    const data = folder();
    const first = await npmStart("--port", "0", "--data", data);
    const [machine] = (await ask(first.port, "/api/machines")).json<{ id: string }[]>();
    const name = "The shared workshop's router";
    const deleted = await ask(first.port, `/api/machines/${machine!.id}`, { method: "DELETE", json: { name } });
    expect(deleted.status).toBe(204);
    interrupt(first.child);
    await until(() => !isRunning(data));

    const other = createServer();
    // If the usual port is taken already, so much the better.
    await new Promise<void>((resolve) => {
      other.once("error", () => resolve());
      other.listen(4170, "127.0.0.1", resolve);
    });
    const second = await npmStart("--data", data);
    other.close();
    expect((await ask(second.port, "/api/machines")).json()).toEqual([]);
    expect(second.port).toBeGreaterThan(4170);
    expect(second.said().replace(/^Building .*\n/, "")).toMatch(/^Kilter is at http:\S+ \(port 4170 is taken\)\n/);

    // It must not go on for nobody.
    second.child.kill("SIGKILL");
    await until(() => !isRunning(data));
  });

  it("is the whole job for a script that asks for it once", () => {
    const { status, stdout } = spawnSync("npm", ["start", "--silent", "--", "--once", "--help"], {
      cwd: root,
      encoding: "utf8",
      shell: process.platform === "win32",
    });
    expect(status).toBe(0);
    expect(stdout).toContain("Usage: kilter demonstration");
  });
});
