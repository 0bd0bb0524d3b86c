import { refusal } from "../core/base/diagnostic.ts";
import { coreFromUnit, unitFromCore, unitOf, unitsOfQuantity } from "../core/base/units.ts";
import { eventsOf, type Timed } from "./event-order.ts";
import type { Known } from "./known.ts";
import { nearestWord } from "./nearest-word.ts";
import type { Report } from "./report.ts";

/** The user's own limits in the findings' units. The latest counts; null goes back to what the work asks. */
export function limitsFromEvents(ordered: readonly Timed[], known: Known, report: Report): ReadonlyMap<string, number> {
  const limits = new Map<string, number>();
  for (const { event } of eventsOf(ordered, "limit-set")) {
    const { finding, limit, unit } = event;
    const own = known.findings.get(finding);
    if (own === undefined) {
      const data = { finding, meant: nearestWord(finding, known.findings.keys()) ?? "" };
      report.add(event, [refusal("finding-unknown", { field: "finding" }, data)]);
    } else if (unitOf(own).quantity !== unitOf(unit).quantity) {
      const [typed, asked] = [unitOf(unit).quantity, unitOf(own).quantity];
      const expected = unitsOfQuantity(asked)
        .map(({ id }) => id)
        .join(", ");
      report.add(event, [refusal("unit-of-other-quantity", { field: "unit" }, { text: unit, typed, asked, expected })]);
    } else if (limit === null) limits.delete(finding);
    else limits.set(finding, unitFromCore(coreFromUnit(limit, unit), own));
  }
  return limits;
}

/** The user's own idea of what is usual, in the modes' units. */
export function priorsFromEvents(ordered: readonly Timed[], known: Known, report: Report): ReadonlyMap<string, number> {
  const priors = new Map<string, number>();
  for (const { event } of eventsOf(ordered, "prior-set")) {
    const { mode, standardUncertainty } = event;
    if (!known.modes.has(mode)) {
      const data = { mode, meant: nearestWord(mode, known.modes) ?? "" };
      report.add(event, [refusal("mode-unknown", { field: "mode" }, data)]);
    } else if (standardUncertainty === null) priors.delete(mode);
    else priors.set(mode, standardUncertainty);
  }
  return priors;
}
