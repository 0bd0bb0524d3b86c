import type { WorkSheetEntry } from "../core/drawing/work-drawings.ts";
import type { WorkRow } from "../core/drawing/work-rows.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import { demandAsJson } from "./plan-json.ts";

/** What the work comes out like as things stand and, where there is one, after the plan. */
export interface WorkComesOut {
  readonly results: readonly DemandResult[];
  readonly together: number;
  /** In the order of the results. */
  readonly after: { readonly results: readonly DemandResult[]; readonly together: number } | null;
  readonly pictures: readonly WorkSheetEntry[];
}

/** The same for machines: numbers unrounded. */
export function workAsJson({ results, together, after, pictures }: WorkComesOut) {
  return {
    chance: { now: together, ...(after && { after: after.together }) },
    demands: results.map((result, k) => ({
      ...demandAsJson(result),
      ...(after && { after: demandAsJson(after.results[k]) }),
    })),
    pictures: pictures.flatMap(({ id, drawing }) =>
      drawing.ok ? [{ picture: id, title: drawing.value.title, numbers: drawing.value.rows.map(numberAsJson) }] : [],
    ),
  };
}

function numberAsJson({ words, unit, now, after }: WorkRow) {
  return { words, unit, now, ...(after !== null && { after }) };
}
