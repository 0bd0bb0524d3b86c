import { type Diagnostic, type Place, refusal, warning } from "../core/base/diagnostic.ts";
import type { MachineDescription } from "../core/machine/description.ts";

/**
 * What the numbers of a description say against one another: each may be possible and the machine still not be. Fields are
 * paths below the description (`railPlanesMm.right`), so that a form can mark them.
 */
export function machineProblems(machine: MachineDescription, where: Place = {}): readonly Diagnostic[] {
  const problems: Diagnostic[] = [];
  const { railPlanesMm: rails, travelMm: travel, beamCentreMm, details = {} } = machine;
  const at = (field: string): Place => ({ ...where, field });

  if (rails.left >= rails.right) {
    problems.push(refusal("machine-rails-crossed", at("railPlanesMm.right"), length(rails)));
  } else if (rails.left > 0 || rails.right < travel.x) {
    const data = { ...length(rails), travel: mm(travel.x) };
    problems.push(warning("machine-rails-inside-travel", at("railPlanesMm"), data));
  }
  const { bedMm: bed, tableRailsMm: table, packingPlaces: packing, beamUndersideMm: underside } = details;
  if (bed !== undefined && bed.left >= bed.right) {
    const data = { low: mm(bed.left), high: mm(bed.right), along: "from left to right" };
    problems.push(refusal("machine-bed-inside-out", at("details.bedMm.right"), data));
  }
  if (bed !== undefined && bed.front >= bed.rear) {
    const data = { low: mm(bed.front), high: mm(bed.rear), along: "from front to rear" };
    problems.push(refusal("machine-bed-inside-out", at("details.bedMm.rear"), data));
  }
  if (table !== undefined && table.left >= table.right) {
    problems.push(refusal("machine-table-rails-crossed", at("details.tableRailsMm.right"), length(table)));
  }
  if (packing !== undefined && packing.front >= packing.rear) {
    const data = { front: packing.front, rear: packing.rear };
    problems.push(refusal("machine-packing-places-crossed", at("details.packingPlaces.rear"), data));
  }
  if (underside !== undefined && underside >= beamCentreMm) {
    const data = { underside: mm(underside), centre: mm(beamCentreMm) };
    problems.push(refusal("machine-underside-above-centre", at("details.beamUndersideMm"), data));
  }
  return problems;
}

function length(pair: { readonly left: number; readonly right: number }): Diagnostic["data"] {
  return { left: mm(pair.left), right: mm(pair.right) };
}

function mm(value: number): string {
  return `${String(value).replace("-", "−")} mm`;
}
