import { letters, segment } from "../store/small-pictures.ts";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { describeMachine, machineOf } from "./steps.ts";

// Where a photograph is taken.
test.use({ viewport: { width: 390, height: 844 } });

test("a photograph is kept without what tells of its place, through a dead network, and removed with its bytes", async ({
  page,
  server,
}) => {
  await describeMachine(page, server.address, "Pictured");
  const machine = machineOf(page);
  await expect(page.locator(".saved")).toHaveText("Everything is saved.");
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

  await server.stop();
  const caption = await page.getByLabel("What it shows").boundingBox();
  expect(caption?.width).toBeGreaterThan(300);
  // Looked at before it is kept, and taken back: nothing of it stays.
  await choose.setInputFiles({ name: "dial.jpg", mimeType: "image/jpeg", buffer: taken });
  await expect(page.getByRole("img", { name: "What has been chosen" })).toBeVisible();
  await expect(page.getByText("Chosen, and not in the logbook yet.")).toBeVisible();
  await page.getByLabel("What it shows").fill("The dial on <script>alert(1)</script> its stand");
  await picture(page, "photograph-chosen");
  await expectAccessible(page);
  await page.getByRole("button", { name: "Take it back" }).click();
  await expect(page.getByText("Taken back: nothing of it is kept.")).toBeVisible();
  await expect(page.getByRole("img", { name: "What has been chosen" })).toHaveCount(0);
  await expect(choose).toBeFocused();
  await expect(page.locator(".photograph")).toHaveCount(0);

  await choose.setInputFiles({ name: "dial.jpg", mimeType: "image/jpeg", buffer: taken });
  // Whoever looks something up meanwhile finds it as it was left.
  await page.getByRole("link", { name: "Settings" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Settings");
  await page.goBack();
  await expect(page.getByRole("img", { name: "What has been chosen" })).toBeVisible();
  await expect(page.getByText("Chosen, and not in the logbook yet.")).toBeVisible();
  await expect(page.getByLabel("What it shows")).toHaveValue("The dial on <script>alert(1)</script> its stand");
  await page.getByRole("button", { name: "Put it in the logbook" }).click();
  await expect(page.getByText("The photograph is in the logbook.")).toBeVisible();
  await expect(choose).toBeFocused();
  const shown = page.getByRole("img", { name: /The dial on <script>alert\(1\)<\/script> its stand/ });
  await expect(shown).toBeVisible();
  await expect(page.getByText("On this device only. It is sent when the server is reached.")).toBeVisible();
  await picture(page, "photograph-unsent");

  await server.restart();
  await expect(page.getByText("Sent: the server keeps it.")).toBeVisible({ timeout: 30_000 });
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

  // What is safe comes first and has the focus; back from it, the focus stands where it was.
  const remove = page.getByRole("button", { name: /^Remove the picture/ });
  await remove.click();
  const keep = page.getByRole("button", { name: "Keep it" });
  await expect(keep).toBeFocused();
  await picture(page, "photograph-removal");
  await expectAccessible(page);
  await expect(keep).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(remove).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(keep).toBeFocused();
  await page.keyboard.press("Escape");
  await expect(remove).toBeFocused();
  await expect(shown).toBeVisible();

  // The server does not hear of it: the picture stays, and the page says so.
  await remove.click();
  await server.stop();
  const forGood = page.getByRole("button", { name: "Remove it for good" });
  await forGood.click();
  await expect(page.getByText(/^The picture is still there\./)).toBeVisible();
  await expect(forGood).toBeFocused();
  await server.restart();
  await forGood.click();
  const gone = page.getByText("Its picture has been removed for good; its line stays.");
  await expect(gone).toBeFocused();
  await page.reload();
  await expect(page.getByText(/Its picture has been removed/)).toBeVisible();
  await expect(page.getByText(/A photograph: The dial on/)).toBeVisible();
});

test("a photograph that has not been sent can still be taken off the device that took it", async ({ page, server }) => {
  await describeMachine(page, server.address, "Pictured");
  const machine = machineOf(page);
  await expect(page.locator(".saved")).toHaveText("Everything is saved.");
  await page.goto(`${server.address}/machine/${machine}/history`);
  await page.getByText("Add a photograph").click();
  const shot = await page.screenshot({ type: "jpeg" });
  await server.stop();
  await page.locator('input[type="file"]').setInputFiles({ name: "dial.jpg", mimeType: "image/jpeg", buffer: shot });
  await page.getByRole("button", { name: "Put it in the logbook" }).click();
  await page.getByRole("button", { name: /^Remove the picture/ }).click();
  await expect(page.getByText(/The picture lies nowhere but on this device/)).toBeVisible();
  await page.getByRole("button", { name: "Remove it for good" }).click();
  await expect(page.getByText("Its picture has been removed for good; its line stays.")).toBeFocused();

  await server.restart();
  await expect(page.locator(".saved")).toHaveText("Everything is saved.");
  await page.reload();
  await expect(page.getByText("Its picture has been removed, or has not come from its device yet.")).toBeVisible();
  const address = `${server.address}/api/machines/${machine}/photographs`;
  const events = await (await fetch(`${server.address}/api/machines/${machine}/events?after=0`)).text();
  const [, sum] = /sha256\W+([0-9a-f]{64})/.exec(events) ?? [];
  expect(sum).toMatch(/^[0-9a-f]{64}$/);
  expect((await fetch(`${address}/${sum}`)).status).toBe(404);
});
