import { letters, segment } from "../store/small-pictures.ts";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { describeMachine, machineOf } from "./steps.ts";

test("a photograph is kept without what tells of its place, through a dead network, and removed with its bytes", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "Pictured");
  const machine = machineOf(page);
  await expect(page.getByText("Everything is saved.")).toBeVisible();
  const shot = await page.screenshot({ type: "jpeg" });
  // As a telephone writes it: what it knows of place and time stands behind the first two bytes.
  const taken = Buffer.concat([
    shot.subarray(0, 2),
    Uint8Array.from(segment(0xfe, letters("taken at home"))),
    shot.subarray(2),
  ]);
  expect(taken.includes("taken at home")).toBe(true);

  await page.goto(`${server.address}/machine/${machine}/history`);
  await page.getByText("Add a photograph").click();
  const choose = page.locator('input[type="file"]');
  await choose.setInputFiles({ name: "notes.jpg", mimeType: "image/jpeg", buffer: Buffer.from("no picture at all") });
  await expect(page.getByRole("alert").filter({ hasText: /\w/ })).toBeVisible();

  await page.getByLabel("What it shows").fill("The dial on <script>alert(1)</script> its stand");
  await server.stop();
  await choose.setInputFiles({ name: "dial.jpg", mimeType: "image/jpeg", buffer: taken });
  await expect(page.getByText("The photograph is in the logbook.")).toBeVisible();
  const shown = page.getByRole("img", { name: /The dial on <script>alert\(1\)<\/script> its stand/ });
  await expect(shown).toBeVisible();
  await expect(page.getByText("It is on this device, and is sent when the server is reached.")).toBeVisible();
  await picture(page, "photograph-unsent");

  await server.restart();
  await expect(page.getByText("It is on this device, and is sent when the server is reached.")).toHaveCount(0, {
    timeout: 30_000,
  });
  await page.reload();
  await expect(shown).toBeVisible();
  await expect
    .poll(() => shown.evaluate((image) => (image as unknown as { naturalWidth: number }).naturalWidth))
    .toBeGreaterThan(100);
  const address = (await page.locator(".photograph img").getAttribute("src")) ?? "";
  const kept = Buffer.from(await (await fetch(server.address + address)).arrayBuffer()).toString("latin1");
  expect(kept).not.toContain("taken at home");
  expect(kept.length).toBeGreaterThan(1000);
  await expectAccessible(page);

  await page.getByRole("button", { name: /^Remove the picture/ }).click();
  await expect(page.getByText(/Its picture has been removed/)).toBeVisible();
  await page.reload();
  await expect(page.getByText(/Its picture has been removed/)).toBeVisible();
  await expect(page.getByText(/A photograph: The dial on/)).toBeVisible();
});
