import { expect, test } from "./kilter-page.ts";
import { describeMachine, machineOf, runIsWhole, startRun, typeRun } from "./steps.ts";

interface Kept {
  readonly kind: string;
  readonly station?: string;
  readonly value?: number;
  readonly goes?: number;
  readonly doesNotGo?: number;
  readonly reading?: string;
  readonly because?: string;
}

async function keptBy(address: string, machine: string): Promise<readonly Kept[]> {
  const body = (await (await fetch(`${address}/api/machines/${machine}/events?after=0`)).json()) as {
    events: readonly { event: Kept }[];
  };
  return body.events.map(({ event }) => event);
}

test("twenty readings are typed with digits and Enter alone, as fast as an instrument types them", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "Twenty");
  await startRun(page, server.address, "tram-sweep");
  const readings = Array.from({ length: 20 }, (_, i) => (0.01 * ((i * 7) % 5)).toFixed(2));
  await expect(page.getByRole("textbox", { name: "reading" })).toBeFocused();
  await page.keyboard.type(`${readings.join("\n")}\n`);
  await runIsWhole(page);
  await expect
    .poll(
      async () => (await keptBy(server.address, machineOf(page))).filter(({ kind }) => kind === "reading-taken").length,
    )
    .toBe(20);
  const kept = (await keptBy(server.address, machineOf(page))).filter(({ kind }) => kind === "reading-taken");
  expect(kept.map(({ value }) => value)).toEqual(readings.map(Number));
  expect(new Set(kept.map(({ station }) => station)).size).toBe(20);
});

test("a slip is refused at once, and what is typed next takes its place", async ({ page, server }) => {
  await describeMachine(page, server.address, "Slips");
  await startRun(page, server.address, "gap-under-beam");
  await typeRun(page, ["13.5"]);
  await expect(page.getByRole("alert").filter({ hasText: /13\.5/ })).toContainText(/1\.35/);
  await expect(page.getByLabel("goes", { exact: true })).toHaveValue("13.5");
  await page.keyboard.type("0.53\n");
  await expect(page.getByRole("alert").filter({ hasText: /0\.53/ })).toContainText(/0\.35/);
  await page.keyboard.type("0.35");
  await expect(page.getByLabel("does not go")).toHaveValue("0.40");
  await page.keyboard.press("Enter");
  await expect(page.getByText(/Station 1\./)).toBeVisible();
});

test("stacks, inches and fractions are read as they are typed", async ({ page, server }) => {
  await describeMachine(page, server.address, "Units");
  await startRun(page, server.address, "gap-under-beam");
  await typeRun(page, ["0.20+0.15"]);
  await expect(page.getByText(/Station 1\./)).toBeVisible();
  await startRun(page, server.address, "rail-spacing", "?with=tape-class-2");
  await page.getByRole("button", { name: /^Unit: mm/ }).click();
  await expect(page.getByRole("button", { name: "Fraction stroke" })).toBeVisible();
  await page.keyboard.type("30 11/16\n");
  await expect(page.getByText(/Station 1\./)).toBeVisible();
  const readings = (await keptBy(server.address, machineOf(page))).filter(({ kind }) => kind === "reading-taken");
  expect(readings[0]).toMatchObject({ goes: 0.35, doesNotGo: 0.4 });
  expect(readings.at(-1)).toMatchObject({ unit: "in", value: 30.6875 });
});

test("an axis that went the other way is entered with the minus of the pad, and where a rule reads inches too", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "Backwards");
  await startRun(page, server.address, "gross-scale");
  const pad = page.getByRole("group", { name: "Number pad" });
  for (const key of ["1", "0", "0", "Plus or minus", "Next"])
    await pad.getByRole("button", { name: key, exact: true }).click();
  await expect(page.getByRole("alert").filter({ hasText: "Not passed" })).toBeVisible();
  await page.getByRole("button", { name: /^Unit: mm/ }).click();
  await page.keyboard.type("3 15/16");
  await page.getByRole("button", { name: "Plus or minus" }).click();
  await expect(page.getByRole("textbox", { name: "reading" })).toHaveValue("−3 15/16");
  await expect(pad.getByRole("button", { name: "Fraction stroke" })).toBeVisible();
  await page.keyboard.press("Enter");
  await runIsWhole(page);
  const readings = (await keptBy(server.address, machineOf(page))).filter(({ kind }) => kind === "reading-taken");
  expect(readings.map(({ value }) => value)).toEqual([-100, -3.9375]);
});

