import type { CheckOption } from "./check.ts";

/** Calipers that were read on a block of nearly the same size beside the work have next to no error of their own left. */
export const comparedOption: CheckOption = {
  key: "compared",
  question: "Were the calipers read on a block of nearly the same size as well, and the lengths corrected by it?",
  answers: ["no", "yes"],
  usual: "no",
};
