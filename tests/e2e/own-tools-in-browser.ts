import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { describeMachine, machineOf, startRun } from "./steps.ts";

test("leaves of one's own are listed, and the station goes by them", async ({ page, server }) => {
  await describeMachine(page, server.address, "Own leaves");
  const machine = `${server.address}/machine/${machineOf(page)}`;
  await page.goto(`${machine}/tools`);
  await page.getByLabel("Kind").selectOption("feeler-leaves");
  await page.getByLabel("Its name").fill("Small leaves");
  const list = page.getByLabel("Which leaves are in it");
  await list.fill("0,03 0,07 0,07");
  await expect(page.getByText("0,07 stands in the list twice.")).toBeVisible();
  await expect(page.getByRole("button", { name: "Add it" })).toBeDisabled();
  await list.fill("0,03 0,07 0,20");
  await page.getByRole("group", { name: "How many leaves may lie on one another" }).getByText("2").click();
  await expect(page.getByText("Leaves: 3 of 0.03 to 0.20 mm; stacks up to 0.27 mm.")).toBeVisible();
  await picture(page, "own-leaves");
  await expectAccessible(page);
  await page.getByRole("button", { name: "Add it" }).click();
  await expect(page.getByText("Small leaves is among your tools.")).toBeVisible();

  await startRun(page, server.address, "gap-under-beam", "?with=feeler-leaves-2&object.block=block");
  const [goes, doesNotGo] = [page.getByLabel("goes", { exact: true }), page.getByLabel("does not go")];
  await expect(goes).toBeFocused();
  await page.keyboard.type("0.20");
  await expect(doesNotGo).toHaveValue("0.23");
  await page.keyboard.press("Backspace");
  await page.keyboard.type("5\n");
  await expect(page.getByText(/No stack of these leaves is 0\.25/)).toBeVisible();
});

test("a tool is corrected, put away, taken out again, and taken back in the history", async ({ page, server }) => {
  await describeMachine(page, server.address, "Put away");
  const machine = `${server.address}/machine/${machineOf(page)}`;
  await page.goto(`${machine}/tools`);
  const item = page.getByRole("listitem").filter({ hasText: "digital calipers, 150 mm" });
  await item.getByRole("button", { name: "Correct: digital calipers, 150 mm" }).click();
  await item.getByLabel("Its name").fill("Worn calipers");
  await item.getByLabel("Standard uncertainty of setting and feel").fill("0,05");
  await item.getByRole("button", { name: "Keep it so" }).click();
  const corrected = page.getByRole("listitem").filter({ hasText: "Worn calipers" });
  await expect(corrected).toContainText("setting and feel u = 0.05 mm");
  await corrected.getByRole("button", { name: "Put away: Worn calipers" }).click();
  await expect(page.getByRole("heading", { name: "Put away", exact: true })).toBeVisible();
  await expect(corrected).toContainText("Not used any more.");
  await picture(page, "tool-put-away");
  await expectAccessible(page);
  await corrected.getByRole("button", { name: "Take out again: Worn calipers" }).click();
  await expect(page.getByRole("heading", { name: "Put away", exact: true })).toHaveCount(0);

  await page.goto(`${machine}/history`);
  await page.getByRole("button", { name: "Take back: Instrument: Worn calipers." }).click();
  await expect(page.getByText("Put away, Worn calipers: Not used any more.")).toHaveCount(2);
  await page.goto(`${machine}/description`);
  await page.getByLabel("Wheelbase", { exact: true }).fill("150");
  await page.getByRole("button", { name: "Save what has changed" }).click();
  await expect(page.getByText("The logbook has it.")).toBeVisible();
  await page.goto(`${machine}/history`);
  await page.getByRole("button", { name: /^Take back: Its description is changed/ }).click();
  await expect(page.getByText(/^Its description is changed/)).toHaveCount(2);
  await page.goto(`${machine}/description`);
  await expect(page.getByLabel("Wheelbase", { exact: true })).toHaveValue("140");
});
