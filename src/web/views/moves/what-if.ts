import { leavesFromText } from "../../../app/typed-leaves.ts";
import type { WhatIf } from "../../worker/protocol-moves.ts";

const skims: Readonly<Record<string, boolean | null>> = { yes: true, no: false, ask: null };

/** What is tried, out of an address: so that it can be linked to, and is the same after a reload. */
export function whatIfFromQuery(query: URLSearchParams): WhatIf {
  const [without, only] = [query.getAll("without"), query.getAll("only")];
  const [skim, work, stock] = [query.get("skim"), query.get("work"), query.get("stock")];
  const leaves = stock === null || stock === "none" ? null : leavesFromText(stock, "leaves");
  return {
    ...(without.length > 0 && { locks: without }),
    ...(only.length > 0 && { only }),
    ...(skim !== null && Object.hasOwn(skims, skim) && { willSkim: skims[skim] }),
    ...(work !== null && { kindOfWork: work }),
    ...(stock === "none" && { stockMm: [] }),
    ...(leaves?.ok && leaves.value.length > 0 && { stockMm: leaves.value }),
  };
}

/** The same back into an address, "?" included where anything is tried. */
export function queryFromWhatIf({ locks = [], only = [], willSkim, kindOfWork, stockMm }: WhatIf): string {
  const query = new URLSearchParams();
  for (const id of locks) query.append("without", id);
  for (const id of only) query.append("only", id);
  if (willSkim !== undefined) query.set("skim", willSkim === null ? "ask" : willSkim ? "yes" : "no");
  if (kindOfWork) query.set("work", kindOfWork);
  if (stockMm !== undefined) query.set("stock", stockMm.length === 0 ? "none" : leavesAsText(stockMm));
  const text = query.toString();
  return text === "" ? "" : `?${text}`;
}

/** "0.05x8 0.1x4": as `leavesFromText` reads it, in the order of the leaves. */
function leavesAsText(leavesMm: readonly number[]): string {
  const runs: { readonly mm: number; count: number }[] = [];
  for (const mm of leavesMm) {
    const last = runs.at(-1);
    if (last?.mm === mm) last.count += 1;
    else runs.push({ mm, count: 1 });
  }
  return runs.map(({ mm, count }) => (count === 1 ? String(mm) : `${mm}x${count}`)).join(" ");
}