test("a telephone opens keys with a minus and a stroke for the numbers of a new machine", async ({ page, server }) => {
  await page.goto(`${server.address}/new`);
  for (const label of ["Left rail", "Tool from the beam", "Travel to the right"])
    await expect(page.getByLabel(label, { exact: true })).not.toHaveAttribute("inputmode", /decimal|numeric/);
});

test.describe("a reading far away from the rest", () => {
  test.beforeEach(async ({ page, server }) => {
    await describeMachine(page, server.address, "Far");
    await startRun(page, server.address, "gap-under-beam");
    await typeRun(page, ["0.65", "0.65", "0.65", "0.65", "0.65"]);
    await expect(page.getByText(/Station 5\./)).toBeVisible();
    await page.keyboard.type("2.80\n");
    await expect(page.getByRole("alert").filter({ hasText: /read, about .* expected/ })).toBeVisible();
  });

  test("is read again, and the first is withdrawn where the second fits", async ({ page, server }) => {
    await expect(page.getByRole("button", { name: "Read again" })).toBeVisible();
    await page.keyboard.type("0.65\n");
    await runIsWhole(page);
    await expect(page.getByText(/What stood apart is withdrawn/)).toBeVisible();
    await expect
      .poll(async () =>
        (await keptBy(server.address, machineOf(page))).some(({ kind }) => kind === "reading-withdrawn"),
      )
      .toBe(true);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect(page.getByText("Taken back.")).toBeVisible();
    await expect(page.getByRole("img", { name: "Station 6 of 6" })).toBeVisible();
  });

  test("is kept where it reads the same twice", async ({ page, server }) => {
    await page.keyboard.type("2.80\n");
    await runIsWhole(page);
    await expect(page.getByText("The same twice").first()).toBeVisible();
    expect((await keptBy(server.address, machineOf(page))).some(({ kind }) => kind === "reading-withdrawn")).toBe(
      false,
    );
  });

  test("is kept where the user says so", async ({ page }) => {
    await page.getByRole("button", { name: "Keep it" }).click();
    await runIsWhole(page);
  });
});

test("a run is gone through, stepped back, repeated, and taken up again after a reload", async ({ page, server }) => {
  await describeMachine(page, server.address, "Steps");
  await startRun(page, server.address, "gap-under-beam");
  await typeRun(page, ["0.65"]);
  await expect(page.getByRole("img", { name: "Station 2 of 6" })).toBeVisible();
  await page.getByRole("button", { name: "Skip" }).click();
  await expect(page.getByRole("img", { name: "Station 3 of 6" })).toBeVisible();
  await page.keyboard.press("Alt+ArrowLeft");
  await expect(page.getByRole("img", { name: "Station 2 of 6" })).toBeVisible();
  await page.getByRole("button", { name: "Repeat" }).click();
  await expect(page.getByRole("img", { name: "Station 1 of 6" })).toBeVisible();
  await page.keyboard.type("0.70\n");
  await expect(page.getByText(/0\.65 to 0\.7; 0\.7 to 0\.75/)).toBeAttached();
  await page.reload();
  await expect(page.getByRole("img", { name: "Station 2 of 6" })).toBeVisible();
  await typeRun(page, ["0.60", "0.60", "0.60", "0.60", "0.60"]);
  await runIsWhole(page);
  await page.getByRole("button", { name: "Station 1 again" }).click();
  await typeRun(page, ["0.65"]);
  await runIsWhole(page);
  await expect(page.getByRole("link", { name: /^Next: / })).toBeVisible();
});

