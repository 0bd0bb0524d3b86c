import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { describeMachine, machineOf, passFitToMeasure, runIsWhole, startRun, typeRun } from "./steps.ts";

// The second half of block and feeler: the right end hangs low, and the page leads to the screws and back.
const sizes = [
  { name: "phone", width: 390, height: 844, theme: "light" },
  { name: "bench", width: 1280, height: 900, theme: "dark" },
] as const;

for (const { name, width, height, theme } of sizes) {
  test.describe(`moves on a ${name}, ${theme}`, () => {
    test.use({ viewport: { width, height }, colorScheme: theme });

    test("from six gaps to the right side plate's screws, and taken back", async ({ page, server }) => {
      const shot = (view: string) => picture(page, `moves-${view}-${name}-${theme}`);
      await describeMachine(page, server.address, "Router by the window");
      const machine = `${server.address}/machine/${machineOf(page)}`;
      await page.goto(`${machine}/next`);
      await expect(page.getByRole("heading", { name: /^Fit to measure/ })).toBeVisible();
      await expectAccessible(page);
      await page.getByRole("link", { name: "Show how it is done" }).click();
      await expect(page.getByRole("heading", { level: 1 })).toHaveText("Feet on the bench");
      await passFitToMeasure(page, server.address);
      await startRun(page, server.address, "gap-under-beam");
      await typeRun(page, ["0.65", "0.55", "0.45", "0.65", "0.55", "0.45"]);
      await runIsWhole(page);
      await startRun(page, server.address, "line-along-x");
      await typeRun(page, ["0", "0.1", "0.1", "0.2", "0.2"]);
      await runIsWhole(page);
      await startRun(page, server.address, "line-along-y");
      await typeRun(page, ["0", "0", "0.1", "0.1", "0.1"]);
      await runIsWhole(page);

      // What the plan cannot know is asked before it is believed.
      await page.goto(`${machine}/moves`);
      await page.getByRole("button", { name: "No, it stays as it is" }).click();
      await expect(page.getByRole("heading", { name: "Will the router plane its own bed flat?" })).toHaveCount(0);
      await page.getByLabel("Kind of work").first().selectOption("lettering");
      await page.getByRole("button", { name: "Plan for this" }).click();
      await expect(page.getByText(/It is for lettering; the bed stays as it is/)).toBeVisible();
      await expect(page.getByText(/^Working out the plan/)).toHaveCount(0);
      await shot("plan");
      await expectAccessible(page);

      // Only this one: tried, and not written down.
      await page.getByText("What if …").click();
      await page.getByLabel("Only this may be moved").selectOption("beam.right");
      await expect(
        page.getByText(/Only tried, not written down: with nothing but the right side-plate screws/),
      ).toBeVisible();
      // It can be looked at, and is not what the page asks to do.
      await expect(page.getByRole("link", { name: "Begin with move 1" })).toHaveCount(0);
      await expect(page.locator("main .act")).toHaveCount(0);
      await page.getByRole("link", { name: "Look at move 1" }).click();
      await expect(
        page.getByText(/Only tried, not written down: with nothing but the right side-plate screws/),
      ).toBeVisible();
      const move = page.getByRole("heading", { level: 1 });
      await expect(move).toHaveText(/^Raise the beam's right end by 0\.\d+ mm\.$/);
      await expect(move).toBeFocused();
      const stop = page.getByRole("region", { name: "Where to stop" });
      await expect(stop).toContainText(/Stop when.*about 0\.4\d mm now/);
      await expect(stop).toContainText(/station \d \((front|rear) right\) reads 0\.\d\d goes and 0\.\d\d does not/);
      await expect(stop).toContainText(/Gap under the beam, going on with the run of/);
      await expect(page.getByRole("region", { name: "Cautions" })).toContainText("Pull the plug");
      await expect(page.getByRole("img", { name: /the right side-plate screws/ })).toBeVisible();
      await shot("move");
      await expectAccessible(page);
      // The three answers are in reach wherever the screen stands.
      for (const place of ["0", "document.body.scrollHeight"]) {
        await page.evaluate(`scrollTo(0, ${place})`);
        for (const button of ["Done", "Keep as it is", "Can’t do it"])
          await expect(page.getByRole("button", { name: button, exact: true })).toBeInViewport({ ratio: 1 });
      }

      // A look at the lock, and back from it.
      await page.getByRole("button", { name: "Keep as it is", exact: true }).click();
      await expect(page.getByRole("heading", { name: /^Keep it as it is/ })).toBeVisible();
      await expect(page.getByRole("button", { name: "It is glued or pinned" })).toBeFocused();
      await expectAccessible(page);
      await page.getByRole("button", { name: "Leave it free" }).click();
      await page.getByRole("button", { name: "Can’t do it" }).click();
      await expect(page.getByRole("link", { name: "Not today" })).toHaveAttribute("href", /only=beam\.right/);
      await page.getByRole("button", { name: "It can be done after all" }).click();

      // Done as planned, with what the leaves say; the leaf that does not go comes by itself.
      const before = await findingText();
      await page.getByLabel("goes, mm", { exact: false }).first().fill("0.60");
      const second = page.getByLabel("does not go, mm", { exact: false }).first();
      await expect(second).toHaveValue("0.65");
      // However briskly it is typed, the leaf that comes by itself stays out of it.
      await page.getByLabel("goes, mm", { exact: false }).first().press("ControlOrMeta+a");
      await page.keyboard.type("0.55");
      await page.keyboard.press("Tab");
      await page.keyboard.type("0.70");
      await expect(second).toHaveValue("0.70");
      await page.getByLabel("goes, mm", { exact: false }).first().fill("0.60");
      await expect(second).toHaveValue("0.70");
      await second.fill("0.65");
      // Enter leads on to what notes it, and does not press it.
      await page.keyboard.press("Enter");
      await expect(page.getByRole("button", { name: "Done", exact: true })).toBeFocused();
      await page.getByRole("button", { name: "Done", exact: true }).click();
      await expect(page.getByRole("heading", { level: 1 })).toHaveText(
        /^Noted: the beam's right end 0\.\d+\u00a0mm up$/,
      );
      await expect(page.getByText(/^The last reading is kept: /)).toBeVisible();
      await expect(
        page.getByText("To be read again when the round of moves is through: Gap under the beam."),
      ).toBeVisible();
      // What was tried is still tried.
      await expect(page.getByRole("link", { name: "All moves" })).toHaveAttribute("href", /only=beam\.right/);
      await expect(page.getByText("Working out what comes next.")).toHaveCount(0);
      await shot("noted");
      await expectAccessible(page);
      expect(await findingText()).not.toBe(before);

      await page.getByRole("button", { name: "Undo" }).click();
      await expect(page.getByText(/Taken back: it counts as never having been/)).toBeVisible();
      await expect(move).toHaveText(/^Raise the beam's right end by 0\.\d+ mm\.$/);
      expect(await findingText()).toBe(before);

      /** What the findings say of the beam over the bed, asked in another tab of the same page. */
      async function findingText(): Promise<string> {
        const other = await page.context().newPage();
        await other.goto(`${machine}/findings`);
        const row = other.getByRole("row", { name: /Beam over bed, left to right, at the front/ });
        await expect(row).toBeVisible();
        const text = ((await row.textContent()) ?? "").replaceAll(/\s+/g, " ");
        await other.close();
        return text;
      }
    });
  });
}

test("after a move the next one of the plan is a button away, whatever is to be read before it", async ({
  page,
  server,
}) => {
  const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
  await page.goto(`${server.address}/machine/${id}/moves`);
  await page.getByRole("link", { name: "Begin with move 1" }).click();
  const done = page.getByRole("button", { name: "Done", exact: true });
  await expect(done).toBeEnabled();
  await done.click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Noted: /);
  const onward = page.getByRole("link", { name: /^(On with the moves: [A-Z]\d?, the first of \d+|Show the move)$/ });
  await onward.click();
  await expect(page.getByText(/^Move 1 of \d+, /)).toBeVisible();
});
