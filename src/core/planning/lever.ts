import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import type { Machine } from "../machine/machine.ts";
import type { PlanQuestion } from "./plan.ts";

/** An adjuster that may be moved, over the machine's parameters. */
export interface Lever {
  readonly adjuster: Adjuster;
  /** Change of every parameter per unit of the amount; for "assign" the whole change, from the state in question. */
  readonly change: Float64Array;
  /** Standard deviation that the joint adds to each parameter, the scatter of the amount itself left out. */
  readonly frees: Float64Array;
  /** Amounts from where it stands now. */
  readonly from: number;
  readonly to: number;
  readonly places: readonly PackingPlace[];
}

/** Where leaves lie: what is there now, what there may be, and which way it counts. */
export interface PackingPlace {
  readonly place: "top" | "bottom" | "only";
  readonly sign: 1 | -1;
  readonly nowMm: number;
  readonly mostMm: number;
}

/** All that may be moved; skimming is not among them, it is the bed's own question. */
export function leversFor(question: PlanQuestion): readonly Lever[] {
  const { machine } = question.state.scene;
  return question.adjusters
    .filter(({ id, kind, available }) => kind !== "skim" && available && !question.locks.has(id))
    .map((adjuster) => leverFor(machine, question, adjuster));
}

function leverFor(machine: Machine, { state, packingNow }: PlanQuestion, adjuster: Adjuster): Lever {
  const count = machine.parameters.length;
  const change = new Float64Array(count);
  const frees = new Float64Array(count);
  for (const [id, perUnit] of Object.entries(adjuster.effect)) put(machine, change, id, perUnit);
  for (const [id, sd] of Object.entries(adjuster.frees)) put(machine, frees, id, sd);
  for (const [id, [mean, sd]] of Object.entries(adjuster.leaves ?? {})) {
    const index = machine.parameterIndex.get(id);
    if (index !== undefined) change[index] = mean - state.scene.state[index];
    put(machine, frees, id, sd);
  }
  const now = packingNow.get(adjuster.id) ?? 0;
  const [low, high] = adjuster.range;
  const packed = adjuster.packing !== "none";
  return {
    adjuster,
    change,
    frees,
    from: packed ? low - now : low,
    to: packed ? high - now : high,
    places: placesOf(adjuster, now),
  };
}

function placesOf({ packing, range: [low, high] }: Adjuster, now: number): readonly PackingPlace[] {
  if (packing === "none") return [];
  if (packing === "one place") return [{ place: "only", sign: 1, nowMm: now, mostMm: high }];
  return [
    { place: "top", sign: 1, nowMm: Math.max(now, 0), mostMm: high },
    { place: "bottom", sign: -1, nowMm: Math.max(-now, 0), mostMm: -low },
  ];
}

function put(machine: Machine, over: Float64Array, id: string, value: number): void {
  const index = machine.parameterIndex.get(id);
  if (index !== undefined) over[index] = value;
}
