import { chromium } from "./browser.ts";
import { expect, expectAccessible, picture, test } from "./kilter-page.ts";

// A computer without a graphics card draws in space all the same.
test.use({
  launchOptions: {
    executablePath: chromium(),
    args: [
      "--no-sandbox",
      "--disable-quic",
      "--disable-background-networking",
      "--use-angle=swiftshader",
      "--enable-unsafe-swiftshader",
    ],
  },
});

for (const [size, width, height, theme] of [
  ["phone", 390, 844, "dark"],
  ["bench", 1280, 900, "light"],
] as const) {
  test.describe(`in space, ${size}`, () => {
    test.use({ viewport: { width, height }, colorScheme: theme });

    test("the machine is turned by keys, by buttons and by hand", async ({ page, server }) => {
      const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
      await page.goto(`${server.address}/machine/${id}`);
      await page.getByRole("link", { name: "Turn it in space" }).click();
      const canvas = page.getByRole("img", { name: /in space, from the front right, 24° above/ });
      await expect(canvas).toBeVisible();
      await expect(page.getByText(/exaggerated \d+ times/)).toBeVisible();
      await picture(page, `turned-${size}-${theme}`, false);
      await expectAccessible(page);
      const drawn = page.locator("canvas");
      const before = await drawn.screenshot();
      await drawn.focus();
      for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowRight");
      await expect(page.getByRole("img", { name: /from the right, 24° above/ })).toBeVisible();
      expect((await drawn.screenshot()).equals(before)).toBe(false);
      const asTurned = await drawn.screenshot();
      await page.keyboard.press("=");
      const larger = await drawn.screenshot();
      expect(larger.equals(asTurned)).toBe(false);
      await page.keyboard.press("-");
      expect((await drawn.screenshot()).equals(larger)).toBe(false);
      await page.getByRole("button", { name: "From above" }).click();
      await expect(page.getByRole("img", { name: /from the front, 90° above/ })).toBeVisible();
      await page.getByRole("button", { name: "As at first" }).click();
      const { x, y } = (await drawn.boundingBox()) ?? { x: 0, y: 0 };
      await page.mouse.move(x + 100, y + 100);
      await page.mouse.down();
      await page.mouse.move(x + 190, y + 100, { steps: 5 });
      await page.mouse.up();
      await expect(page.getByRole("img", { name: /from the front, 24° above/ })).toBeVisible();
      await page.getByText("The numbers of this drawing").click();
      await expect(page.getByRole("row", { name: /Squareness of Y to X/ })).toBeVisible();
    });
  });
}

test("two fingers that draw apart make it larger, and turn nothing", async ({ page, server }) => {
  const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
  await page.goto(`${server.address}/machine/${id}/overview/turned`);
  const drawn = page.locator("canvas");
  await expect(drawn).toBeVisible();
  const before = await drawn.screenshot();
  const { x, y } = (await drawn.boundingBox()) ?? { x: 0, y: 0 };
  const fingers = await page.context().newCDPSession(page);
  const touch = (type: "touchStart" | "touchMove" | "touchEnd", ...across: readonly number[]) =>
    fingers.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: across.map((at, finger) => ({ x: x + at, y: y + 100, id: finger })),
    });
  await touch("touchStart", 150);
  await touch("touchStart", 150, 200);
  for (const apart of [70, 90, 110, 130]) await touch("touchMove", 150, 150 + apart);
  await touch("touchEnd");
  expect((await drawn.screenshot()).equals(before)).toBe(false);
  await expect(page.getByRole("img", { name: /from the front right, 24° above/ })).toBeVisible();
});

test("a browser that cannot draw in space says so", async ({ page, server }) => {
  await page.addInitScript("HTMLCanvasElement.prototype.getContext = () => null");
  const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
  await page.goto(`${server.address}/machine/${id}/overview/turned`);
  await expect(page.getByText(/WebGL is missing or switched off/)).toBeVisible();
});