test("a whole run is typed into a form or pasted as a table, and seen before it is kept", async ({ page, server }) => {
  await describeMachine(page, server.address, "At one go");
  const machine = machineOf(page);
  await page.goto(`${server.address}/machine/${machine}/measure/line-along-x/type`);
  await page.getByLabel("Station 1, reading").click();
  await page.keyboard.type("0\n0.1\n0.1\n0.2\n0.2\n0\n");
  await expect(page.getByText("Nothing is kept yet.")).toBeVisible();
  expect((await keptBy(server.address, machine)).some(({ kind }) => kind === "reading-taken")).toBe(false);
  await page.getByLabel("Date").fill("2026-01-15");
  await page.getByLabel("Who").fill("Ada");
  await page.getByRole("button", { name: "See how they sit" }).click();
  await page.getByRole("button", { name: "Keep these 6 readings" }).click();
  await expect(page.getByText("6 readings are kept.")).toBeVisible();
  const readingsKept = async () =>
    (await keptBy(server.address, machine)).filter(({ kind }) => kind === "reading-taken").length;
  await expect.poll(readingsKept).toBe(6);
  const begun = (await keptBy(server.address, machine)).find(({ kind }) => kind === "run-begun");
  expect(begun).toMatchObject({ by: "Ada", at: expect.stringMatching(/^2026-01-15T12:00/) });
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(page.getByLabel("Station 2, reading")).toHaveValue("0.1");
  await page.getByLabel("Station 2, reading").fill("a bit");
  await page.getByRole("button", { name: "See how they sit" }).click();
  await expect(page.getByRole("alert")).toContainText(/^Station 2: /);
  await expect(page.getByLabel("Station 2, reading")).toHaveAttribute("aria-invalid", "true");
  await expect(page.getByLabel("Station 1, reading")).toHaveAttribute("aria-invalid", "false");

  await page.goto(`${server.address}/machine/${machine}/measure/line-along-y/type`);
  await page.getByLabel("Paste it here").fill("station;reading\n1;0,0\n2;0,1\n3;zero\n");
  await page.getByRole("button", { name: "See how they sit" }).click();
  await expect(page.getByRole("alert")).toContainText("zero");
  await page.getByLabel("Paste it here").fill("station;reading\n1;0,0\n2;0,1\n3;0,1\n");
  await page.getByRole("button", { name: "See how they sit" }).click();
  await page.getByRole("button", { name: "Keep these 3 readings" }).click();
  await page.getByRole("link", { name: "Go on with station 4" }).click();
  await expect(page.getByRole("img", { name: "Station 4 of 5" })).toBeVisible();
});

test("Enter and the leaf that fills itself in do the same at a station and in a typed run", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "One behaviour");
  const machine = machineOf(page);
  await startRun(page, server.address, "gap-under-beam");
  const [goes, second] = [page.getByLabel("goes", { exact: true }), page.getByLabel("does not go")];
  await expect(goes).toBeFocused();
  await page.keyboard.type("0.25");
  await page.keyboard.press("Tab");
  await page.keyboard.type("0.30");
  await expect(second).toHaveValue("0.30");
  await goes.press("ControlOrMeta+a");
  await page.keyboard.type("0.35");
  await expect(goes).toHaveValue("0.35");
  await expect(second).toHaveValue("0.30");
  await second.fill("0.40");
  await page.keyboard.press("Enter");
  await expect(page.getByText(/Station 1\./)).toBeVisible();
  // A touch on what was filled in, and a key of the pad: the key takes its place.
  await page.keyboard.type("0.25");
  await expect(second).toHaveValue("0.30");
  await second.click();
  for (const key of ["Decimal point", "4"])
    await page.getByRole("group", { name: "Number pad" }).getByRole("button", { name: key, exact: true }).click();
  await expect(second).toHaveValue(".4");

  await page.goto(`${server.address}/machine/${machine}/measure/gap-under-beam/type`);
  const field = (name: string) => page.getByRole("textbox", { name, exact: true });
  await field("Station 1, goes").focus();
  await page.keyboard.type("0.25");
  await expect(field("Station 1, does not go")).toHaveValue("0.30");
  await page.keyboard.press("Enter");
  await expect(field("Station 2, goes")).toBeFocused();
  await page.keyboard.type("0.25");
  await page.keyboard.press("Tab");
  await page.keyboard.type("0.35");
  await expect(field("Station 2, does not go")).toHaveValue("0.35");
  await page.keyboard.press("Enter");
  await expect(field("Station 3, goes")).toBeFocused();
});

