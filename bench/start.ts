// npm start, when everything is installed and built: until the page is answered, and until the main job stands in the
// terminal: node --import tsx bench/start.ts
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { print } from "./measure.ts";

const { answerMs, mainJobMs } = JSON.parse(readFileSync(new URL("budgets.json", import.meta.url), "utf8")).start;
const lookAgainMs = 10;
const silentMs = 60_000;

const data = mkdtempSync(join(tmpdir(), "kilter-start-"));
const port = await freePort();
const startedMs = performance.now();
const child = spawn("npm", ["start", "--", "--port", String(port), "--data", data], {
  cwd: fileURLToPath(new URL("..", import.meta.url)),
  stdio: ["ignore", "pipe", "inherit"],
  shell: process.platform === "win32",
});
const ended = new Promise((resolve) => child.once("exit", resolve));
let said = "";
const shownMs = new Promise<number>((resolve) => {
  child.stdout.on("data", (bytes: Buffer) => {
    said += bytes.toString();
    if (said.includes("Ctrl+C stops it")) resolve(performance.now() - startedMs);
  });
});
const answeredMs = await untilAnswered(`http://127.0.0.1:${port}/`);
print(
  { name: "npm start, until the page is answered", value: answeredMs, unit: "ms", budget: answerMs },
  { name: "  and until the main job is shown", value: await shownMs, unit: "ms", budget: mainJobMs },
);
child.kill("SIGTERM");
await ended;
rmSync(data, { recursive: true, force: true });

async function untilAnswered(address: string): Promise<number> {
  while (performance.now() - startedMs < silentMs) {
    const status = await fetch(address).then(
      (response) => response.status,
      () => 0,
    );
    if (status === 200) return performance.now() - startedMs;
    await new Promise((resolve) => setTimeout(resolve, lookAgainMs));
  }
  throw new Error(`nothing answers:\n${said}`);
}

function freePort(): Promise<number> {
  const probe = createServer();
  return new Promise((resolve) => {
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });
}
