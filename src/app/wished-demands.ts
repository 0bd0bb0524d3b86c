import type { Machine } from "../core/machine/machine.ts";
import type { Wishes } from "../core/planning/wishes.ts";
import { demandFromWish } from "../core/work/catalogue.ts";
import type { Demand } from "../core/work/demand.ts";
import { demandsOfKind } from "./kinds-of-work.ts";

/** A demand as it stands for this machine and this user, with the limit that counts. */
export interface StatedDemand {
  readonly demand: Demand;
  /** The user's own name for it; null for one of the kind of work. */
  readonly name: string | null;
  /** What the kind of work asks; null for the user's own. */
  readonly usualLimit: number | null;
  /** The kind of work asks for it and the user does not. */
  readonly dropped: boolean;
}

/**
 * Demands of the kind of work with the user's own limits, those dropped among them, then the user's own. What both ask for
 * stands once, as the user asks for it.
 */
export function statedDemands(machine: Machine, wishes: Wishes): readonly StatedDemand[] {
  const { kindOfWork, demands, demandLimits } = wishes;
  const usual = demandsOfKind(kindOfWork, machine).map((demand): StatedDemand => {
    const limit = demandLimits.get(demand.id);
    const own = typeof limit === "number" ? { ...demand, limit } : demand;
    return { demand: own, name: null, usualLimit: demand.limit, dropped: limit === null };
  });
  const own = Array.from(demands).flatMap(([name, wish]): StatedDemand[] => {
    // A wish for which there is no room is refused when the logbook is read.
    const made = demandFromWish(machine, wish);
    return made.ok ? [{ demand: made.value, name, usualLimit: null, dropped: false }] : [];
  });
  const ownIds = new Set(own.map(({ demand }) => demand.id));
  return [...usual.filter(({ demand }) => !ownIds.has(demand.id)), ...own];
}

/** What is asked of the machine: the stated demands without those that were dropped. */
export function demandsAsked(machine: Machine, wishes: Wishes): readonly Demand[] {
  return statedDemands(machine, wishes).flatMap(({ demand, dropped }) => (dropped ? [] : [demand]));
}
