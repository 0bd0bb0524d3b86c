import { textFromEvents } from "../../src/logbook/write.ts";
import { soundLogbook } from "../logbook/sample-events.ts";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { describeMachine, machineOf } from "./steps.ts";

test.describe("the machine that came with the program", () => {
  test("has its odd readings marked; one is withdrawn with a reason and counts again", async ({ page, server }) => {
    const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
    await page.goto(`${server.address}/machine/${id}/findings`);
    await page.getByRole("link", { name: "See its readings" }).first().click();
    const row = page.getByRole("row", { name: /Block at the rear, middle/ });
    await expect(row).toContainText("odd");
    await row.getByRole("button", { name: /^Withdraw this reading/ }).click();
    await expect(row.getByRole("button", { name: "Withdraw", exact: true })).toBeDisabled();
    await page.keyboard.type("The leaf was bent.");
    await row.getByRole("button", { name: "Withdraw", exact: true }).click();
    await expect(row).toContainText("withdrawn: The leaf was bent.");
    await row.getByRole("button", { name: /^Let it count again/ }).click();
    await expect(row).not.toContainText("withdrawn");
  });

  test("shows findings over time, two dates, and takes a note of what happened", async ({ page, server }) => {
    const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
    await page.goto(`${server.address}/machine/${id}/history`);
    await page.getByLabel("Finding").selectOption("X motion over the bed");
    await expect(page.getByRole("img", { name: /X motion over the bed/ })).toBeVisible();
    await page.getByLabel("What", { exact: true }).selectOption("It was knocked");
    await page.getByLabel("beam", { exact: true }).check();
    await page.getByLabel("In your words").fill("A board fell against it.");
    await page.getByRole("button", { name: "Note it" }).click();
    await expect(page.getByText("Knocked (beam): A board fell against it.")).toBeVisible();
    await page.getByRole("button", { name: /^Take back: Knocked/ }).click();
    await expect(page.getByText("A board fell against it. It is taken back.")).toBeVisible();
  });

  test("is judged by a limit of the user's own, and by the usual one again", async ({ page, server }) => {
    const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
    await page.goto(`${server.address}/machine/${id}/findings/squareness`);
    await page.getByText("Its limit is the usual one").click();
    await page.getByLabel(/^Your limit/).fill("5");
    await page.getByRole("button", { name: "Judge it by this" }).click();
    await expect(page.getByText("Its limit is your own")).toBeVisible();
    await expect(page.getByRole("row", { name: /Squareness of Y to X/ })).toContainText("within");
    await page.getByRole("button", { name: "Back to the usual one" }).click();
    await expect(page.getByRole("row", { name: /Squareness of Y to X/ })).toContainText("out");
  });
});

test("a machine is renamed, given axes of its own, copied, set aside, brought back and deleted", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "First name");
  const machine = machineOf(page);
  await page.goto(`${server.address}/machine/${machine}/description`);
  await page.getByLabel("Name", { exact: true }).fill("Second name");
  await page.getByLabel("From somewhere else, or with other letters").check();
  await page.getByLabel("to the front").check();
  await page.getByLabel("Where its zero lies").nth(1).fill("500");
  await expect(page.getByRole("img", { name: "Your axes, from above" })).toBeVisible();
  await page.getByRole("button", { name: "Save what has changed" }).click();
  await expect(page.getByText("The logbook has it.")).toBeVisible();
  await page.goto(`${server.address}/machine/${machine}/measure/gap-under-beam`);
  await expect(page.getByRole("row", { name: /Block at the front, left/ })).toContainText("Y 420");

  await page.goto(`${server.address}/new?copy=${machine}`);
  await expect(page.getByLabel("Name")).toHaveValue("Second name, copy");
  await page.getByRole("button", { name: "Begin its logbook" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Second name, copy");

  await page.goto(`${server.address}/machine/${machine}/description`);
  await page.getByText("Set it aside", { exact: true }).first().click();
  await page.getByLabel("Because").fill("Its bed is being planed.");
  await page.getByRole("button", { name: "Set it aside" }).click();
  await expect(page.getByRole("heading", { name: "Set aside" })).toBeVisible();
  await page.getByRole("link", { name: "Second name", exact: true }).click();
  await page.getByRole("button", { name: "Bring it back" }).click();
  await page.getByText("Delete it", { exact: true }).click();
  const button = page.getByRole("button", { name: "Delete Second name" });
  await expect(button).toBeDisabled();
  await page.getByLabel("Its name").fill("Second name");
  await button.click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Machines");
  await expect(page.getByRole("link", { name: "Second name", exact: true })).toHaveCount(0);
});

test("a tool with its certificate is added, and a form keeps what is wrong from being sent", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "Tools");
  await page.goto(`${server.address}/machine/${machineOf(page)}/tools`);
  await page.getByLabel("Kind").selectOption("block");
  await page.getByLabel("Its name").fill("Brass block");
  await page.getByLabel("Height").fill("97,98");
  await expect(page.getByText(/needs its U/)).toBeVisible();
  await page.getByLabel("± U of it (k = 2)").first().fill("0.02");
  await page.getByRole("button", { name: "Add it" }).click();
  await expect(page.getByText("Brass block is among your tools.")).toBeVisible();
  await expect(page.getByText(/97\.98 ± 0\.02 mm/)).toBeVisible();
});

test("a logbook is taken in from a file, once, and a file that is none is refused with its line", async ({
  page,
  server,
}) => {
  const text = textFromEvents(soundLogbook());
  const choose = page.locator('input[type="file"]');
  const file = (name: string, content: string) => ({ name, mimeType: "text/plain", buffer: Buffer.from(content) });
  await page.goto(server.address);
  await page.getByRole("link", { name: "From a file" }).click();
  await choose.setInputFiles(file("shed.jsonl", text));
  await expect(page.getByText(/^Taken in, with \d+ entries\./)).toBeVisible();
  await choose.setInputFiles(file("shed.jsonl", text));
  await expect(page.getByText("This logbook is here already, and nothing has changed.")).toBeVisible();
  await choose.setInputFiles(file("shopping.txt", "screws, glue\n"));
  await expect(page.getByText(/^shopping\.txt: The file is not taken in/)).toBeVisible();
  await expect(page.getByText(/^Line 1: /)).toBeVisible();
  await expectAccessible(page);
  await picture(page, "take-in-refused");
  await choose.setInputFiles(file("shed.jsonl", text));
  await page.getByRole("link", { name: "Open the machine" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("router in the shed");
});
