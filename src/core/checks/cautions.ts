/** A caution is one of the three that stand for a whole kind of work, or a sentence that belongs to one check. */
export type Caution = "hands in" | "under power" | "cutting" | { readonly sentence: string };

/** The line that heads every list of cautions. */
export const cautionHead =
  "What the makers of machine, router, cutter and material state, and the rules of the place, come before anything here. " +
  "These words and numbers guard nothing, stop nothing and certify nothing. When in doubt, stop and ask somebody qualified.";

const sentences = {
  "hands in":
    "Pull the plug, do not only switch off, and take the cutter out. Without power an axis on a belt rolls freely and a slide may fall: hold both.",
  "under power":
    "No cutter in the collet. Low speed; one of your hands stays at the stop, the other well away, and nobody else comes near.",
  cutting:
    "Glasses, ear defenders and dust mask on, extraction running, the work held down. Sleeves close, hair tied up, hands bare of gloves and rings. " +
    "Run the program once in air, and stay beside the machine while it cuts.",
} as const;

/** The caution as a person reads it. */
export function sentenceForCaution(caution: Caution): string {
  return typeof caution === "string" ? sentences[caution] : caution.sentence;
}
