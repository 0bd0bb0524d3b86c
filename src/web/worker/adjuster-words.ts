import { checkById } from "../../core/checks/catalogue.ts";
import type { Adjuster } from "../../core/machine/adjusters/adjuster.ts";
import { fasteningOf } from "../../core/machine/adjusters/sentence.ts";
import type { ReadAgainEntry } from "./protocol-moves.ts";

/** How a joint is opened and made fast again; where nothing is opened, what is done instead. */
export function fasteningWords(adjuster: Adjuster): readonly string[] {
  const fastening = fasteningOf(adjuster);
  if (fastening !== null) return [fastening.loosen, fastening.tighten];
  const { words } = adjuster.fasteners;
  return [`${words.charAt(0).toUpperCase()}${words.slice(1)}.`];
}

/** What has to be read again after it. */
export function readAgainEntries({ readAgain }: Adjuster): readonly ReadAgainEntry[] {
  return (readAgain?.checks ?? []).flatMap((id): ReadAgainEntry[] => {
    const check = checkById(id);
    return check ? [{ check: id, title: check.words.title, minutes: check.words.minutes }] : [];
  });
}
