import type { Page } from "@playwright/test";
import { expect, test } from "./kilter-page.ts";
import { describeMachine, machineOf, runIsWhole, startRun, typeRun } from "./steps.ts";

interface Kept {
  readonly kind: string;
  readonly id: string;
  readonly goes: number;
}

async function eventsOn(address: string, machine: string): Promise<readonly Kept[]> {
  const answer = await fetch(`${address}/api/machines/${machine}/events?after=0`);
  return ((await answer.json()) as { events: readonly { event: Kept }[] }).events.map(({ event }) => event);
}

async function readingsOn(address: string, machine: string): Promise<readonly Kept[]> {
  return (await eventsOn(address, machine)).filter(({ kind }) => kind === "reading-taken");
}

/** Resolves when the page has fetched all that it fetches by itself: when nothing has been asked for during two seconds. */
function fetching(page: Page): () => Promise<void> {
  let latestMs = Date.now();
  page.on("request", () => {
    latestMs = Date.now();
  });
  return async () => {
    await expect.poll(() => Date.now() - latestMs > 2_000).toBe(true);
  };
}

test("what is read without a network is kept, shown, and sent once when it is back", async ({
  page,
  context,
  server,
}) => {
  await describeMachine(page, server.address, "Offline");
  const machine = machineOf(page);
  await startRun(page, server.address, "gap-under-beam");
  await typeRun(page, ["0.65"]);
  await expect(page.getByText(/Station 1\./)).toBeVisible();
  await context.setOffline(true);
  await page.keyboard.type("0.60\n0.55\n");
  await expect(page.getByText(/Station 3\./)).toBeVisible();
  // Said when the first of them has not arrived, not when the page next looks whether the server is still there.
  await expect(page.getByRole("status").filter({ hasText: /not reached/ })).toContainText(
    /(one entry is|[23] entries are) kept on this device/,
    { timeout: 15_000 },
  );
  expect(await readingsOn(server.address, machine)).toHaveLength(1);
  await page.getByRole("link", { name: "Stop" }).click();
  await page.getByRole("link", { name: "Findings" }).first().click();
  await expect(page.getByText(/3 readings in 1 runs/)).toBeVisible();
  await context.setOffline(false);
  await expect(page.getByText("Everything is saved.")).toBeVisible();
  const readings = await readingsOn(server.address, machine);
  expect(readings.map(({ goes }) => goes)).toEqual([0.65, 0.6, 0.55]);
});

test("the outbox survives a reload, and an answer that was lost counts nothing twice", async ({ page, server }) => {
  await describeMachine(page, server.address, "Reload");
  const machine = machineOf(page);
  await startRun(page, server.address, "gap-under-beam");
  await expect(page.getByLabel("goes", { exact: true })).toBeFocused();
  // The server takes them in, but the answer never arrives.
  await page.route("**/events", async (route) => {
    if (route.request().method() !== "POST") return route.continue();
    // A reload in between answers the route by itself.
    await route.fetch().catch(() => {});
    await route.abort().catch(() => {});
  });
  await typeRun(page, ["0.65", "0.60"]);
  await expect(page.getByText(/Station 2\./)).toBeVisible();
  await expect.poll(async () => (await readingsOn(server.address, machine)).length).toBe(2);
  page.on("dialog", (dialog) => void dialog.accept());
  await page.reload();
  await expect(page.getByRole("img", { name: "Station 3 of 6" })).toBeVisible();
  await expect(
    page.getByText(/entries are kept|one entry is kept/i).or(page.getByRole("status").first()),
  ).toBeVisible();
  await page.unroute("**/events");
  await page.goto(`${server.address}/settings`);
  await expect(page.getByText("Everything is with the server.")).toBeVisible();
  expect(await readingsOn(server.address, machine)).toHaveLength(2);
});

