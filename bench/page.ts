// The page in a browser, against a server of its own: how soon it stands there with nothing in the browser's cache, and
// how soon the findings of a logbook of 500 readings are worked out and shown after Enter: node --import tsx bench/page.ts
// (after npm run build)
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Browser, chromium, type Page } from "@playwright/test";
import { logbookOf, timelineOf } from "./many-readings.ts";
import { median, print } from "./measure.ts";

const { firstViewMs, readings, enterMs } = JSON.parse(
  readFileSync(new URL("budgets.json", import.meta.url), "utf8"),
).page;
/** Runs in the page: the worker is asked what is known better after each reading, which takes all the findings. */
const watchWorker = `
  globalThis.shown = [];
  let enterAt = 0;
  addEventListener("keydown", ({ key }) => { if (key === "Enter") enterAt = performance.now(); }, { capture: true });
  const asked = new Set();
  globalThis.Worker = class extends Worker {
    constructor(url, options) {
      super(url, options);
      this.addEventListener("message", ({ data: { number } }) => {
        if (asked.delete(number))
          requestAnimationFrame(() => setTimeout(() => shown.push(performance.now() - enterAt)));
      });
    }
    postMessage(message) {
      if (message.name === "knownBetter") asked.add(message.number);
      super.postMessage(message);
    }
  };
`;

/** Nobody types within the first second of seeing a station, nor the next reading the moment the last one is shown. */
const LOOKED_AT_MS = 1000;
const MOVED_ON_MS = 300;
const TIMES = 7;
const RUNS = 3;
const RUN_LENGTH = 20;

const data = mkdtempSync(join(tmpdir(), "kilter-bench-page-"));
const server = await serve();
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-quic", "--disable-background-networking"],
});
try {
  const views: number[] = [];
  for (let i = 0; i < TIMES; i++) views.push(await firstView(browser));
  const enters = await afterEnter(browser, await machineWithReadings());
  const inOrder = [...enters].sort((a, b) => a - b);
  print(
    { name: "first view of the page, nothing cached", value: median(views), unit: "ms", budget: firstViewMs },
    {
      name: `Enter to findings, ${readings} readings, 95th`,
      value: inOrder[Math.ceil(0.95 * inOrder.length) - 1],
      unit: "ms",
      budget: enterMs,
    },
    { name: "  in the middle", value: median(enters), unit: "ms", budget: null },
    { name: "  the slowest", value: inOrder.at(-1) as number, unit: "ms", budget: null },
  );
} finally {
  await browser.close();
  server.process.kill("SIGTERM");
  rmSync(data, { recursive: true, force: true });
}

function serve(): Promise<{ readonly process: ChildProcess; readonly address: string }> {
  const words = ["dist/cli/kilter.js", "serve", "--stay", "--port", "0", "--data", data];
  const process_ = spawn(process.execPath, words, { cwd: fileURLToPath(new URL("..", import.meta.url)) });
  return new Promise((resolve, reject) => {
    let said = "";
    process_.stdout.on("data", (bytes: Buffer) => {
      said += bytes.toString("utf8");
      const address = /Kilter is at (http:\S+)/.exec(said)?.[1];
      if (address) resolve({ process: process_, address: address.replace(/\/$/, "") });
    });
    process_.on("exit", () => reject(new Error(`The server did not start: ${said}`)));
  });
}

/** From asking for the page to the sentence that says how the demonstration's machine stands. */
async function firstView(from: Browser): Promise<number> {
  const context = await from.newContext();
  const page = await context.newPage();
  const started = performance.now();
  await page.goto(server.address, { waitUntil: "commit" });
  await page
    .getByText(/out|within|not known yet/)
    .first()
    .waitFor();
  const took = performance.now() - started;
  await context.close();
  return took;
}

async function machineWithReadings(): Promise<string> {
  const answer = await fetch(`${server.address}/api/machines/import`, {
    method: "POST",
    headers: { "Content-Type": "application/x-ndjson", Origin: server.address },
    body: logbookOf(timelineOf(readings)),
  });
  if (!answer.ok) throw new Error(await answer.text());
  return ((await answer.json()) as { id: string }).id;
}

/** One reading after the other, each ended by Enter, at the pace of a very quick hand. */
async function afterEnter(from: Browser, machine: string): Promise<readonly number[]> {
  const page = await (await from.newContext()).newPage();
  await page.addInitScript({ content: watchWorker });
  const took: number[] = [];
  await page.goto(`${server.address}/machine/${machine}/measure`);
  for (let run = 0; run < RUNS; run++) {
    // Within the page, as a finger does it: it is loaded once and stays open.
    await page.evaluate(`history.pushState(null, "", "/machine/${machine}/measure/bed-touch")`);
    await page.evaluate('dispatchEvent(new PopStateEvent("popstate"))');
    await page.getByRole("link", { name: "Start with station 1" }).click();
    await page.locator("input[inputmode=none]").first().waitFor();
    await page.waitForTimeout(LOOKED_AT_MS);
    for (let i = 0; i < RUN_LENGTH; i++) {
      took.push(await enterOne(page, (i % 5) / 100));
      await page.waitForTimeout(MOVED_ON_MS);
    }
  }
  return took;
}

async function enterOne(page: Page, value: number): Promise<number> {
  const before = await page.evaluate(() => (globalThis as unknown as Watched).shown.length);
  await page.keyboard.type(`${value.toFixed(2)}\n`);
  await page.waitForFunction((count) => (globalThis as unknown as Watched).shown.length > count, before);
  return page.evaluate(() => (globalThis as unknown as Watched).shown.at(-1) as number);
}

interface Watched {
  /** From Enter to the frame after the findings came, ms. */
  shown: number[];
}
