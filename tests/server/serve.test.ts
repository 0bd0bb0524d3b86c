import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, it } from "vitest";
import { kilterCommand } from "../stories/kilter.ts";
import { ask, openEar, until } from "./asking.ts";

const thisFile = fileURLToPath(import.meta.url);
const started: ChildProcess[] = [];

afterEach(() => {
  for (const child of started.splice(0)) child.kill("SIGKILL");
});

interface Served {
  readonly child: ChildProcess;
  readonly out: () => string;
  readonly err: () => string;
  readonly ended: Promise<number | string>;
}

/** `kilter serve` as a person would type it. */
function serve(...args: readonly string[]): Served {
  const [program, ...words] = kilterCommand(["serve", ...args]);
  const child = spawn(program, words, {
    env: { ...process.env, NO_COLOR: "1" },
  });
  started.push(child);
  let [out, err] = ["", ""];
  child.stdout.on("data", (chunk) => {
    out += chunk;
  });
  child.stderr.on("data", (chunk) => {
    err += chunk;
  });
  const ended = new Promise<number | string>((resolve) =>
    child.once("exit", (status, signal) => resolve(status ?? signal ?? "")),
  );
  return { child, out: () => out, err: () => err, ended };
}

async function portOf({ out }: Served): Promise<number> {
  await until(() => /Ctrl\+C stops it/.test(out()));
  return Number(/Kilter is at http:\/\/127\.0\.0\.1:(\d+)/.exec(out())?.[1]);
}

const folder = () => mkdtempSync(join(tmpdir(), "kilter-serve-"));

describe("kilter serve", () => {
  it("prints what comes of the demonstration and where it is, and ends in order when told to", async () => {
    const data = folder();
    const served = serve("--port", "0", "--data", data);
    const port = await portOf(served);
    expect(served.out()).toContain("The shared workshop's router");
    expect(served.out()).toMatch(/^◆ Squareness of Y to X .* ± /m);
    expect(served.out()).toContain(join(data, "kilter.db"));
    for (const line of served.out().split("\n"))
      expect(line.length).toBeLessThanOrEqual(Math.max(80, data.length + 40));
    expect((await ask(port, "/api/me")).json()).toEqual({ role: "owner", shared: false, loopback: true });
    const ear = await openEar(port, "/api/live");
    served.child.kill("SIGTERM");
    expect(await served.ended).toBe(0);
    expect(ear.hasEnded()).toBe(true);
    expect(served.err()).toBe("");
    expect(readFileSync(join(data, "server.log"), "utf8")).toMatch(/"event":"stopped"\}\n$/);
    // Nothing is left that a next start would have to clean up.
    expect(readdirSync(data).filter((name) => /-wal$|\.new$/.test(name))).toEqual([]);
  });

  it("is stopped by Ctrl+C too, and by the terminal's end", async () => {
    for (const signal of ["SIGINT", "SIGHUP"] as const) {
      const served = serve("--quiet", "--port", "0", "--data", folder());
      await portOf(served);
      served.child.kill(signal);
      expect(await served.ended).toBe(0);
    }
  });

  it.each(["by itself", "through a shell, as npm does,"])(
    "stops when the program that started it %s is gone",
    async (how) => {
      const data = folder();
      const words = kilterCommand(["serve", "--quiet", "--port", "0", "--data", data]);
      const isByShell = how !== "by itself";
      // The second command keeps the shell from giving its place to the first.
      const line = `${words.map((word) => `'${word}'`).join(" ")}; true`;
      const [program, ...args] = isByShell ? ["sh", "-c", line] : words;
      const script = `
      const { spawn } = require("node:child_process");
      const child = spawn(${JSON.stringify(program)}, ${JSON.stringify(args)}, { stdio: ["ignore", "pipe", "inherit"] });
      child.stdout.pipe(process.stdout);`;
      const env = { ...process.env, ...(isByShell && { npm_lifecycle_event: "start" }) };
      const parent = spawn(process.execPath, ["-e", script], { env });
      started.push(parent);
      let out = "";
      parent.stdout.on("data", (chunk) => {
        out += chunk;
      });
      await until(() => out.includes("Ctrl+C stops it"));
      const log = () => readFileSync(join(data, "server.log"), "utf8");
      expect(log()).not.toContain('"event":"stopped"');
      parent.kill("SIGKILL");
      await until(() => log().includes('"event":"stopped"'));
    },
  );

  it("says who has the folder when it is started twice on one", async () => {
    const data = folder();
    const first = serve("--quiet", "--port", "0", "--data", data);
    await portOf(first);
    const second = serve("--port", "0", "--data", data);
    expect(await second.ended).toBe(2);
    expect(second.err()).toContain("[database-in-use]");
    expect(second.err()).toContain(`process ${first.child.pid}`);
  });

  it("refuses a port that is taken, if it was named, and one that is none", async () => {
    const other = createServer();
    await new Promise<void>((resolve) => other.listen(0, "127.0.0.1", resolve));
    const { port } = other.address() as { port: number };
    const data = folder();
    const served = serve("--port", String(port), "--data", data);
    expect(await served.ended).toBe(2);
    expect(served.err()).toContain("[port-taken]");
    other.close();
    const unfit = serve("--port", "99999", "--data", data);
    expect(await unfit.ended).toBe(2);
    expect(unfit.err()).toContain("[word-form]");
    expect(existsSync(join(data, "kilter.db-wal"))).toBe(false);
  });

  it("refuses a folder that cannot be one", async () => {
    const served = serve("--port", "0", "--data", thisFile);
    expect(await served.ended).toBe(2);
    expect(served.err()).toMatch(/\[(?:database-unopenable|data-folder-unusable)\]/);
  });
});
