import type { StatedDemand } from "../app/wished-demands.ts";
import { refusal } from "../core/base/diagnostic.ts";
import { nearestWord } from "../logbook/nearest-word.ts";
import { BadInput } from "./report.ts";

/** The demand that a text names: by the user's own name, by its id, or by a part of either or of its title that only one has. */
export function demandNamed(stated: readonly StatedDemand[], text: string): StatedDemand {
  const asked = folded(text);
  const namesOf = ({ demand, name }: StatedDemand) => [name ?? "", demand.id, demand.title].map(folded);
  const exact = stated.find((one) => namesOf(one).includes(asked));
  if (exact) return exact;
  const likely = asked === "" ? [] : stated.filter((one) => namesOf(one).some((word) => word.includes(asked)));
  if (likely.length === 1) return likely[0];
  const listed = (likely.length > 0 ? likely : stated).map(({ demand, name }) => name ?? demand.id);
  const meant = likely.length > 0 ? "" : (nearestWord(text, listed) ?? "");
  throw new BadInput([refusal("demand-not-named", {}, { text, listed: listed.join(", "), meant })]);
}

/** "400x150" is typed as well as "400×150". */
function folded(text: string): string {
  return text.trim().toLowerCase().replaceAll("×", "x");
}
