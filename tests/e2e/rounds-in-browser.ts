import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { answerRun, describeMachine, machineOf, runIsWhole, typeRun } from "./steps.ts";

for (const [size, width, height, theme] of [
  ["phone", 390, 844, "light"],
  ["bench", 1280, 900, "dark"],
] as const) {
  test.describe(`rounds, ${size}`, () => {
    test.use({ viewport: { width, height }, colorScheme: theme });

    test("the fit-to-measure round leads from card to card, and asks nothing about the bed", async ({
      page,
      server,
    }) => {
      await describeMachine(page, server.address, "Card by card");
      const at = (path: string) => page.goto(`${server.address}/machine/${machineOf(page)}/measure/${path}`);
      await at("fit-to-measure");
      await expect(page.getByText("Card 1 of 9.", { exact: false })).toBeVisible();
      await expect(page.getByText(/plane its own bed|skim/)).toHaveCount(0);
      await picture(page, `round-card-${size}`);
      await expectAccessible(page);
      await page.getByRole("link", { name: "Start with station 1" }).click();
      await typeRun(page, ["0.05", "0.05", "0.05", "0.05"]);
      await runIsWhole(page);
      await page.getByRole("link", { name: /^Next: / }).click();
      await expect(page.getByText("Card 2 of 9.", { exact: false })).toBeVisible();
      await page.getByRole("link", { name: "Begin" }).click();
      await answerRun(page, 3);
      await page.getByRole("link", { name: /^Next: / }).click();
      await expect(page.getByText("2 of 9 passed")).toBeVisible();
      await page.getByRole("link", { name: "Skip for now" }).click();
      await expect(page.getByText("Card 4 of 9.", { exact: false })).toBeVisible();
    });

    test("with both rounds done Measure says what is worth its minutes, and folds the rest where there is little room", async ({
      page,
      server,
    }) => {
      await page.goto(server.address);
      await page.getByRole("link", { name: "The shared workshop's router" }).click();
      await page.goto(`${server.address}/machine/${machineOf(page)}/measure`);
      await expect(page.getByText("Both rounds are done.")).toBeVisible();
      await expect(page.getByText(/^You know enough\. /)).toBeVisible();
      const family = page.locator("details").filter({ hasText: "Bare frame" });
      const check = family.getByRole("link", { name: /Diagonals of the frame|frame/i }).first();
      if (size === "phone") await expect(check).toBeHidden();
      else await expect(check).toBeVisible();
      await picture(page, `measure-list-${size}`);
      await expectAccessible(page);
      if (size === "phone") await family.locator("summary").click();
      await expect(check).toBeVisible();
    });

    test("a whole round is typed in from its sheets at one go, tried first and then kept", async ({ page, server }) => {
      await describeMachine(page, server.address, "From sheets");
      await page.goto(`${server.address}/machine/${machineOf(page)}/measure/fit-to-measure/type`);
      const sheet = (name: RegExp) => page.getByRole("group", { name });
      await sheet(/Feet/).getByRole("textbox").first().fill("0.05");
      await page.keyboard.press("Enter");
      await page.keyboard.type("0.10");
      for (const field of await sheet(/Grub screws/)
        .getByRole("combobox")
        .all())
        await field.selectOption("yes");
      await sheet(/Note of the belts/)
        .getByRole("textbox")
        .first()
        .fill("sixty");
      await page.getByRole("button", { name: "See how they sit" }).click();
      await expect(page.getByText("Nothing is kept.", { exact: false }).first()).toBeVisible();
      await sheet(/Note of the belts/)
        .getByRole("textbox")
        .first()
        .fill("61");
      await page.getByRole("button", { name: "See how they sit" }).click();
      await picture(page, `round-typed-${size}`);
      await expectAccessible(page);
      await page.getByRole("button", { name: /^Keep these \d+ readings/ }).click();
      await expect(page.getByText(/^\d+ readings are kept\.$/)).toBeVisible();
      await picture(page, `round-kept-${size}`);
      await expectAccessible(page);
      await page.getByRole("link", { name: "Go on with the round" }).click();
      await expect(page.getByText(/of 9 passed/)).toBeVisible();
      await page.goto(`${server.address}/machine/${machineOf(page)}/readings`);
      await expect(page.getByText("Grub screws, pulleys and couplings").first()).toBeVisible();
    });
  });
}

