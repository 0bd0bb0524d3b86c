import { expect, type Page } from "@playwright/test";

/** The id of the machine that the address names. */
export function machineOf(page: Page): string {
  const id = /\/machine\/([0-9a-f-]{32,36})/.exec(page.url())?.[1];
  if (id === undefined) throw new Error(`No machine in ${page.url()}`);
  return id;
}

/** Describes a machine by its eight numbers and begins its logbook; leaves the page at its drawing. */
export async function describeMachine(page: Page, address: string, name: string): Promise<void> {
  await page.goto(`${address}/new`);
  await page.getByLabel("Name").fill(name);
  for (const [label, number] of [
    ["Travel to the right", "600"],
    ["Travel to the rear", "500"],
    ["Travel upwards", "70"],
    ["Left rail", "-90"],
    ["Right rail", "690"],
    ["Wheelbase", "140"],
    ["Height of the beam", "105"],
    ["Tool from the beam", "-75"],
  ]) {
    await page.getByLabel(label, { exact: true }).fill(number);
  }
  await page.getByText(/^What you measure with:/).click();
  for (const tool of ["dial indicator, 10 mm", "tuner that shows the note in Hz"]) await page.getByLabel(tool).check();
  await page.getByRole("button", { name: "Begin its logbook" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(name);
}

/** Opens a check where its readings are taken, as it is usually set up. */
export async function startRun(page: Page, address: string, check: string, query = ""): Promise<void> {
  await page.goto(`${address}/machine/${machineOf(page)}/measure/${check}${query}`);
  await page.getByRole("link", { name: "Start with station 1" }).click();
}

/** Types a run by keyboard, one reading a station, each ended by Enter. */
export async function typeRun(page: Page, readings: readonly string[]): Promise<void> {
  await expect(page.locator("input[inputmode=none]").first()).toBeFocused();
  for (const reading of readings) await page.keyboard.type(`${reading}\n`);
}

/** The same where a reading may stand far off the rest, because something has moved: it is kept. */
export async function typeRunKeeping(page: Page, readings: readonly string[]): Promise<void> {
  const field = page.locator("input[inputmode=none]").first();
  await expect(field).toBeFocused();
  for (const [i, reading] of readings.entries()) {
    await page.keyboard.type(`${reading}\n`);
    if (i < readings.length - 1) await expect(field).toHaveValue("");
    const keep = page.getByRole("button", { name: "Keep it" });
    await expect(
      keep
        .or(page.getByRole("button", { name: "Repeat" }))
        .or(page.getByRole("heading", { name: "Every station is read" })),
    ).toBeVisible();
    if (await keep.isVisible()) await keep.click();
  }
}

/** The same by the keys on the screen. */
export async function touchRun(page: Page, readings: readonly string[]): Promise<void> {
  const pad = page.getByRole("group", { name: "Number pad" });
  for (const [i, reading] of readings.entries()) {
    for (const key of reading)
      await pad.getByRole("button", { name: key === "." ? "Decimal point" : key, exact: true }).click();
    await pad.getByRole("button", { name: i === readings.length - 1 ? "Finish" : "Next" }).click();
    if (i < readings.length - 1) await expect(page.getByText(new RegExp(`Station ${i + 1}\\.`))).toBeVisible();
  }
}

export async function answerRun(page: Page, count: number): Promise<void> {
  for (let i = 1; i <= count; i++) {
    await page.getByRole("button", { name: "Yes", exact: true }).click();
    if (i < count) await expect(page.getByText(new RegExp(`Station ${i}\\.`))).toBeVisible();
  }
  await expect(page.getByRole("heading", { name: "Every station is read" })).toBeVisible();
}

export async function runIsWhole(page: Page): Promise<void> {
  await expect(page.getByRole("heading", { name: "Every station is read" })).toBeVisible();
}

/** The eight looks, pushes and counts, all of them passed. */
export async function passFitToMeasure(page: Page, address: string): Promise<void> {
  await startRun(page, address, "feet-rock");
  await typeRun(page, ["0.05", "0.05", "0.05", "0.05"]);
  await runIsWhole(page);
  await startRun(page, address, "grub-screws");
  await answerRun(page, 3);
  await startRun(page, address, "belt-note");
  await typeRun(page, ["61", "60"]);
  await runIsWhole(page);
  await startRun(page, address, "wheel-preload");
  await answerRun(page, 4);
  await startRun(page, address, "push-and-release");
  await typeRun(page, ["0.4", "0.01", "0.4", "0.01", "0.2", "0.01"]);
  await runIsWhole(page);
  await startRun(page, address, "side-push");
  await typeRun(page, ["0.5", "0.03"]);
  await runIsWhole(page);
  for (const axis of ["X", "Y"]) {
    await startRun(page, address, "there-and-back", `?set.axis=${axis}`);
    await typeRun(page, ["0.01"]);
    await runIsWhole(page);
  }
  await startRun(page, address, "gross-scale");
  await typeRun(page, ["100", "100"]);
  await runIsWhole(page);
}
