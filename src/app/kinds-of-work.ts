import engravedPlates from "../../catalog/kinds-of-work/engraved-plates.json" with { type: "json" };
import general from "../../catalog/kinds-of-work/general.json" with { type: "json" };
import inlay from "../../catalog/kinds-of-work/inlay.json" with { type: "json" };
import lettering from "../../catalog/kinds-of-work/lettering.json" with { type: "json" };
import partsFromSheet from "../../catalog/kinds-of-work/parts-from-sheet.json" with { type: "json" };
import sheetJoinery from "../../catalog/kinds-of-work/sheet-joinery.json" with { type: "json" };
import surfacing from "../../catalog/kinds-of-work/surfacing.json" with { type: "json" };
import { invariant } from "../core/base/invariant.ts";
import type { Machine } from "../core/machine/machine.ts";
import { demandsOfWork, type KindOfWork, type ReasonedDemand } from "../core/work/kind-of-work.ts";

const shipped = [
  general,
  lettering,
  inlay,
  sheetJoinery,
  partsFromSheet,
  engravedPlates,
  surfacing,
] as unknown as readonly KindOfWork[];

/** Every kind of work that ships, by id, in the order in which they are offered; the first is the usual one. */
export const kindsOfWork: ReadonlyMap<string, KindOfWork> = new Map(shipped.map((work) => [work.id, work]));

export const [usualKindOfWork] = shipped;

/**
 * The demands of a kind of work on one machine, by its drives and within its room.
 *
 * @param kindId one of `kindsOfWork`; null for the usual one
 */
export function demandsOfKind(kindId: string | null, machine: Machine): readonly ReasonedDemand[] {
  const work = kindId === null ? usualKindOfWork : kindsOfWork.get(kindId);
  invariant(work !== undefined, `there is a kind of work named ${kindId}`);
  return demandsOfWork(work, machine);
}
