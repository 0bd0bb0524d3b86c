/** The field for the leaf that does not go, beside the one for the leaf that goes. */
export interface SecondLeaf {
  /** What stands in the field of the leaf that goes. */
  goes(): string;
  /** True while it is the person's own: it has the focus, or something has been typed into it. */
  isTheirs(): boolean;
  put(text: string): void;
}

/**
 * Fills in the next leaf of the user's own set as the one that does not go, whenever another goes. What was filled in
 * for another leaf goes at once, since it is nobody's reading; what comes late does not come at all.
 */
export async function fillSecondLeaf(field: SecondLeaf, nextLeaf: (goes: string) => Promise<string>): Promise<void> {
  if (field.isTheirs()) return;
  field.put("");
  const goes = field.goes();
  if (goes.trim() === "") return;
  const next = await nextLeaf(goes);
  if (field.goes() === goes && !field.isTheirs()) field.put(next);
}

/** With one more field typed into by hand. */
export function withTyped(typed: readonly boolean[], field: number): readonly boolean[] {
  return Array.from({ length: Math.max(typed.length, field + 1) }, (_, i) => i === field || (typed[i] ?? false));
}
