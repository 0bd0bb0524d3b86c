import type { Axis, DriveKind } from "../machine/description.ts";
import type { Machine } from "../machine/machine.ts";
import { demandFromGeneralWish } from "./catalogue.ts";
import type { Demand, DemandKindId, DemandSizes } from "./demand.ts";

/** A named set of demands, as the catalogue ships it. Limits: common practice, no source. */
export interface KindOfWork {
  readonly id: string;
  readonly name: string;
  readonly about: string;
  readonly source: string;
  readonly demands: readonly DemandOfWork[];
}

export interface DemandOfWork {
  readonly kind: DemandKindId;
  /** What is left out is the kind's default. */
  readonly sizes?: DemandSizes;
  /** For what is asked of single axes: one demand for each. */
  readonly axes?: readonly Axis[];
  /** Limits for machines with belts and with screws. */
  readonly limit: { readonly unit: Demand["unit"] } & Readonly<Record<DriveKind, number>>;
  /** One sentence for somebody who asks why so much and no more. */
  readonly why: string;
  /** The least tool that can tell. */
  readonly decidedBy: string;
}

/** A demand with what the kind of work says about it. */
export interface ReasonedDemand extends Demand {
  readonly why: string;
  readonly decidedBy: string;
}

/**
 * The demands of a kind of work on one machine, sizes cut down to what there is room for. What there is no room for at all
 * is not demanded.
 */
export function demandsOfWork(work: KindOfWork, machine: Machine): readonly ReasonedDemand[] {
  const drive = driveOfPlan(machine);
  return work.demands.flatMap(({ kind, sizes = {}, axes, limit, why, decidedBy }) => {
    const each = axes === undefined ? [sizes] : axes.map((axis) => ({ ...sizes, axis }));
    return each.flatMap((own) => {
      const demand = demandFromGeneralWish(machine, { kind, sizes: own, limit: limit[drive] });
      return demand.ok ? [{ ...demand.value, why, decidedBy }] : [];
    });
  });
}

/** A machine counts as one with screws when X and Y both have them. */
export function driveOfPlan({ dimensions }: Machine): DriveKind {
  const { x, y } = dimensions.details.drives;
  return x.kind === "screw" && y.kind === "screw" ? "screw" : "belt";
}
