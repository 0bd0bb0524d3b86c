import { expect, expectAccessible, picture, test } from "./kilter-page.ts";

const views = [
  ["machines", "/"],
  ["new-machine", "/new"],
  ["settings", "/settings"],
  ["take-in", "/take-in"],
  ["nowhere", "/no/such/place"],
  ["drawing", "/machine/ID"],
  ["checks", "/machine/ID/measure"],
  ["set-up", "/machine/ID/measure/gap-under-beam"],
  ["set-up-powered", "/machine/ID/measure/square-sweep"],
  ["station", "/machine/ID/measure/gap-under-beam/take"],
  ["station-by-dial", "/machine/ID/measure/tram-sweep/take"],
  ["station-by-look", "/machine/ID/measure/grub-screws/take"],
  ["type-in", "/machine/ID/measure/hole-rectangle/type"],
  ["blank-sheet", "/machine/ID/measure/tram-sweep/blank"],
  ["findings", "/machine/ID/findings"],
  ["finding", "/machine/ID/findings/scale~y"],
  ["next", "/machine/ID/next"],
  ["moves", "/machine/ID/moves"],
  ["moves-tried", "/machine/ID/moves?only=slide.packing&skim=yes"],
  ["move", "/machine/ID/moves/slide~side"],
  ["move-proved-after-homing", "/machine/ID/moves/gantry~offset"],
  ["move-not-planned", "/machine/ID/moves/mount~packing"],
  ["places", "/machine/ID/moves/places"],
  ["stock", "/machine/ID/moves/stock"],
  ["work", "/machine/ID/work?kind=lettering&circle=radius:50&square=alongX:5000"],
  ["round", "/machine/ID/measure/short-round?card=gap-under-beam"],
  ["round-typed", "/machine/ID/measure/fit-to-measure/type"],
  ["turned", "/machine/ID/overview/turned"],
  ["compare", "/machine/ID/history/compare"],
  ["readings", "/machine/ID/readings"],
  ["history", "/machine/ID/history"],
  ["tools", "/machine/ID/tools"],
  ["description", "/machine/ID/description"],
  ["no-such-machine", "/machine/00000000000000000000000000000000"],
] as const;

/** What another theme can change, and what another width can; the rest is the same page. */
const ofTheme = ["color-contrast"];
const ofWidth = ["target-size", "scrollable-region-focusable"];

/** Each with the rules that are asked for; none named is all of them. */
const looks = [
  ["phone", 390, 844, "light", []],
  ["phone", 390, 844, "dark", ofTheme],
  ["small", 360, 740, "light", ofWidth],
  ["between", 820, 1100, "light", ofWidth],
  ["bench", 1280, 900, "light", []],
  ["bench", 1280, 900, "dark", ofTheme],
  // The bench's screen at 200 % has half as many of the page's own pixels each way.
  ["enlarged", 640, 450, "light", ofWidth],
] as const;

for (const [name, path] of views) {
  test(`${name} can be used by whoever does not see it, and nothing moves it sideways`, async ({
    page,
    unchangedServer: { address },
  }) => {
    const [{ id }] = (await (await fetch(`${address}/api/machines`)).json()) as [{ id: string }];
    const title = page.getByRole("heading", { level: 1 });
    for (const [i, [size, width, height, theme, rules]] of looks.entries()) {
      // Loaded on a phone, then turned and carried to the bench: the layout must follow.
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme: theme });
      if (i === 0) await page.goto(address + path.replace("ID", id));
      await expect(title).toBeVisible();
      if (name !== "no-such-machine") await expect(title).not.toHaveText(/not here/);
      await expect(page.getByText(/^Work(ing|ing out)/)).toHaveCount(0);
      await picture(page, `${name}-${size}-${theme}`);
      const wide = await page.evaluate<number>("document.documentElement.scrollWidth");
      expect(wide, `${name} is as wide as the screen of ${width}`).toBeLessThanOrEqual(width);
      // At the end of the page a bar that stands at the screen's edge covers nothing.
      await page.evaluate("scrollTo(0, document.documentElement.scrollHeight)");
      await expectAccessible(page, rules);
      await page.evaluate("scrollTo(0, 0)");
    }
  });
}

for (const [name, path, caution] of [
  ["leaves", "gap-under-beam/take", /Plug out, cutter out/],
  ["four-fields", "turnaround/take?with=leaves&set.axis=X", /No cutter\. One hand stays at the stop/],
] as const) {
  test(`a station fits the screen without scrolling, its condition said and its keys in reach: ${name}`, async ({
    page,
    unchangedServer: server,
  }) => {
    const [{ id }] = (await (await fetch(`${server.address}/api/machines`)).json()) as [{ id: string }];
    const expectNoScrolling = async (height: number, what: string) =>
      expect
        .poll(async () => page.evaluate<number>("document.documentElement.scrollHeight"), { message: what })
        .toBeLessThanOrEqual(height);
    for (const [width, height] of [
      [390, 844],
      [390, 664],
      [360, 740],
      [844, 390],
      [1280, 800],
    ] as const) {
      await page.setViewportSize({ width, height });
      // Entered directly, as from a reading that is to be taken once more.
      await page.goto(`${server.address}/machine/${id}/measure/${path}`);
      for (const key of ["Next", "0", "Skip"])
        await expect(page.getByRole("button", { name: key, exact: true })).toBeInViewport({ ratio: 1 });
      await expect(page.getByText(caution)).toBeInViewport({ ratio: 1 });
      await picture(page, `station-${name}-${width}x${height}`, false);
      await expectNoScrolling(height, `${width} by ${height}`);
      await page.getByRole("button", { name: "Show how" }).click();
      await picture(page, `station-${name}-how-${width}x${height}`, false);
      await expectNoScrolling(height, `how, ${width} by ${height}`);
      await page.getByRole("button", { name: "Show where" }).click();
      await expect(page.getByRole("button", { name: "Next" })).toBeInViewport({ ratio: 1 });
    }
    await page.setViewportSize({ width: 390, height: 844 });
    await page.getByRole("button", { name: "Show how" }).click();
    await page.getByRole("button", { name: "Back to the keys" }).click();
    await expect(page.getByRole("button", { name: "Next" })).toBeInViewport({ ratio: 1 });
  });
}
