import { type Place, refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import type { UnitId } from "../core/base/units.ts";
import type { InstrumentKind, LeafSet } from "../core/instruments/instrument.ts";
import { readLeafList } from "../core/instruments/leaf-list.ts";
import { leafListInWords } from "../core/instruments/marks.ts";

/** What the owner of a set of leaves states of it: fields of an own instrument. */
export interface OwnLeaves {
  readonly leaves: LeafSet;
  /** Where it is another unit than the kind's. */
  readonly markedIn?: UnitId;
}

/**
 * The leaves as listed; with no list those that are usual. As many as are usual may lie on one another where nobody says
 * how many.
 */
export function ownLeaves(
  kind: InstrumentKind,
  list: string | null,
  largestStack: number | null,
  where: Place = {},
): Outcome<OwnLeaves> {
  const usual = kind.measures === "length" ? kind.leaves : undefined;
  if (!usual)
    return refuse(refusal("figure-of-other-instrument", where, { figure: "leaves", name: kind.name, expected: "" }));
  const usualUnit = kind.markedIn ?? "mm";
  const text = list ?? leafListInWords(usual.leavesMm, usualUnit);
  const read = readLeafList(text, { usualUnit, largestStack: largestStack ?? usual.largestStack, where });
  if (!read.ok) return read;
  const { set, markedIn } = read.value;
  return succeed({ leaves: set, ...(markedIn !== usualUnit && { markedIn }) }, read.diagnostics);
}
