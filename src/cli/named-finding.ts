import { refusal } from "../core/base/diagnostic.ts";
import type { Finding } from "../core/findings/finding.ts";
import { nearestWord } from "../logbook/nearest-word.ts";
import { BadInput } from "./report.ts";

/** The finding that a text names: by its id, by its name, or by a part of either that only one has. */
export function findingNamed(findings: readonly Finding[], text: string): Finding {
  const asked = folded(text);
  const exact = findings.find(({ id, title }) => id === text || folded(title) === asked);
  if (exact) return exact;
  const likely =
    asked === "" ? [] : findings.filter(({ id, title }) => id.includes(asked) || folded(title).includes(asked));
  if (likely.length === 1) return likely[0];
  const ids = (likely.length > 0 ? likely : findings).map(({ id }) => id);
  const meant = likely.length > 0 ? "" : (nearestWord(text, ids) ?? "");
  throw new BadInput([refusal("finding-unknown-here", {}, { finding: text, listed: ids.join(", "), meant })]);
}

function folded(text: string): string {
  return text.trim().toLowerCase().replaceAll("’", "'");
}
