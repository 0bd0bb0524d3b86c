import { type Outcome, succeed } from "../core/base/outcome.ts";
import type { Machine } from "../core/machine/machine.ts";
import type { Wishes } from "../core/planning/wishes.ts";
import { demandFromWish } from "../core/work/catalogue.ts";
import type { DemandWish } from "../core/work/demand.ts";
import type { StatedDemand } from "./wished-demands.ts";

/** What an event about demands holds, before it has an id, a time and who made it. */
export type DemandDraft =
  | { readonly kind: "demand-set"; readonly name: string; readonly demand: object | null }
  | {
      readonly kind: "demand-limit-set";
      readonly demand: string;
      readonly limit?: number | null;
      readonly unit?: string;
    };

/** A limit in the unit in which it is meant. */
export interface Limited {
  readonly limit: number;
  readonly unit: string;
}

/**
 * A demand of the user's own, named after itself where they give it no name. Refused where the kind's sizes or the place
 * cannot be had on the machine.
 */
export function ownDemand(
  machine: Machine,
  { kind, sizes, place }: Omit<DemandWish, "limit">,
  limited: Limited,
  name?: string,
): Outcome<DemandDraft> {
  // The limit in its own unit plays no part in what it is called.
  const made = demandFromWish(machine, { kind, sizes, ...(place && { place }), limit: 1 });
  if (!made.ok) return made;
  const demand = { kind, ...(Object.keys(sizes).length > 0 && { sizes }), ...(place && { place }), ...limited };
  return succeed({ kind: "demand-set", name: name ?? made.value.id, demand });
}

/** An own limit for a demand of the kind of work, or another for one of the user's own. */
export function limitDemand({ demands }: Wishes, { demand, name }: StatedDemand, limited: Limited): DemandDraft {
  if (name === null) return { kind: "demand-limit-set", demand: demand.id, ...limited };
  return { kind: "demand-set", name, demand: { ...demands.get(name), ...limited } };
}

/** Back to what the kind of work asks. */
export function usualLimit({ demand }: StatedDemand): DemandDraft {
  return { kind: "demand-limit-set", demand: demand.id };
}

/** No longer asked for. */
export function dropDemand({ demand, name }: StatedDemand): DemandDraft {
  return name === null
    ? { kind: "demand-limit-set", demand: demand.id, limit: null }
    : { kind: "demand-set", name, demand: null };
}
