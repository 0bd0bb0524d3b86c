/**
 * A caution is one of the three that stand for a whole kind of work, or a sentence that belongs to one check, with its
 * short form where none of the three says enough at the machine.
 */
export type Caution = "hands in" | "under power" | "cutting" | { readonly sentence: string; readonly inHand?: string };

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

/** What of it stands beside the field while a hand is at the machine. */
const inHand = {
  "hands in": "Plug out, cutter out, Z blocked.",
  "under power": "No cutter. One hand stays at the stop.",
  cutting: "Spindle still and plug out before a hand goes in.",
} as const;

/** The condition of a check in one short line, for whoever has come to its stations without its cautions; "" for none. */
export function cautionInHand(cautions: readonly Caution[]): string {
  const [line = ""] = cautions.flatMap((caution) =>
    typeof caution === "string" ? [inHand[caution]] : caution.inHand === undefined ? [] : [caution.inHand],
  );
  return line;
}

/** The caution as a person reads it. */
export function sentenceForCaution(caution: Caution): string {
  return typeof caution === "string" ? sentences[caution] : caution.sentence;
}
