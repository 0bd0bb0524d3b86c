import { refusal } from "../core/base/diagnostic.ts";
import type { Adjuster } from "../core/machine/adjusters/adjuster.ts";
import { nearestWord } from "../logbook/nearest-word.ts";
import { BadInput } from "./report.ts";

/** The adjuster that a text names: by its id, by its letter, or by a part of its id or its words that only one has. */
export function adjusterNamed(adjusters: readonly Adjuster[], text: string): Adjuster {
  const asked = text.trim().toLowerCase();
  const exact = adjusters.find(({ id, letter }) => id === asked || letter.toLowerCase() === asked);
  if (exact) return exact;
  const likely =
    asked.length < 3
      ? []
      : adjusters.filter(({ id, words }) => id.includes(asked) || words.toLowerCase().includes(asked));
  if (likely.length === 1) return likely[0];
  const ids = (likely.length > 0 ? likely : adjusters).map(({ id }) => id);
  const meant = likely.length > 0 ? "" : (nearestWord(asked, ids) ?? "");
  throw new BadInput([refusal("adjuster-not-named", {}, { text, listed: ids.join(", "), meant })]);
}
