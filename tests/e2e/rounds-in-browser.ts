import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { answerRun, describeMachine, machineOf, runIsWhole, typeRun } from "./steps.ts";

for (const [size, width, height, theme] of [
  ["phone", 390, 844, "light"],
  ["bench", 1280, 900, "dark"],
] as const) {
  test.describe(`rounds, ${size}`, () => {
    test.use({ viewport: { width, height }, colorScheme: theme });

    test("the fit-to-measure round leads from card to card, and asks first whether the bed will be skimmed", async ({
      page,
      server,
    }) => {
      await describeMachine(page, server.address, "Card by card");
      const at = (path: string) => page.goto(`${server.address}/machine/${machineOf(page)}/measure/${path}`);
      await at("fit-to-measure");
      await expect(page.getByText("Card 1 of 8.", { exact: false })).toBeVisible();
      await page.getByRole("button", { name: "No, it stays as it is" }).click();
      await expect(page.getByRole("heading", { name: "Will you skim the bed?" })).toHaveCount(0);
      await picture(page, `round-card-${size}`);
      await expectAccessible(page);
      await page.getByRole("link", { name: "Start with station 1" }).click();
      await typeRun(page, ["0.05", "0.05", "0.05", "0.05"]);
      await runIsWhole(page);
      await page.getByRole("link", { name: /^Next: / }).click();
      await expect(page.getByText("Card 2 of 8.", { exact: false })).toBeVisible();
      await page.getByRole("link", { name: "Begin" }).click();
      await answerRun(page, 3);
      await page.getByRole("link", { name: /^Next: / }).click();
      await expect(page.getByText("2 of 8 passed")).toBeVisible();
      await page.getByRole("link", { name: "Skip for now" }).click();
      await expect(page.getByText("Card 4 of 8.", { exact: false })).toBeVisible();
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
        await field.selectOption("good");
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
      await expect(page.getByText(/of 8 passed/)).toBeVisible();
      await page.goto(`${server.address}/machine/${machineOf(page)}/readings`);
      await expect(page.getByText("Grub screws, pulleys and couplings").first()).toBeVisible();
    });
  });
}
