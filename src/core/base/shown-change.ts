import { formatNumber, type SignRule, stepForUncertainty } from "./number-format.ts";

/** A value with its expanded uncertainty U. */
export interface DoubtedValue {
  readonly value: number;
  readonly expandedUncertainty: number;
}

/** Each as `−0.18 ± 0.06`, all in one step. */
export interface ShownChange {
  readonly before: string;
  readonly after: string;
  /** Always with its sign. */
  readonly change: string;
}

/**
 * What something was, what it is, and what it has changed by, in metric units and in the step that the change deserves:
 * as shown, before and change are after. The change is rounded to what is nearest; where the three then do not add up, of
 * before and after the one gives way that was nearer to being rounded the other way.
 *
 * @param changeUncertainty of the change, which may be known better than either value
 */
export function showChange(
  before: DoubtedValue,
  after: DoubtedValue,
  changeUncertainty: number,
  sign: SignRule,
): ShownChange {
  const { size, decimals } = stepForUncertainty(changeUncertainty);
  const [was, is] = [before.value / size, after.value / size];
  const change = nearest(is - was);
  let [first, last] = [nearest(was), nearest(is)];
  const missing = change - (last - first);
  if (Math.abs(last + missing - is) <= Math.abs(first - missing - was)) last += missing;
  else first -= missing;
  const shown = (count: number, uncertainty: number, rule: SignRule) =>
    `${formatNumber(count * size, decimals, rule)} ± ${formatNumber(Math.ceil(uncertainty / size - SLACK) * size, decimals)}`;
  return {
    before: shown(first, before.expandedUncertainty, sign),
    after: shown(last, after.expandedUncertainty, sign),
    change: shown(change, changeUncertainty, "always"),
  };
}

/** Half a step is rounded away from nothing. */
function nearest(count: number): number {
  return Math.sign(count) * Math.round(Math.abs(count) + SLACK);
}

/** 0.06/0.02 is not quite 3 in a double. */
const SLACK = 1e-9;
