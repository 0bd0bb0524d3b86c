import { describe, expect, it } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { roundWordsOf } from "./round-words.ts";
import { fitToMeasureCards, shortRoundCards } from "./rounds.ts";

describe.each(["moving-gantry", "fixed-bridge"] as const)("the rounds of a %s", (layout) => {
  const machine = workedMachine(layout);
  const cards = [...fitToMeasureCards(machine), ...shortRoundCards(machine)];

  it("have a card of its own for each axis that a check is done with", () => {
    const keys = cards.map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    for (const key of ["there-and-back-X", "there-and-back-Y", "turnaround-X", "turnaround-Y"])
      expect(keys).toContain(key);
  });

  it("ask only what their checks ask", () => {
    for (const { check, answers, proposed } of cards)
      for (const [key, answer] of Object.entries({ ...answers, ...proposed }))
        expect(check.options.find((option) => option.key === key)?.answers).toContain(answer);
  });

  it("say of every card why it is there, and of every look, push or count what is put right", () => {
    for (const { check } of cards) {
      const { why, putRight } = roundWordsOf(check.id);
      expect(why).toMatch(/\.$/);
      if (check.kind === "condition") expect(putRight).toMatch(/\.$/);
      else expect(putRight).toBe("");
      expect(`${why} ${putRight}`).not.toMatch(/\bplease\b|\bsuccess|\berrors?\b|\bOK\b|!|"| {2}\S/i);
    }
  });
});
