import type { Adjuster } from "./adjuster.ts";

type Usual = "kind" | "frees" | "readAgain" | "cure" | "packing";

/** An adjuster as a family of them states it; its letter comes from its place in the list. */
export type AdjusterDraft = Omit<Adjuster, Usual | "letter" | "available"> & Partial<Pick<Adjuster, Usual>>;

export function adjusterFromDraft(draft: AdjusterDraft, index: number): Adjuster {
  return {
    kind: "add",
    frees: {},
    readAgain: null,
    cure: "structural",
    packing: "none",
    ...draft,
    letter: letterOf(index),
    available: true,
  };
}

// I and O look like figures beside the numbers of screws.
const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";

/** A to Z without I and O, then AA, AB … */
export function letterOf(index: number): string {
  const first = Math.floor(index / letters.length);
  const last = letters[index % letters.length]!;
  return first === 0 ? last : `${letters[first - 1]}${last}`;
}
