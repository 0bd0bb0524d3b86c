import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";

interface Started {
  readonly address: string;
  /** What stood in the terminal, on one line. */
  readonly said: string;
  end(): void;
}

/** The project as somebody starts it who has just got it, with nothing kept yet. */
async function npmStart(): Promise<Started> {
  const data = mkdtempSync(join(tmpdir(), "kilter-first-hour-"));
  const child: ChildProcess = spawn("npm", ["start", "--", "--port", "0", "--data", data], {
    cwd: fileURLToPath(new URL("../../", import.meta.url)),
    env: { ...process.env, NO_COLOR: "1" },
    stdio: ["ignore", "pipe", "inherit"],
    detached: true,
  });
  const said = await new Promise<string>((resolve, reject) => {
    let out = "";
    child.stdout?.on("data", (bytes: Buffer) => {
      out += bytes.toString();
      if (out.includes("Ctrl+C stops it")) resolve(out);
    });
    child.once("exit", () => reject(new Error(`npm start has ended: ${out}`)));
  });
  const end = () => {
    process.kill(-(child.pid as number), "SIGKILL");
    rmSync(data, { recursive: true, force: true });
  };
  const address = /Kilter is at (http:\/\/\S+)/.exec(said)?.[1] ?? "";
  return { address, said: said.replaceAll(/\s+/g, " "), end };
}

test("the first hour: npm start, the demonstration from findings to the plan, and a machine of one's own", async ({
  page,
}) => {
  const started = await npmStart();
  try {
    const { address, said } = started;
    await page.goto(address);
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Machines");
    const demonstration = page.getByRole("listitem").filter({ hasText: "The shared workshop's router" });
    await expect(demonstration).toContainText("Invented");
    await expect(demonstration.getByRole("img")).toBeVisible();
    await picture(page, "first-hour-machines");
    await demonstration.getByRole("link", { name: "The shared workshop's router" }).click();

    // What stood in the terminal stands here too, in the same numbers.
    await page.getByRole("link", { name: "Findings", exact: true }).first().click();
    const [squareness] = found(said, /Squareness of Y to X E\(C0Y\) (\S+ ± \S+)/);
    const row = page.getByRole("row", { name: /Squareness of Y to X/ });
    await expect(row).toContainText(squareness);
    await expect(row).toContainText("out");

    await page.getByRole("link", { name: "Moves", exact: true }).first().click();
    const [moves] = found(said, /(\d+ moves, about \d+ minutes)/);
    await expect(page.getByText(new RegExp(moves)).first()).toBeVisible();
    const [first, stop] = found(said, /hand goes in\. 1 (.*?\.) [A-Z][^.]*?: stop when (.*?)\. (?:2 |Then )/);
    await page.getByRole("link", { name: "Begin with move 1" }).click();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText(first);
    await expect(page.getByRole("region", { name: "Where to stop" })).toContainText(stop);

    await page.goBack();
    await page.getByRole("link", { name: "Work", exact: true }).first().click();
    for (const [title, words, name] of [
      ["Square of 300", "the first is longer by", /^Square of 300/],
      ["Circle of 150", "out of round, counter-clockwise", /^Circle of 150/],
    ] as const) {
      const numbers = found(said, new RegExp(`${title}: ${words} (\\S+ ± \\S+) (\\S+ ± \\S+)`));
      const figure = page.getByRole("img", { name }).filter({ visible: true }).first();
      await expect(figure).toBeVisible();
      for (const number of numbers) await expect(figure).toContainText(number);
    }
    await picture(page, "first-hour-work");

    // A machine of one's own: the drawing follows every number as it is typed.
    await page.goto(`${address}/new`);
    const drawing = page.getByRole("region", { name: "The machine as described" });
    const drawn = () => drawing.getByRole("img").filter({ visible: true }).first().innerHTML();
    await expect(drawing.getByRole("img").filter({ visible: true }).first()).toBeVisible();
    for (const [label, number] of [
      ["Travel to the right", "610"],
      ["Travel to the rear", "510"],
      ["Travel upwards", "75"],
      ["Left rail", "-95"],
      ["Right rail", "705"],
      ["Wheelbase", "150"],
      ["Height of the beam", "110"],
      ["Tool from the beam", "-70"],
    ] as const) {
      const before = await drawn();
      await page.getByLabel(label, { exact: true }).fill(number);
      await expect.poll(async () => (await drawn()) !== before, { message: `${label} is drawn` }).toBe(true);
    }
    await expectAccessible(page);
    await page.getByLabel("Name").fill("Router of my own");
    await page.getByRole("button", { name: "Begin its logbook" }).click();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Router of my own");
    await expect(
      page
        .getByRole("img", { name: /Router of my own/ })
        .filter({ visible: true })
        .first(),
    ).toBeVisible();
    await expect
      .poll(async () => ((await (await fetch(`${address}/api/machines`)).json()) as readonly unknown[]).length)
      .toBe(2);
    await page.goto(address);
    await expect(page.getByRole("link", { name: "Router of my own" })).toBeVisible();
  } finally {
    started.end();
  }
});

/** The groups of a pattern in what was said, none of them empty. */
function found(said: string, pattern: RegExp): [string, ...string[]] {
  const groups = pattern.exec(said)?.slice(1) ?? [];
  expect(groups, String(pattern)).not.toHaveLength(0);
  expect(groups).not.toContain("");
  return groups as [string, ...string[]];
}

test("a machine without a name says so at its name, and a tool behind the beam is told", async ({ page, server }) => {
  await page.goto(`${server.address}/new`);
  await page.getByRole("button", { name: "Begin its logbook" }).click();
  await expect(page.getByLabel("Name")).toBeFocused();
  await expect(page.getByText(/^As everybody.*It has no name yet/)).toBeVisible();
  await expect(page.getByText(/the tool is behind it/)).toHaveCount(0);
  await page.getByLabel("Tool from the beam", { exact: true }).fill("70");
  await expect(page.getByText(/the tool is behind it/)).toBeVisible();
});
