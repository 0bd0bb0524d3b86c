import { createMachine, done, layouts, newLogbook } from "../stories/kilter.ts";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { bring } from "./logbook-files.ts";
import { runIsWhole, startRun, typeRun, typeRunKeeping } from "./steps.ts";

// Numbers as in the stories of the command line; what is refused at once is tried with the entry itself.
const [gantry] = layouts;

test("a slip in a gap run beside a bed-touch run is named, with what would change without it", async ({
  page,
  server,
}) => {
  const file = newLogbook();
  createMachine(file, gantry);
  done(["read", file, "bed-touch", ...Array.from({ length: 25 }, () => "0.00"), "--with", "touch-plate"]);
  const machine = await bring(server, file);
  await page.goto(`${server.address}/machine/${machine}`);
  await startRun(page, server.address, "gap-under-beam", "?with=feeler-leaves&object.block=block");
  await typeRunKeeping(page, ["0.35", "0.35", "0.35", "0.35", "0.65", "0.35"]);
  await runIsWhole(page);
  await page.goto(`${server.address}/machine/${machine}/findings`);
  const concern = page.getByRole("listitem").filter({ hasText: /Gap under the beam/ });
  await expect(concern.first()).toContainText(/rear, middle/);
  await expect(concern.first()).toContainText(/[Ww]ithout it/);
  await picture(page, "slip-named");
  await expectAccessible(page);
});

test("a lone run of six hides its slip, and nothing is pretended", async ({ page, server }) => {
  const file = newLogbook();
  createMachine(file, gantry);
  const machine = await bring(server, file);
  await page.goto(`${server.address}/machine/${machine}`);
  await startRun(page, server.address, "gap-under-beam", "?with=feeler-leaves&object.block=block");
  await typeRun(page, ["0.35", "0.35", "0.35", "0.35", "0.45", "0.35"]);
  await runIsWhole(page);
  await page.goto(`${server.address}/machine/${machine}/findings`);
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  await expect(page.getByText("Readings that do not hang together")).toHaveCount(0);
});

test("a whole run in thousandths that was typed as millimetres is put right by one touch", async ({ page, server }) => {
  const file = newLogbook();
  createMachine(file, gantry);
  const lengths = [0.25, 0.5, 0.75, 0.95].map((f) => (f * 600 * 1.0004).toFixed(1));
  done(["read", file, "travel", ...lengths, "--with", "steel-rule-with-loupe", "--set", "axis=X"]);
  const machine = await bring(server, file);
  const thousandths = [0.06, 0.27, 0.52, 0.71, 0.94]
    .flatMap((f) => [f, f])
    .map((f) => (((f - 0.06) * 600 * 0.0004) / 0.0254).toFixed(1));
  await page.goto(`${server.address}/machine/${machine}`);
  await startRun(page, server.address, "position-runs", "?with=dial-indicator&set.axis=X");
  await typeRunKeeping(page, thousandths);
  await page.goto(`${server.address}/machine/${machine}/readings`);
  await expect(page.getByText(/thousandths of an inch that were taken for millimetres/).first()).toBeVisible();
  await picture(page, "run-in-thousandths");
  await page
    .getByRole("button", { name: /^Read the whole run/ })
    .first()
    .click();
  await expect(page.getByText(/thousandths of an inch that were taken for millimetres/)).toHaveCount(0);
});

test("a run whose stem pointed the other way is put right by one touch", async ({ page, server }) => {
  const file = newLogbook();
  createMachine(file, gantry);
  done(["tool", file, "square", "--id", "square", "--set", "squareMmPer100=0±0.01"]);
  const sweep = (slope: number) => [0, 1, 2, 3, 4].map((i) => ((slope * i * 0.85 * 70) / 4).toFixed(2));
  const dial = ["--with", "test-indicator", "--unit", "mm", "--object", "square=square"];
  for (let i = 0; i < 2; i++) done(["read", file, "upright-sweep", ...sweep(0.008), ...dial]);
  const machine = await bring(server, file);
  await page.goto(`${server.address}/machine/${machine}`);
  await startRun(page, server.address, "upright-sweep", "?with=test-indicator&object.square=square");
  await typeRunKeeping(page, sweep(-0.008));
  await page.goto(`${server.address}/machine/${machine}/readings`);
  await expect(page.getByText(/the stem may have pointed the other way/).first()).toBeVisible();
  await page
    .getByRole("button", { name: /^Read the whole run/ })
    .first()
    .click();
  await expect(page.getByText(/the stem may have pointed the other way/)).toHaveCount(0);
});
