import type { CheckOption, CheckUnknown } from "./check.ts";

/** A square's own angle: mm per 100 mm of its blade, + wider than 90°. Lasting; its prior comes from the square. */
export const squareUnknown: CheckUnknown = {
  key: "square",
  scope: "object",
  role: "square",
  words: "the square's own angle",
  mean: 0,
  sd: 0.2,
};

/** Which side the body of the square is on: asked in words, drawn, and never as a bare sign. */
export function squareStands(question: string, answers: readonly [string, string], usual: string): CheckOption {
  return { key: "square", question, answers, usual };
}

/** Which way the stem points. */
export function stemPoints(answers: readonly [string, string], usual: CheckOption["usual"]): CheckOption {
  return { key: "stem", question: "Which way does the stem point?", answers, usual };
}
