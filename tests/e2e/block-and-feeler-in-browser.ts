import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { describeMachine, machineOf, passFitToMeasure, runIsWhole, startRun, touchRun, typeRun } from "./steps.ts";

// Only a block, leaves and a square: the right side hangs low over the bed, front and rear alike.
const sizes = [
  { name: "phone", width: 390, height: 844 },
  { name: "bench", width: 1280, height: 900 },
] as const;

for (const size of sizes) {
  for (const theme of ["light", "dark"] as const) {
    test.describe(`block and feeler on a ${size.name}, ${theme}`, () => {
      test.use({ viewport: { width: size.width, height: size.height }, colorScheme: theme });

      test("from eight numbers to what is out", async ({ page, server }) => {
        const shot = (name: string) => picture(page, `${name}-${size.name}-${theme}`);
        await describeMachine(page, server.address, "Router by the window");
        await expect(
          page
            .getByRole("img", { name: /Router by the window/ })
            .filter({ visible: true })
            .first(),
        ).toBeVisible();
        await shot("drawing-before");
        await expectAccessible(page);

        await page.goto(`${server.address}/machine/${machineOf(page)}/measure`);
        await expect(page.getByText("Fit to measure, 0 of 9 passed")).toBeVisible();
        await shot("checks");
        await passFitToMeasure(page, server.address);

        await startRun(page, server.address, "gap-under-beam");
        const gaps = ["0.65", "0.55", "0.45", "0.65", "0.55", "0.45"];
        if (size.name === "phone") await touchRun(page, gaps);
        else await typeRun(page, gaps);
        await runIsWhole(page);
        await shot("gap-done");
        await expectAccessible(page);

        await startRun(page, server.address, "line-along-x");
        await typeRun(page, ["0", "0.1", "0.1", "0.2", "0.2"]);
        await runIsWhole(page);
        await startRun(page, server.address, "line-along-y");
        await typeRun(page, ["0", "0", "0.1", "0.1", "0.1"]);
        await runIsWhole(page);
        await startRun(page, server.address, "upright-gap");
        // Two gaps at one station: Enter leads from the upper to the lower.
        await typeRun(page, ["0.10", "0"]);
        await runIsWhole(page);

        await page.goto(`${server.address}/machine/${machineOf(page)}/findings`);
        for (const end of ["front", "rear"]) {
          const row = page.getByRole("row", { name: new RegExp(`Beam over bed, left to right, at the ${end}`) });
          await expect(row).toContainText(/−0\.(1|2)\d?\d? ± 0\.(0|1)\d/);
        }
        await shot("findings");
        await expectAccessible(page);

        await page.goto(`${server.address}/machine/${machineOf(page)}/findings/over-bed~x`);
        await expect(page.getByText(/do not tell these apart/)).toBeVisible();
        await expect(page.getByText(/need not know/)).toBeVisible();
        await expect(page.getByText(/beam's seat/)).toBeVisible();
        await shot("finding");
        await expectAccessible(page);
      });
    });
  }
}
