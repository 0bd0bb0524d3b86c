import { describe, expect, it } from "vitest";
import { loadSolver } from "../../src/solver/highs.ts";
import { addEvents } from "../../src/web/worker/held.ts";
import { planPage } from "../../src/web/worker/plan-pages.ts";
import { demonstrationEvents, demonstrationFile as file } from "./demonstration-events.ts";
import { json } from "./kilter.ts";

const machine = "00000000000000000000000000000001";

describe("the plan of the demonstration machine", () => {
  it("is the same on the page as by the command line, in every number and every sentence", async () => {
    addEvents(machine, demonstrationEvents);
    const solve = await loadSolver();
    for (const [words, what] of [
      [[], {}],
      [["--lock", "gantry.offset", "--skim", "yes"], { locks: ["gantry.offset"], willSkim: true }],
    ] as const) {
      const typed = json<Record<string, unknown> & { moves: readonly { sentence: string }[] }>([
        "plan",
        file,
        ...words,
      ]);
      const answer = planPage(machine, what, solve);
      if (!answer.ok) throw new Error("the demonstration reads");
      // Written out and read again, as the command line's answer has been.
      expect(JSON.parse(JSON.stringify(answer.value.numbers))).toEqual(typed);
      expect(answer.value.moves.map(({ sentence }) => sentence)).toEqual(typed.moves.map(({ sentence }) => sentence));
    }
  });
});
