import { expect, test } from "./kilter-page.ts";
import { describeMachine, machineOf, runIsWhole, startRun, typeRun } from "./steps.ts";

async function readingsOn(address: string, machine: string): Promise<readonly { id: string; goes: number }[]> {
  const body = (await (await fetch(`${address}/api/machines/${machine}/events?after=0`)).json()) as {
    events: readonly { event: { kind: string; id: string; goes: number } }[];
  };
  return body.events.map(({ event }) => event).filter(({ kind }) => kind === "reading-taken");
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
  await expect(page.getByRole("status").filter({ hasText: /not reached/ })).toContainText(
    /[23] entries are kept on this device/,
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
  await page.goto(`${server.address}/new`);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("New machine");
  // Whatever the page needs has come by then.
  await page.waitForLoadState("networkidle").catch(() => {});
  await page.waitForTimeout(1_000);
  await server.stop();
  await page.getByLabel("Name").fill("Begun alone");
  await page.getByRole("button", { name: "Begin its logbook" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Begun alone");
  await expect(page.getByRole("status").filter({ hasText: /not reached/ })).toBeVisible();
  await server.restart();
  await expect(page.getByText("Everything is saved.")).toBeVisible({ timeout: 30_000 });
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
  await expect.poll(async () => (await readingsOn(server.address, machine)).length, { timeout: 30_000 }).toBe(1);
});