test("that no leaf goes is one key, at one gap and at the first of two", async ({ page, server }) => {
  await describeMachine(page, server.address, "Nothing goes");
  await startRun(page, server.address, "feet-rock");
  const pad = page.getByRole("group", { name: "Number pad" });
  await page.keyboard.type("0.3");
  await pad.getByRole("button", { name: "No leaf goes" }).click();
  await expect(page.getByLabel("goes", { exact: true })).toHaveValue("");
  await expect(page.getByLabel("does not go")).toHaveValue("0.05");
  await pad.getByRole("button", { name: "Next" }).click();
  await expect(page.getByText(/Station 1\. Passed/)).toBeVisible();

  await startRun(page, server.address, "stop-gaps");
  await pad.getByRole("button", { name: "No leaf goes" }).click();
  await expect(page.getByLabel("left gap, does not go")).toHaveValue("0.05");
  await pad.getByRole("button", { name: "Next" }).click();
  await expect(page.getByLabel("right gap, goes")).toBeFocused();
  await page.keyboard.type("0.25\n");
  await expect(page.getByText(/Station 1\./)).toBeVisible();
  const readings = (await keptBy(server.address, machineOf(page))).filter(({ kind }) => kind === "reading-taken");
  expect(readings[0]).toMatchObject({ doesNotGo: 0.05 });
  expect(readings[0].goes).toBeUndefined();
  expect(readings.at(-1)).toMatchObject({ second: { doesNotGo: 0.05 }, first: { goes: 0.25, doesNotGo: 0.3 } });
});

test("half a reading and half a sheet stand there again after a reload, and are gone once they are kept", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "Flat battery");
  const machine = machineOf(page);
  await startRun(page, server.address, "gap-under-beam");
  await expect(page.getByLabel("goes", { exact: true })).toBeFocused();
  await page.keyboard.type("0.3");
  await page.reload();
  await expect(page.getByLabel("goes", { exact: true })).toHaveValue("0.3");
  await expect(page.getByLabel("goes", { exact: true })).toBeFocused();
  await page.keyboard.press("End");
  await page.keyboard.type("5");
  await expect(page.getByLabel("does not go")).toHaveValue("0.40");
  await page.reload();
  await expect(page.getByLabel("does not go")).toHaveValue("0.40");
  // The leaf that was filled in follows the one that is typed, as before the reload.
  await page.getByLabel("goes", { exact: true }).fill("0.45");
  await expect(page.getByLabel("does not go")).toHaveValue("0.50");
  await page.keyboard.press("Enter");
  await expect(page.getByText(/Station 1\./)).toBeVisible();
  await page.reload();
  await expect(page.getByRole("img", { name: "Station 2 of 6" })).toBeVisible();
  await expect(page.getByLabel("goes", { exact: true })).toHaveValue("");

  await page.goto(`${server.address}/machine/${machine}/measure/line-along-x/type`);
  await page.getByLabel("Station 1, reading").fill("0,1");
  await page.reload();
  await expect(page.getByLabel("Station 1, reading")).toHaveValue("0,1");
  await page.getByRole("button", { name: "See how they sit" }).click();
  await page.getByRole("button", { name: "Keep this reading" }).click();
  await expect(page.getByText("One reading is kept.")).toBeVisible();
  await page.goto(`${server.address}/machine/${machine}/measure/line-along-x/type`);
  await expect(page.getByLabel("Station 1, reading")).toHaveValue("");
});

test("a file of readings is dropped on the page", async ({ page, server }) => {
  await describeMachine(page, server.address, "Dropped");
  await page.goto(`${server.address}/machine/${machineOf(page)}/measure/line-along-x/type`);
  const dropped = await page.evaluateHandle(`(() => {
    const held = new DataTransfer();
    held.items.add(new File(["station;reading\\n1;0,0\\n2;0,1\\n"], "line.csv", { type: "text/csv" }));
    return held;
  })()`);
  await page.getByRole("region", { name: "A table" }).dispatchEvent("drop", { dataTransfer: dropped });
  await expect(page.getByLabel("Paste it here")).toHaveValue("station;reading\n1;0,0\n2;0,1\n");
  await page.getByRole("button", { name: "See how they sit" }).click();
  await expect(page.getByRole("button", { name: "Keep these 2 readings" })).toBeVisible();
});
