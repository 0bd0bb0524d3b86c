import { HiddenMachine } from "../stories/hidden-machine.ts";
import { createMachine, done, layouts, newLogbook, passFitToMeasure } from "../stories/kilter.ts";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { bring } from "./logbook-files.ts";
import { runIsWhole, startRun, typeRunKeeping } from "./steps.ts";

const DAY = 24 * 3600 * 1000;

// Four months lie between the two rounds; the slide has turned on its plate meanwhile, the bed has stayed.
for (const [size, width, height, theme] of [
  ["phone", 390, 844, "light"],
  ["bench", 1280, 900, "dark"],
] as const) {
  test.describe(`a season later, ${size}`, () => {
    test.use({ viewport: { width, height }, colorScheme: theme });

    test("three quick checks say what moved, what stayed, and whether it is still good", async ({ page, server }) => {
      const file = newLogbook();
      createMachine(file, layouts[0]);
      passFitToMeasure(file, layouts[0].layout);
      for (const id of ["runout", "play x", "play y", "scale x", "scale y", "diagonals"]) {
        done(["demands", file, "drop", id]);
      }
      const hidden = new HiddenMachine(file, {}, 11);
      const at = `${new Date(Date.now() - 120 * DAY).toISOString().slice(0, 19)}Z`;
      hidden.read("bed-touch", "touch-plate", 0.01, {}, at);
      hidden.read("tram-sweep", "dial-indicator", 0.01, {}, at);
      hidden.read("turnaround", "dial-indicator", 0.01, { axis: "X" }, at);
      const machine = await bring(server, file);
      hidden.shift("slide.lean.side", 2.5);

      await page.goto(`${server.address}/machine/${machine}`);
      for (const [check, tool, query, options] of [
        ["bed-touch", "touch-plate", "?with=touch-plate", {}],
        ["tram-sweep", "dial-indicator", "?with=dial-indicator", {}],
        ["turnaround", "dial-indicator", "?with=dial-indicator&set.axis=X", { axis: "X" }],
      ] as const) {
        await startRun(page, server.address, check, query);
        await typeRunKeeping(page, hidden.readingsOf(check, tool, 0.01, options));
        await runIsWhole(page);
      }

      await page.goto(`${server.address}/machine/${machine}/history`);
      await page.getByRole("link", { name: "Compare before and after" }).click();
      await expect(page.getByRole("heading", { level: 1 })).toHaveText("Before and after");
      await expect(page.getByText(/In between: 4 months/)).toBeVisible();
      const moved = page.getByRole("region", { name: /^What moved/ });
      await expect(moved.getByRole("row", { name: /Cutter’s axis to the bed, side to side/ })).toBeVisible();
      await expect(moved.getByRole("row", { name: /^Scale of Y/ })).toHaveCount(0);
      const good = page.getByRole("region", { name: "Is it still good for the work?" });
      await good.getByText("The same as a table").click();
      await expect(good.getByRole("row", { name: /^Cutter’s axis to the bed over/ })).toHaveText(
        / to .*within.* to .*out/,
      );
      const unread = page.getByRole("group").filter({ hasText: /^Not read on both sides/ });
      await unread.getByText(/^Not read on both sides/).click();
      await expect(unread.getByRole("listitem").filter({ hasText: /^Scale of Y/ })).toBeVisible();
      await picture(page, `compare-${size}`);
      await expectAccessible(page);
      const wide = await page.evaluate<number>("document.documentElement.scrollWidth");
      expect(wide).toBeLessThanOrEqual(width);
      await good.getByRole("link", { name: "Show what brings it back" }).click();
      await expect(page.getByRole("heading", { level: 1 })).toHaveText("Moves");
    });
  });
}
