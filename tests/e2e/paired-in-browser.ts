import jsqrModule from "jsqr";
import { workshopAddresses } from "../../src/server/workshop-network.ts";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";
import { runIsWhole, touchRun } from "./steps.ts";

// The package is older than modules: what it exports stands one step further in.
const readCode = (jsqrModule as unknown as { default?: typeof jsqrModule }).default ?? jsqrModule;

/** What a camera reads in a square code that is drawn as runs of dark squares. */
function readBySquares(path: string, size: number): string | undefined {
  const scale = 4;
  const pixels = new Uint8ClampedArray((size * scale) ** 2 * 4).fill(255);
  for (const [, x, y, run] of path.matchAll(/M(\d+) (\d+)h(\d+)/g)) {
    for (let row = Number(y) * scale; row < (Number(y) + 1) * scale; row++) {
      for (let at = Number(x) * scale; at < (Number(x) + Number(run)) * scale; at++) {
        const first = (row * size * scale + at) * 4;
        pixels.fill(0, first, first + 3);
      }
    }
  }
  return readCode(pixels, size * scale, size * scale)?.data;
}

// Where the computer has no such address there is nothing to share on: tests/server holds the rest.
test.skip(workshopAddresses().length === 0, "no address on a private network");

test("a phone of the workshop's network is paired by its camera, reads as a helper, and is sent away again", async ({
  page: desk,
  browser,
  sharedServer: server,
}) => {
  await expect.poll(() => server.said()).toMatch(/For another code type/);
  const network = /On the workshop's network it is at (\S+)/.exec(server.said())?.[1] ?? "";
  const code = /Pairing code: (\S+)/.exec(server.said())?.[1] ?? "";
  const hand = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const phone = await hand.newPage();

  await phone.goto(`${network}/#pair=${code.replace("-", "")}`);
  await expect(phone.getByRole("heading", { level: 1 })).toHaveText("Pair this device");
  // Nothing here may lean on what browsers keep for encrypted pages.
  expect(await phone.evaluate("isSecureContext")).toBe(false);
  expect(phone.url()).toBe(`${network}/`);
  await picture(phone, "pair-phone");
  await expectAccessible(phone);
  await phone.getByLabel("What this device is called").fill("Phone at the machine");
  await phone.getByRole("button", { name: "Pair", exact: true }).click();
  await phone.getByRole("link", { name: "The shared workshop's router" }).click();
  await expect(phone.getByRole("heading", { level: 1 })).toHaveText("The shared workshop's router");

  const machine = new URL(phone.url()).pathname.split("/")[2] ?? "";
  await desk.goto(`${server.address}/machine/${machine}/findings`);
  const count = async () => Number(/(\d+) readings in/.exec((await desk.locator("main").textContent()) ?? "")?.[1]);
  await expect.poll(count).toBeGreaterThan(0);
  const before = await count();
  await phone.goto(`${network}/machine/${machine}/measure/gap-under-beam`);
  await phone.getByRole("link", { name: "Start with station 1" }).click();
  await touchRun(phone, ["0.65", "0.60", "0.55", "0.65", "0.60", "0.55"]);
  await runIsWhole(phone);
  await expect.poll(count).toBe(before + 6);

  // Not a helper's: what the machine is, and who else comes in.
  await phone.goto(`${network}/`);
  await expect(phone.getByRole("link", { name: "The shared workshop's router" })).toBeVisible();
  await expect(phone.getByRole("link", { name: "New machine" })).toHaveCount(0);
  await phone.goto(`${network}/new`);
  await expect(phone.getByText(/this device is paired as a helper/)).toBeVisible();
  await phone.goto(`${network}/machine/${machine}/history`);
  await expect(phone.getByRole("button", { name: /^Take back: Instrument/ }).first()).toBeVisible();
  await expect(
    phone.getByRole("button", { name: /^Take back: (The machine is described|Its description)/ }),
  ).toHaveCount(0);
  await phone.goto(`${network}/settings`);
  await expect(phone.getByRole("heading", { name: "Saving" })).toBeVisible();
  await expect(phone.getByRole("heading", { name: "Paired devices" })).toHaveCount(0);

  await desk.goto(`${server.address}/settings`);
  const device = desk.getByRole("listitem").filter({ hasText: "Phone at the machine" });
  await expect(device).toContainText("helper");
  await desk.getByRole("button", { name: "A code for an owner" }).click();
  const offer = desk.getByText(/works once, until/);
  await expect(offer).toContainText(network);
  const square = desk.getByRole("img", { name: "The address and the pairing code as a square code" });
  const [path, box] = [await square.locator("path").getAttribute("d"), await square.getAttribute("viewBox")];
  const typed = (await offer.locator("b").textContent())?.replace("-", "");
  expect(readBySquares(path ?? "", Number(box?.split(" ")[2]))).toBe(`${network}/#pair=${typed}`);
  await picture(desk, "paired-devices");
  await expectAccessible(desk);
  await device.getByRole("button", { name: "Send it away" }).click();
  await expect(desk.getByText("None yet.")).toBeVisible();
  // Without being asked: its line to the server ends, and it finds out why.
  await expect(phone.getByRole("heading", { level: 1 })).toHaveText("Pair this device", { timeout: 15_000 });
  await hand.close();
});
