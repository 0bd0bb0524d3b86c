import { createMachine, layouts, newLogbook, passFitToMeasure } from "../stories/kilter.ts";
import { diameters } from "../stories/three-discs.ts";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { bring } from "./logbook-files.ts";
import { runIsWhole, startRun, typeRun } from "./steps.ts";

const discs = [
  [60, "counter-clockwise", 1],
  [60, "clockwise", -1],
  [25, "counter-clockwise", 1],
] as const;

for (const [size, width, height, theme] of [
  ["phone", 390, 844, "light"],
  ["bench", 1280, 900, "dark"],
] as const) {
  test.describe(`a circle that is not round, ${size}`, () => {
    test.use({ viewport: { width, height }, colorScheme: theme });

    test("one disc leaves open what three discs tell apart", async ({ page, server }) => {
      const file = newLogbook();
      createMachine(file, layouts[0]);
      passFitToMeasure(file, layouts[0].layout);
      const machine = await bring(server, file);
      const at = (path: string) => page.goto(`${server.address}/machine/${machine}/${path}`);
      await at("");
      for (const [i, [radius, direction, way]] of discs.entries()) {
        const query = `?with=calipers-300&object.cutter=cutter&set.radiusMm=${radius}&set.direction=${direction}`;
        await startRun(page, server.address, "ring-diameters", query);
        await typeRun(page, diameters(radius, way));
        await runIsWhole(page);
        if (i > 0) continue;
        await at("findings/squareness");
        await expect(page.getByText(/play of/i).first()).toBeVisible();
        await expect(page.getByText("What it cannot be told from")).toBeVisible();
        await picture(page, `one-disc-${size}`);
        await at("findings/scale~x");
        await expect(page.getByText(/cutter|scale/).first()).toBeVisible();
      }
      await at("findings");
      for (const [name, least, most] of [
        ["Squareness of Y to X", -2.8, -1.2],
        ["Scale of X", 0.5, 1.5],
        ["Scale of Y", -1.5, -0.5],
        ["Play of X", 0.12, 0.2],
        ["Play of Y", 0.02, 0.1],
      ] as const) {
        const row = page.getByRole("row", { name: new RegExp(`^${name}`) }).first();
        const [, value] = /([−+]?\d+(?:\.\d+)?) ± /.exec((await row.textContent()) ?? "") ?? [];
        const number = Number(value?.replace("−", "-"));
        expect(number, name).toBeGreaterThan(least);
        expect(number, name).toBeLessThan(most);
      }
      await picture(page, `three-discs-${size}`);
      await expectAccessible(page);
      await at("work?circle=radius:60");
      await expect(page.getByRole("heading", { name: "Circle of 120" })).toBeAttached();
    });
  });
}
