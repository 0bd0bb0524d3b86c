import type { AnswerSize } from "./demand-kind.ts";

/** In the order of the findings that are told for each axis. */
export const axisNames: readonly string[] = ["x", "y", "z"];

/** Which axis is meant. */
export const axisSize: AnswerSize = { key: "axis", words: "the axis", answers: axisNames, usual: "x" };
