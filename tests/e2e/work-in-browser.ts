import { expect, expectAccessible, picture, test } from "./kilter-page.ts";

for (const [size, width, height] of [
  ["phone", 390, 844],
  ["bench", 1280, 900],
] as const) {
  for (const theme of ["light", "dark"] as const) {
    test.describe(`${size}, ${theme}`, () => {
      test.use({ viewport: { width, height }, colorScheme: theme });
      test("what the work comes out like stands beside what the plan makes of it", async ({ page, server }) => {
        const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
        await page.goto(`${server.address}/machine/${id}/work`);
        await expect(page.getByText("After the plan").first()).toBeVisible();
        await expect(page.getByRole("heading", { name: /^Square of 300/ })).toBeVisible();
        await picture(page, `work-top-${size}-${theme}`, false);
        await picture(page, `work-${size}-${theme}`);
        await expectAccessible(page);
        const wide = await page.evaluate<number>("document.documentElement.scrollWidth");
        expect(wide).toBeLessThanOrEqual(width);
        await page.getByRole("link", { name: /^Spread of depth/ }).click();
        await expect(page.getByText("Why so much:")).toBeVisible();
        await expect(page.locator(".demand-grounds > p").first()).not.toBeEmpty();
        await expect(page.getByRole("table", { name: "Where its doubt comes from, by share" })).toContainText(
          /Touching the bed in a field of places, run.*\d %/,
        );
        await picture(page, `demand-${size}-${theme}`, false);
        await expectAccessible(page);
      });
    });
  }
}

test("leaves that nobody has are tried from a form, in the user's unit", async ({ page, server }) => {
  const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
  await page.addInitScript(`localStorage.setItem("kilter.preferences", JSON.stringify({ unit: "thou" }))`);
  await page.goto(`${server.address}/machine/${id}/moves`);
  await page.getByText("What if …").click();
  await page.getByRole("radio", { name: "others" }).check();
  const thickness = page.getByLabel("Thickness of leaf 1, thou");
  await thickness.fill("thin");
  await expect(page.getByRole("button", { name: "Try it with these" })).toBeDisabled();
  await thickness.fill("5");
  await page.getByLabel("How many of leaf 1", { exact: true }).fill("3");
  await picture(page, "leaves-to-try", true);
  await expectAccessible(page);
  await page.getByRole("button", { name: "Try it with these" }).click();
  await expect(page).toHaveURL(/stock=0\.127x3/);
  await expect(page.getByText(/Only tried, not written down: with the leaves 5 × 3, .* thou/)).toBeVisible();
  await page.getByRole("link", { name: "Back to the plan as it stands" }).click();
  await expect(page.getByText(/Only tried/)).toHaveCount(0);
});
