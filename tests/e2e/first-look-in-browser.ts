import { expect, picture, test } from "./kilter-page.ts";

test("the list of machines shows the one that came with the program", async ({ page, server }) => {
  await page.goto(server.address);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Machines");
  await expect(page.getByText(/\d+ are out:/)).toBeVisible();
  await picture(page, "machines");
});
