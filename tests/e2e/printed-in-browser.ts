import { mkdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "./kilter-page.ts";

/** What is looked at on paper, what must stand there, and how many pages it may take. */
const views = [
  ["machines", "/", "The shared workshop", 2],
  ["drawing", "/machine/ID", "front", 3],
  ["next", "/machine/ID/next", "Next", 2],
  ["checks", "/machine/ID/measure", "Fit to measure", 4],
  ["set-up", "/machine/ID/measure/gap-under-beam", "Step by step", 4],
  ["card", "/machine/ID/measure/fit-to-measure?card=feet-rock", "Card 1 of 9", 3],
  ["sheet", "/machine/ID/measure/gap-under-beam/blank", "The first station again", 1],
  ["long-sheet", "/machine/ID/measure/tram-sweep/blank", "The first station again", 1],
  ["findings", "/machine/ID/findings", "Squareness of Y to X", 5],
  ["finding", "/machine/ID/findings/squareness", "What carries it", 7],
  ["readings", "/machine/ID/readings", "Gap under the beam", 12],
  ["history", "/machine/ID/history", "History", 8],
  ["tools", "/machine/ID/tools", "feeler leaves", 6],
  ["description", "/machine/ID/description", "Name", 8],
  ["moves", "/machine/ID/moves", "Moves", 8],
  ["work", "/machine/ID/work?kind=lettering", "Work", 8],
] as const;

const folder = fileURLToPath(new URL("../../.cache/e2e/printed/", import.meta.url));
mkdirSync(folder, { recursive: true });

/** A4 and Letter, in points of 1/72 inch. */
const papers = { a4: [595, 842], letter: [612, 792] } as const;

for (const [name, path, words, mostPages] of views) {
  test(`${name} is printed: dark ink on white, all of it, and nothing to press`, async ({ page, unchangedServer }) => {
    const { address } = unchangedServer;
    const [{ id }] = (await (await fetch(`${address}/api/machines`)).json()) as [{ id: string }];
    // The screen is dark and the paper is not.
    await page.emulateMedia({ media: "screen", colorScheme: "dark" });
    await page.goto(address + path.replace("ID", id));
    await expect(page.getByRole("heading", { level: 1 })).toBeAttached();
    await expect(page.getByText(/^Work(ing|ing out)/)).toHaveCount(0);
    await expect(page.locator("#page")).toContainText(words);
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    const ink = await page.evaluate<string>("getComputedStyle(document.documentElement).color");
    expect(ink).toBe("rgb(29, 27, 24)");
    for (const pressed of ["button", ".button", ".head", ".skip"])
      for (const one of await page.locator(pressed).all()) await expect(one).toBeHidden();
    // On paper nothing can be moved sideways. A4 between its margins is 182 mm, 688 px.
    await page.setViewportSize({ width: 688, height: 1000 });
    expect(await page.evaluate<number>("document.documentElement.scrollWidth")).toBeLessThanOrEqual(688);
    expect(await cutOff(page)).toEqual([]);
    const file = `${folder}${name}.pdf`;
    await page.pdf({ path: file, preferCSSPageSize: true, format: "A4" });
    expect(read(file).pages, "pages").toBeLessThanOrEqual(mostPages);
  });
}

for (const [paper, [width, height]] of Object.entries(papers)) {
  test(`the sheets of a round go to the printer at one go, each on a page of its own, on ${paper}`, async ({
    page,
    unchangedServer: { address },
  }) => {
    const [{ id }] = (await (await fetch(`${address}/api/machines`)).json()) as [{ id: string }];
    await page.goto(`${address}/machine/${id}/measure/fit-to-measure`);
    await page.getByRole("link", { name: "Print its sheets" }).click();
    await page.getByText(paper === "a4" ? "A4" : "Letter", { exact: true }).click();
    await expect(page.getByRole("article")).toHaveCount(9);
    await page.emulateMedia({ media: "print" });
    const file = `${folder}round-${paper}.pdf`;
    // Without a format of its own: what the page says of its paper counts.
    await page.pdf({ path: file, preferCSSPageSize: true });
    const { pages, size } = read(file);
    expect(pages).toBe(9);
    expect(size.map(Math.round)).toEqual([width, height]);
  });
}

/** Elements that hide some of what they hold and could only be seen whole by scrolling. */
function cutOff(page: import("@playwright/test").Page): Promise<readonly string[]> {
  return page.evaluate<readonly string[]>(`[...document.querySelectorAll("#page *")]
    .filter((one) => one.checkVisibility() && /auto|scroll|hidden/.test(getComputedStyle(one).overflowX))
    .filter((one) => one.clientWidth > 8 && one.scrollWidth > one.clientWidth + 1)
    .map((one) => one.tagName + "." + one.className)`);
}

function read(file: string): { readonly pages: number; readonly size: readonly number[] } {
  const bytes = readFileSync(file).toString("latin1");
  const [, , , width = 0, height = 0] =
    /\/MediaBox\s*\[\s*(\S+) (\S+) (\S+) (\S+?)\s*\]/.exec(bytes)?.map(Number) ?? [];
  return { pages: [...bytes.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length, size: [width, height] };
}
