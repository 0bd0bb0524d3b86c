import { describe, expect, test } from "vitest";
import { fillSecondLeaf, withTyped } from "./second-leaf.ts";

/** Two fields, and an answer that comes when it is told to. */
function fields() {
  const state = { goes: "", second: "", hasFocus: false, isTyped: false };
  const waiting: ((leaf: string) => void)[] = [];
  return {
    state,
    answer: async (leaf: string) => {
      waiting.shift()?.(leaf);
      await Promise.resolve();
    },
    fill: () =>
      fillSecondLeaf(
        {
          goes: () => state.goes,
          isTheirs: () => state.hasFocus || state.isTyped,
          put: (text) => {
            state.second = text;
          },
        },
        () => new Promise((resolve) => waiting.push(resolve)),
      ),
  };
}

describe("the leaf that does not go", () => {
  test("is filled in beside the one that goes", async () => {
    const { state, answer, fill } = fields();
    state.goes = "0.25";
    const filled = fill();
    await answer("0.30");
    await filled;
    expect(state.second).toBe("0.30");
  });

  test("is never filled in once its field has the focus, however late the answer comes", async () => {
    const { state, answer, fill } = fields();
    state.goes = "0.25";
    const filled = fill();
    state.hasFocus = true;
    state.second = "0.3";
    await answer("0.30");
    await filled;
    expect(state.second).toBe("0.3");
  });

  test("is never filled in over what was typed, nor where it was typed and wiped out again", async () => {
    const { state, fill } = fields();
    Object.assign(state, { goes: "0.25", second: "0.35", isTyped: true });
    await fill();
    expect(state.second).toBe("0.35");
    state.second = "";
    await fill();
    expect(state.second).toBe("");
  });

  test("goes as soon as another leaf goes, and an answer for the one before comes too late", async () => {
    const { state, answer, fill } = fields();
    state.goes = "0.2";
    const first = fill();
    await answer("0.25");
    await first;
    state.goes = "0.25";
    const second = fill();
    expect(state.second).toBe("");
    state.goes = "0.2";
    await answer("0.30");
    await second;
    expect(state.second).toBe("");
  });

  test("is known field by field to have been typed", () => {
    expect(withTyped([], 1)).toEqual([false, true]);
    expect(withTyped([true], 1)).toEqual([true, true]);
    expect(withTyped([true, false, true], 1)).toEqual([true, true, true]);
  });
});
