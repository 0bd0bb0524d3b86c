import { HiddenMachine } from "../stories/hidden-machine.ts";
import { createMachine, done, layouts, newLogbook, passFitToMeasure } from "../stories/kilter.ts";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { bring } from "./logbook-files.ts";
import { runIsWhole, startRun, typeRun } from "./steps.ts";

// The bed rises to the right by 0.8 in a metre: letters come out thin at the left and thick at the right.
for (const [size, width, height, theme] of [
  ["phone", 390, 844, "dark"],
  ["bench", 1280, 900, "light"],
] as const) {
  test.describe(`lettering that goes thin, ${size}`, () => {
    test.use({ viewport: { width, height }, colorScheme: theme });

    test("from the widths of grooves to the strokes before and after the cure", async ({ page, server }) => {
      const file = newLogbook();
      createMachine(file, layouts[0]);
      passFitToMeasure(file, layouts[0].layout);
      done(["tool", file, "v-cutter"]);
      const hidden = new HiddenMachine(file, { "bed.tilt.x": 0.8 }, 8);
      const machine = await bring(server, file);
      await page.goto(`${server.address}/machine/${machine}/work?kind=lettering`);
      await page.getByRole("button", { name: "This is my work" }).click();
      await expect(page.getByText("The plan is made for it.")).toBeVisible();

      for (const along of ["X", "Y"]) {
        const query = `?with=calipers-300&set.along=${along}`;
        await startRun(page, server.address, "groove-widths", query);
        await typeRun(page, hidden.readingsOf("groove-widths", "calipers-300", 0.01, { along }));
        await runIsWhole(page);
      }

      // Depth map, cause and cure, strokes before and after.
      await page.goto(`${server.address}/machine/${machine}/work`);
      await expect(page.getByText("After the plan").first()).toBeVisible();
      await expect(page.getByRole("link", { name: /^Spread of depth over 400 × 150/ })).toBeVisible();
      const stroke = page.locator(".work-picture").filter({ has: page.getByRole("heading", { name: /^Stroke/ }) });
      await stroke.getByText("All its numbers").click();
      const row = stroke.getByRole("row", { name: /thick less thin/ });
      const [now, after] = await row.locator("td").allTextContents();
      expect(Number.parseFloat(now)).toBeGreaterThan(0.2);
      expect(Number.parseFloat(after)).toBeLessThan(0.5 * Number.parseFloat(now));
      await picture(page, `lettering-work-${size}`);
      await expectAccessible(page);

      await page.getByRole("link", { name: "Show the moves" }).click();
      await expect(page.getByRole("heading", { level: 1 })).toHaveText("Moves");
      await expect(
        page
          .locator(".move-list, ol")
          .getByText(/bed|beam|rail/i)
          .first(),
      ).toBeVisible();
      await picture(page, `lettering-moves-${size}`);
    });
  });
}