test("a machine begun while the server is down is there when it is up again", async ({ page, server }) => {
  const fetched = fetching(page);
  await page.goto(`${server.address}/new`);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("New machine");
  await fetched();
  await server.stop();
  await page.getByLabel("Name").fill("Begun alone");
  await page.getByRole("button", { name: "Begin its logbook" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Begun alone");
  await expect(page.getByRole("status").filter({ hasText: /not reached/ })).toBeVisible();
  await server.restart();
  await expect(page.getByText("Everything is saved.")).toBeVisible();
  const machines = (await (await fetch(`${server.address}/api/machines`)).json()) as readonly { id: string }[];
  expect(machines.map(({ id }) => id)).toContain(machineOf(page));
});

test("what one page enters is on the other at once", async ({ page, context, server }) => {
  await describeMachine(page, server.address, "Two devices");
  const other = await context.newPage();
  await other.goto(`${server.address}/machine/${machineOf(page)}/findings`);
  await expect(other.getByText(/Nothing has been measured yet/).first()).toBeVisible();
  await startRun(page, server.address, "gap-under-beam");
  await typeRun(page, ["0.65", "0.60", "0.55", "0.65", "0.60", "0.55"]);
  await runIsWhole(page);
  await expect(other.getByText(/6 readings in 1 runs/)).toBeVisible();
  await other.close();
});

test("pages that nobody looks at keep no line to the server, and know what has come when they are looked at again", async ({
  page,
  context,
  server,
}) => {
  await describeMachine(page, server.address, "Many pages");
  const findings = `${server.address}/machine/${machineOf(page)}/findings`;
  // More than a browser has lines for one server.
  const others: Page[] = [];
  for (let i = 0; i < 8; i++) {
    const other = await context.newPage();
    await other.goto(findings);
    await expect(other.getByText(/Nothing has been measured yet/).first()).toBeVisible();
    await other.evaluate(turned("hidden"));
    others.push(other);
  }
  await startRun(page, server.address, "gap-under-beam");
  await typeRun(page, ["0.65", "0.60", "0.55", "0.65", "0.60", "0.55"]);
  await runIsWhole(page);
  await others[0].evaluate(turned("visible"));
  await expect(others[0].getByText(/6 readings in 1 runs/)).toBeVisible();
});

/** As the browser tells a page that it is covered by another, or shown again. */
function turned(state: "hidden" | "visible"): string {
  return `Object.defineProperty(document, "visibilityState", { value: "${state}", configurable: true });
    document.dispatchEvent(new Event("visibilitychange"));`;
}

test("readings are sent even where the browser keeps nothing, and the page says what that means", async ({
  page,
  context,
  server,
}) => {
  await describeMachine(page, server.address, "No disk");
  const machine = machineOf(page);
  await startRun(page, server.address, "gap-under-beam");
  await expect(page.getByLabel("goes", { exact: true })).toBeFocused();
  await page.evaluate("IDBObjectStore.prototype.add = () => { throw new DOMException('full', 'QuotaExceededError'); }");
  await context.setOffline(true);
  await page.keyboard.type("0.65\n");
  await expect(page.getByRole("status").filter({ hasText: /as long as this page stays open/ })).toBeVisible();
  await context.setOffline(false);
  await expect.poll(async () => (await readingsOn(server.address, machine)).length).toBe(1);
});

test("two devices, one of them asleep, and the power cut at every reading: all that was acknowledged is kept, and once", async ({
  browser,
  page: phone,
  server,
}) => {
  await phone.setViewportSize({ width: 390, height: 844 });
  const desk = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const laptop = await desk.newPage();
  // What a batch was answered with is what the phone may forget.
  const acknowledged = new Set<string>();
  phone.on("response", (response) => {
    const request = response.request();
    if (request.method() !== "POST" || !/\/events$/.test(request.url()) || response.status() !== 200) return;
    for (const { id } of (request.postDataJSON() as { events: readonly { id: string }[] }).events) acknowledged.add(id);
  });

  await describeMachine(phone, server.address, "Power cuts");
  const machine = machineOf(phone);
  const findings = `${server.address}/machine/${machine}/findings`;
  await laptop.goto(findings);
  await expect(laptop.getByText(/Nothing has been measured yet/).first()).toBeVisible();
  await startRun(phone, server.address, "gap-under-beam");
  await typeRun(phone, ["0.65"]);
  await expect(laptop.getByText(/1 readings? in 1 runs?/)).toBeVisible();

  await desk.setOffline(true);
  for (const [i, reading] of ["0.60", "0.55", "0.65", "0.60", "0.55"].entries()) {
    await phone.keyboard.type(`${reading}\n`);
    // From before the batch has left to after it was answered.
    await new Promise((resolve) => setTimeout(resolve, 12 * i));
    await server.kill();
    await server.restart();
    const there = (await eventsOn(server.address, machine)).map(({ id }) => id);
    expect([...acknowledged].filter((id) => !there.includes(id))).toEqual([]);
    if (i < 4) await expect(phone.getByText(new RegExp(`Station ${i + 2}\\.`))).toBeVisible();
  }
  await runIsWhole(phone);
  await phone.goto(findings);
  await expect(phone.getByText(/6 readings in 1 runs/)).toBeVisible();
  await expect.poll(async () => (await readingsOn(server.address, machine)).length).toBe(6);
  const events = await eventsOn(server.address, machine);
  expect(new Set(events.map(({ id }) => id)).size).toBe(events.length);
  const readings = await readingsOn(server.address, machine);
  expect(readings.map(({ goes }) => goes)).toEqual([0.65, 0.6, 0.55, 0.65, 0.6, 0.55]);

  await desk.setOffline(false);
  await expect(laptop.getByText(/6 readings in 1 runs/)).toBeVisible();
  await desk.close();
});
