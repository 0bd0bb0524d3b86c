import type { Carrier } from "../../app/carriers.ts";
import { formatChance } from "../../core/base/number-format.ts";
import { sentenceFrom } from "./check-pages.ts";
import type { ShareRow } from "./protocol-parts.ts";

/** What carries something, as the page lists it. */
export function shareRows(carriers: readonly Carrier[]): readonly ShareRow[] {
  return carriers.map(({ what, share }) => {
    const part = Math.min(1, share);
    return { what: sentenceFrom(what), share: formatChance(part), part };
  });
}
