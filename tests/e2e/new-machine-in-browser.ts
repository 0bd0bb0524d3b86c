import { expect, expectAccessible, picture, test } from "./kilter-page.ts";

test.describe("on a phone", () => {
  test.use({ viewport: { width: 390, height: 844 } });

  test("the drawing of a new machine stays in sight, in the view that the number being typed belongs to", async ({
    page,
    server,
  }) => {
    await page.goto(`${server.address}/new`);
    const drawing = page.getByRole("img", { name: /seen from above/ });
    await expect(drawing).toBeVisible();
    for (const [label, view] of [
      ["Travel upwards", "seen from the front"],
      ["Wheelbase", "seen from above"],
      ["Height of the beam", "seen from the front"],
    ] as const) {
      const field = page.getByLabel(label, { exact: true });
      await field.scrollIntoViewIfNeeded();
      await field.fill(label === "Wheelbase" ? "150" : "120");
      const shown = page.getByRole("img", { name: new RegExp(view) });
      await expect(shown).toBeInViewport({ ratio: 0.95 });
      await expect(field).toBeInViewport({ ratio: 0.99, timeout: 5000 });
      const [above, below] = [await shown.boundingBox(), await field.boundingBox()];
      expect((above?.y ?? 0) + (above?.height ?? 0)).toBeLessThanOrEqual(below?.y ?? 0);
      expect(above?.height).toBeLessThanOrEqual(0.3 * 844);
    }
    await picture(page, "new-machine-phone-typing", false);
    await expectAccessible(page);
  });
});
