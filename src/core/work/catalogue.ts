import { refusal } from "../base/diagnostic.ts";
import { type Outcome, refuse } from "../base/outcome.ts";
import type { Machine } from "../machine/machine.ts";
import type { Demand, DemandWish } from "./demand.ts";
import { type DemandKind, demandFromKind, fitToMachine } from "./demand-kind.ts";
import { circle } from "./kinds/circle.ts";
import { depthSpread } from "./kinds/depth-spread.ts";
import { diagonals } from "./kinds/diagonals.ts";
import { plungeLean } from "./kinds/plunge-lean.ts";
import { sides } from "./kinds/sides.ts";
import { tram } from "./kinds/tram.ts";

/** Every kind of demand, in the order in which they are offered. */
export const demandKinds: readonly DemandKind[] = [sides, diagonals, circle, depthSpread, plungeLean, tram];

const byId: ReadonlyMap<string, DemandKind> = new Map(demandKinds.map((kind) => [kind.id, kind]));

/** A person's own wish: what there is no room for on the machine is refused. */
export function demandFromWish(machine: Machine, wish: DemandWish): Outcome<Demand> {
  const kind = byId.get(wish.kind);
  return kind ? demandFromKind(kind, machine, wish) : refuseKind(wish);
}

/** A wish that was made for machines in general: its sizes are cut down to what there is room for. */
export function demandFromGeneralWish(machine: Machine, wish: DemandWish): Outcome<Demand> {
  const kind = byId.get(wish.kind);
  return kind ? demandFromKind(kind, machine, fitToMachine(kind, machine, wish)) : refuseKind(wish);
}

function refuseKind({ kind }: DemandWish): Outcome<Demand> {
  const listed = demandKinds.map(({ id }) => id).join(", ");
  return refuse(refusal("demand-kind-unknown", { field: "kind" }, { kind, listed }));
}
