import { refusal } from "../base/diagnostic.ts";
import { type Outcome, refuse } from "../base/outcome.ts";
import type { Machine } from "../machine/machine.ts";
import type { Demand, DemandWish } from "./demand.ts";
import { type DemandKind, demandFromKind, fitToMachine } from "./demand-kind.ts";
import { circle } from "./kinds/circle.ts";
import { depthSpread } from "./kinds/depth-spread.ts";
import { diagonals } from "./kinds/diagonals.ts";
import { flatness } from "./kinds/flatness.ts";
import { holePattern } from "./kinds/hole-pattern.ts";
import { play } from "./kinds/play.ts";
import { plungeLean } from "./kinds/plunge-lean.ts";
import { ridge } from "./kinds/ridge.ts";
import { runout } from "./kinds/runout.ts";
import { scale } from "./kinds/scale.ts";
import { sides } from "./kinds/sides.ts";
import { size } from "./kinds/size.ts";
import { squareness } from "./kinds/squareness.ts";
import { strokeSpread } from "./kinds/stroke-spread.ts";
import { throughCut } from "./kinds/through-cut.ts";
import { tram } from "./kinds/tram.ts";
import { wallLean } from "./kinds/wall-lean.ts";

/** Every kind of demand, in the order in which they are offered. */
export const demandKinds: readonly DemandKind[] = [
  size,
  sides,
  squareness,
  diagonals,
  circle,
  holePattern,
  depthSpread,
  throughCut,
  strokeSpread,
  ridge,
  flatness,
  wallLean,
  plungeLean,
  tram,
  play,
  scale,
  runout,
];

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
  return refuse(refusal("demand-kind-unknown", { field: "kind" }, { kind, listed, meant: "" }));
}
