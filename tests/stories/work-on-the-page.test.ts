import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { LogEvent } from "../../src/logbook/events.ts";
import { loadSolver } from "../../src/solver/highs.ts";
import { addEvents } from "../../src/web/worker/held.ts";
import { workBoard } from "../../src/web/worker/work-board.ts";
import { workPage } from "../../src/web/worker/work-pages.ts";
import { json } from "./kilter.ts";

const file = fileURLToPath(new URL("../../catalog/demonstration/shared-workshop.jsonl", import.meta.url));
const machine = "00000000000000000000000000000002";

describe("what the demonstration machine's work comes out like", () => {
  it("is the same on the page as by the command line, in every number", async () => {
    const lines = readFileSync(file, "utf8").split("\n");
    addEvents(
      machine,
      lines.flatMap((line) => (line === "" ? [] : [JSON.parse(line) as LogEvent])),
    );
    const solve = await loadSolver();
    for (const [words, asked] of [
      [[], { kind: null, after: false }],
      [["--after"], { kind: null, after: true }],
      [["--kind", "inlay"], { kind: "inlay", after: false }],
    ] as const) {
      const answer = workPage(machine, { ...asked, sizes: {} }, solve);
      if (!answer.ok) throw new Error("the demonstration reads");
      // Written out and read again, as the command line's answer has been.
      expect(JSON.parse(JSON.stringify(answer.value.numbers))).toEqual(json(["work", file, ...words]));
    }
    const board = workBoard(machine);
    if (!board.ok) throw new Error("the demonstration reads");
    const typed = json<{ demands: readonly { id: string; title: string; limit: number }[] }>(["demands", file]);
    expect(board.value.demands.map(({ id, title, limitValue }) => ({ id, title, limit: limitValue }))).toEqual(
      typed.demands.map(({ id, title, limit }) => ({ id, title, limit })),
    );
  });
});
