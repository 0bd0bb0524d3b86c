import { readFileSync, writeFileSync } from "node:fs";
import type { Page } from "@playwright/test";
import { HiddenMachine } from "../stories/hidden-machine.ts";
import { createMachine, done, layouts, newLogbook, passFitToMeasure } from "../stories/kilter.ts";
import { expect, type KilterServer, picture, test } from "./kilter-page.ts";

// Measured, planned, moved through the page, measured again: the machine's truth is known to the test alone.
const machine = "0123456789abcdef0123456789abcdef";
const truth = { "beam.right": -0.3, "slide.lean.side": 3, "backlash.x": 0.25, "bed.tilt.x": 0.4 } as const;
const MOST_MOVES = 8;

test("a machine whose truth is hidden is brought in through the page in two rounds", async ({ page, server }) => {
  test.setTimeout(300_000);
  const file = newLogbook();
  createMachine(file, layouts[0]);
  passFitToMeasure(file, layouts[0].layout);
  done(["skim", file, "no"]);
  for (const id of ["runout", "scale x", "scale y", "diagonals"]) done(["demands", file, "drop", id]);
  const hidden = new HiddenMachine(file, truth, 6);
  const start = hidden.worst();
  expect(start).toBeGreaterThan(1.2);
  for (let round = 0; round < 2; round++) {
    hidden.read("bed-touch", "touch-plate", 0.015);
    hidden.read("tram-sweep", "dial-indicator", 0.01);
    for (const axis of ["X", "Y"]) hidden.read("turnaround", "dial-indicator", 0.01, { axis });
    await send(server, file, round === 0);
    const made = await makeMoves(page, server, hidden);
    if (round === 0) expect(made).toBeGreaterThan(0);
    // What was noted on the page is in the logbook that the next round is read into.
    const exported = await fetch(`${server.address}/api/machines/${machine}/export`);
    writeFileSync(file, await exported.text());
  }
  expect(hidden.worst()).toBeLessThan(1);
  expect(hidden.worst()).toBeLessThan(start);
  await page.goto(`${server.address}/machine/${machine}/moves`);
  await expect(page.getByRole("heading", { name: "Moved so far" })).toBeVisible();
  await picture(page, "whole-loop");
});

/** As a second device would send them. */
async function send(server: KilterServer, file: string, isNew: boolean): Promise<void> {
  const text = readFileSync(file, "utf8");
  const reply = isNew
    ? await fetch(`${server.address}/api/machines`, {
        method: "POST",
        headers: { Origin: server.address, "Content-Type": "application/json" },
        body: JSON.stringify({
          id: machine,
          events: text
            .split("\n")
            .filter((line) => line !== "")
            .map((line) => JSON.parse(line)),
        }),
      })
    : await fetch(`${server.address}/api/machines/import?machine=${machine}`, {
        method: "POST",
        headers: { Origin: server.address, "Content-Type": "application/x-ndjson" },
        body: text,
      });
  expect(reply.ok, await reply.clone().text()).toBe(true);
}

/** Goes from move to move by the page's own buttons, until it offers something else; says how many were made. */
async function makeMoves(page: Page, server: KilterServer, hidden: HiddenMachine): Promise<number> {
  await page.goto(`${server.address}/machine/${machine}/moves`);
  await expect(page.locator(".plan-head .headline.strong")).toBeVisible();
  const begin = page.getByRole("link", { name: "Begin with move 1" });
  if ((await begin.count()) === 0) return 0;
  await begin.click();
  for (let made = 1; made <= MOST_MOVES; made++) {
    const adjuster = decodeURIComponent(new URL(page.url()).pathname.split("/").at(-1) ?? "").replaceAll("~", ".");
    const button = page.getByRole("button", { name: "Done", exact: true });
    await expect(button).toBeEnabled();
    await button.click();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Noted: /);
    const last = await lastMove(server);
    expect(last.adjuster).toBe(adjuster);
    hidden.makeUnnoted(last);
    await expect(page.getByText("Working out what comes next.")).toHaveCount(0);
    const next = page.getByRole("link", { name: "Show the move" });
    if ((await next.count()) === 0) return made;
    await next.click();
  }
  return MOST_MOVES;
}

/** The move that the server was sent last; the page's outbox may need a moment. */
async function lastMove(server: KilterServer): Promise<{ readonly adjuster: string; readonly amount: number }> {
  const seen = lastSeen;
  for (let tries = 0; tries < 50; tries++) {
    const reply = await fetch(`${server.address}/api/machines/${machine}/events?after=${seen}`);
    const { events } = (await reply.json()) as {
      events: readonly { sequence: number; event: { kind: string; adjuster: string; amount: number } }[];
    };
    const move = events.findLast(({ event }) => event.kind === "move-made");
    if (move) {
      lastSeen = move.sequence;
      return move.event;
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error("The move has not come to the server.");
}

let lastSeen = 0;
