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
        await picture(page, `demand-${size}-${theme}`, false);
        await expectAccessible(page);
      });
    });
  }
}
