import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { AxeBuilder } from "@axe-core/playwright";
import { expect, type Page, test as plain } from "@playwright/test";
import { kilterCommand } from "../stories/kilter.ts";

/** The server of one test, on a database of its own. */
export interface KilterServer {
  readonly address: string;
  /** What stands in its terminal. */
  said(): string;
  stop(): Promise<void>;
  /** As a power cut would end it. */
  kill(): Promise<void>;
  /** The same database on the same port once more. */
  restart(): Promise<void>;
}

interface OwnFixtures {
  /** Of this test alone. */
  readonly server: KilterServer;
  /** The same, shared on the workshop's network. */
  readonly sharedServer: KilterServer;
  readonly faults: string[];
}

interface SharedFixtures {
  /** One for all tests that only look; nothing may be entered there. */
  readonly unchangedServer: KilterServer;
}

export const test = plain.extend<OwnFixtures, SharedFixtures>({
  // biome-ignore lint/correctness/noEmptyPattern: the runner asks for a pattern
  server: async ({}, use) => await withServer(use),
  // biome-ignore lint/correctness/noEmptyPattern: the runner asks for a pattern
  sharedServer: async ({}, use) => await withServer(use, "--share"),
  // biome-ignore lint/correctness/noEmptyPattern: the runner asks for a pattern
  unchangedServer: [async ({}, use) => await withServer(use), { scope: "worker" }],
  /** What the browser complains of: nothing must be thrown, and the policy of the page must never be broken. */
  faults: [
    async ({ page }, use) => {
      const faults: string[] = [];
      page.on("pageerror", (error) => faults.push(error.message));
      page.on("console", (message) => {
        if (message.type() === "error" && !/Failed to load resource|net::ERR/.test(message.text()))
          faults.push(message.text());
      });
      await use(faults);
      expect(faults).toEqual([]);
    },
    { auto: true },
  ],
});

export { expect };

async function withServer(use: (server: KilterServer) => Promise<void>, ...words: readonly string[]): Promise<void> {
  const data = mkdtempSync(join(tmpdir(), "kilter-e2e-"));
  const server = await startServer(data, ...words);
  await use(server);
  await server.stop();
  rmSync(data, { recursive: true, force: true });
}

async function startServer(data: string, ...words: readonly string[]): Promise<KilterServer> {
  let running = await listen(data, 0, words);
  const { address } = running;
  const port = Number(new URL(address).port);
  return {
    address,
    said: () => running.said(),
    stop: () => end(running.process, "SIGTERM"),
    kill: () => end(running.process, "SIGKILL"),
    restart: async () => {
      running = await listen(data, port, words);
    },
  };
}

interface Listening {
  readonly process: ChildProcess;
  readonly address: string;
  readonly said: () => string;
}

function listen(data: string, port: number, asked: readonly string[]): Promise<Listening> {
  const always = ["serve", "--stay", "--quiet", "--port", String(port), "--data", data];
  const [program, ...words] = kilterCommand([...always, ...asked]);
  const root = fileURLToPath(new URL("../../", import.meta.url));
  const process_ = spawn(program, words, { cwd: root, env: { ...process.env, NO_COLOR: "1" } });
  return new Promise((resolve, reject) => {
    let said = "";
    process_.stdout.on("data", (bytes: Buffer) => {
      said += bytes.toString("utf8");
      const address = /Kilter is at (http:\S+)/.exec(said)?.[1];
      if (address) resolve({ process: process_, address: address.replace(/\/$/, ""), said: () => said });
    });
    process_.stderr.on("data", (bytes: Buffer) => {
      said += bytes.toString("utf8");
    });
    process_.on("exit", () => reject(new Error(`The server did not start: ${said}`)));
  });
}

function end(child: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  return new Promise((resolve) => {
    child.on("exit", () => resolve());
    child.kill(signal);
  });
}

/** No violation of WCAG 2.2 AA that a machine can find; of some rules alone where they are named. */
export async function expectAccessible(page: Page, rules: readonly string[] = []): Promise<void> {
  // What comes late is as dark as it stays once it has come.
  await page.evaluate("Promise.allSettled(document.getAnimations().map(({ finished }) => finished)).then(() => null)");
  const axe = new AxeBuilder({ page });
  if (rules.length > 0) axe.withRules([...rules]);
  else axe.withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]);
  const { violations } = await axe.analyze();
  expect(
    violations.map(
      ({ id, nodes }) =>
        `${id}: ${nodes.map(({ target, failureSummary }) => `${target.join(" ")} ${failureSummary ?? ""}`).join("; ")}`,
    ),
  ).toEqual([]);
}

/** A picture of the view for whoever looks at the results; left out where nobody will. */
export async function picture(page: Page, name: string, fullPage = true): Promise<void> {
  if (process.env.PICTURES === "none") return;
  await page.screenshot({
    path: fileURLToPath(new URL(`../../.cache/e2e/pictures/${name}.png`, import.meta.url)),
    fullPage,
  });
}
