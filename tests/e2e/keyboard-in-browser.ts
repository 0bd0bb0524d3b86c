import { expect, test } from "./kilter-page.ts";

/** Tab until something with that name has the focus; a person would go no other way. */
async function tabTo(page: import("@playwright/test").Page, name: RegExp): Promise<void> {
  for (let i = 0; i < 120; i++) {
    await page.keyboard.press("Tab");
    const text = await page.evaluate<string>(
      "(document.activeElement?.getAttribute('aria-label') || document.activeElement?.textContent || document.activeElement?.closest('label')?.textContent || '').trim()",
    );
    if (name.test(text)) return;
  }
  throw new Error(`Tab never comes to ${name}`);
}

test("from the list of machines to a whole run, and on to a finding, by keys alone", async ({ page, server }) => {
  await page.goto(server.address);
  await expect(page.getByRole("link", { name: /shared workshop/ })).toBeVisible();
  await tabTo(page, /^The shared workshop/);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toBeFocused();
  await tabTo(page, /^Measure/);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "Fit to measure" })).toBeVisible();
  await tabTo(page, /Gap under the beam/);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Gap under the beam");
  await tabTo(page, /^Start with station 1/);
  await page.keyboard.press("Enter");
  await expect(page.getByLabel("goes", { exact: true })).toBeFocused();
  await page.keyboard.type("0.40\n0.35\n0.40\n0.55\n0.35\n0.25\n");
  await expect(
    page.getByRole("heading", { name: /Every station is read/ }).or(page.getByRole("button", { name: "Keep it" })),
  ).toBeVisible();
  await page.goto(`${page.url().replace(/\/measure.*/, "")}/findings`);
  await expect(page.getByRole("link", { name: "Squareness of Y to X" })).toBeVisible();
  await tabTo(page, /^Squareness of Y to X$/);
  await page.keyboard.press("ArrowDown");
  await expect(page.getByRole("link", { name: "Squareness of Y to X" })).not.toBeFocused();
  await page.keyboard.press("ArrowUp");
  await expect(page.getByRole("link", { name: "Squareness of Y to X" })).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "What carries it" })).toBeVisible();
});

test("a look is answered by keys", async ({ page, server }) => {
  const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
  await page.goto(`${server.address}/machine/${id}/measure/grub-screws/take`);
  await expect(page.getByRole("button", { name: "Yes", exact: true })).toBeFocused();
  await page.keyboard.press("y");
  await expect(page.getByText(/Station 1\./)).toBeVisible();
  await page.keyboard.press("Enter");
  await expect(page.getByText(/Station 2\./)).toBeVisible();
  await page.keyboard.press("n");
  await expect(page.getByText("Not passed:", { exact: true })).toBeVisible();
});

test("a move is reached, kept as it is, and freed again, by keys alone", async ({ page, server }) => {
  const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
  await page.goto(`${server.address}/machine/${id}/moves`);
  await expect(page.getByRole("link", { name: "Begin with move 1" })).toBeVisible();
  await tabTo(page, /^Turn the slide/);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toBeFocused();
  await expect(page.getByRole("button", { name: "Done", exact: true })).toBeEnabled();
  await tabTo(page, /^Keep as it is$/);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("button", { name: "It is glued or pinned" })).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(
    page.getByText(/the slide's plate screws, slide turned: kept as it is\. It is glued or pinned\./),
  ).toBeVisible();
  await expect(page.getByText(/^Working out the plan/)).toHaveCount(0);
  await expect(page.getByRole("link", { name: /^Turn the slide/ })).toHaveCount(0);
  await tabTo(page, /^All places/);
  await page.keyboard.press("Enter");
  await tabTo(page, /^the slide's plate screws/);
  await page.keyboard.press("Enter");
  await expect(page.getByText("It is kept as it is: It is glued or pinned.")).toBeVisible();
  await tabTo(page, /^Free it$/);
  await page.keyboard.press("Enter");
  await expect(page.getByRole("button", { name: "Free it" }).first()).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.getByText("It is kept as it is: It is glued or pinned.")).toHaveCount(0);
});