test("an axis is a card of its own: after X comes Y, and a card that did not pass says what is put right", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "Both axes");
  const machine = machineOf(page);
  const round = `${server.address}/machine/${machine}/measure/fit-to-measure`;
  await page.goto(`${round}?card=there-and-back-X`);
  await expect(page.getByRole("heading", { name: "There and back twenty times, X" })).toBeVisible();
  await page.getByRole("link", { name: "Start with station 1" }).click();
  await typeRun(page, ["0.01"]);
  await runIsWhole(page);
  await expect(page.getByText("Passed.", { exact: true })).toBeVisible();
  await page.goto(`${round}?card=there-and-back-Y`);
  await page.getByRole("link", { name: "Start with station 1" }).click();
  await typeRun(page, ["1.60"]);
  await runIsWhole(page);
  await expect(page.getByText(/Lower acceleration and speed/)).toBeVisible();
  // Done again at once: as another run that is set up as this one was.
  await page.getByRole("link", { name: "Do it again" }).click();
  await expect(page.locator(".say")).toHaveText("Y, after twenty trips.");
  await typeRun(page, ["1.60"]);
  await runIsWhole(page);
  await page.goto(`${round}?card=there-and-back-Y`);
  await expect(page.getByRole("link", { name: "Do it again" })).toBeVisible();
  await page.goto(`${round}?card=summary`);
  await expect(page.getByRole("heading", { name: "One card did not pass" })).toBeVisible();
  await expect(page.getByRole("listitem").filter({ hasText: "There and back twenty times, Y" }).last()).toContainText(
    /not passed.*Lower acceleration/,
  );
  await expectAccessible(page);
  await page.getByRole("link", { name: "Go on with card 1" }).click();
  await expect(page.getByText("Card 1 of 9.", { exact: false })).toBeVisible();
});

test("a round that is broken off is taken up where it was left", async ({ page, server }) => {
  await describeMachine(page, server.address, "Broken off");
  const round = `${server.address}/machine/${machineOf(page)}/measure/fit-to-measure`;
  await page.goto(`${round}?card=wheel-preload`);
  await page.getByRole("link", { name: "Begin" }).click();
  await page.getByRole("button", { name: "Yes", exact: true }).click();
  await expect(page.getByText(/Station 1\./)).toBeVisible();
  await page.goto(round);
  await expect(page.getByText("1 of 4 stations is read and kept.")).toBeVisible();
  await page.getByRole("link", { name: "Go on with station 2" }).click();
  await expect(page.getByRole("img", { name: "Station 2 of 4" })).toBeVisible();
  await page.getByRole("button", { name: "Yes", exact: true }).click();
  await expect(page.getByText(/Station 2\./)).toBeVisible();
  // Stopped, not begun anew: the page of the check says so as well.
  await page.getByRole("link", { name: "Stop" }).click();
  await expect(page.getByText("2 of 4 stations are read and kept.")).toBeVisible();
  await expect(page.getByRole("link", { name: "Begin anew with station 1" })).toBeVisible();
  await page.getByRole("link", { name: "Go on with station 3" }).click();
  await expect(page.getByRole("img", { name: "Station 3 of 4" })).toBeVisible();
});

test("the short round proposes pricks and both axes, and its sheets are typed in with what stands in their heads", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "Short");
  const machine = machineOf(page);
  const measure = `${server.address}/machine/${machine}/measure`;
  await page.goto(`${measure}/short-round?card=turnaround-Y`);
  await expect(page.getByText(/of 6\./)).toBeVisible();
  await page.goto(`${measure}/short-round/type`);
  // Six lengths, and the first of them again.
  await expect(page.getByRole("group", { name: /four holes or pricks/ }).getByRole("textbox")).toHaveCount(7);
  await page.getByLabel("Temperature").fill("18");
  const lost = page.getByRole("group", { name: "Play on turning round, Y" });
  await lost.getByLabel("Station 1, reading").fill("0.06");
  await page.getByRole("button", { name: "See how they sit" }).click();
  await page.getByRole("button", { name: "Keep this reading" }).click();
  await page.getByRole("link", { name: "Go on with the round" }).click();
  await expect(page.getByText("1 of 6 taken", { exact: false })).toBeVisible();
  const kept = (await (await fetch(`${server.address}/api/machines/${machine}/events?after=0`)).json()) as {
    events: readonly { event: { kind: string; options?: object; conditions?: object } }[];
  };
  const run = kept.events.map(({ event }) => event).find(({ kind }) => kind === "run-begun");
  expect(run).toMatchObject({ options: { axis: "Y" }, conditions: { temperatureC: 18 } });
});
