import { describe, expect, it } from "vitest";
import { loadSolver } from "../../src/solver/highs.ts";
import { addEvents } from "../../src/web/worker/held.ts";
import { workBoard } from "../../src/web/worker/work-board.ts";
import { workPage } from "../../src/web/worker/work-pages.ts";
import { demonstrationEvents, demonstrationFile as file } from "./demonstration-events.ts";
import { json } from "./kilter.ts";

const machine = "00000000000000000000000000000002";

describe("what the demonstration machine's work comes out like", () => {
  it("is the same on the page as by the command line, in every number", async () => {
    addEvents(machine, demonstrationEvents);
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
