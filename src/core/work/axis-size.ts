import type { AnswerSize } from "./demand-kind.ts";

/** Which axis is meant. */
export const axisSize: AnswerSize = { key: "axis", words: "the axis", answers: ["x", "y", "z"], usual: "x" };
