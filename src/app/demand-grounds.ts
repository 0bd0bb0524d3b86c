import { formatNumber } from "../core/base/number-format.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import { unreadDemands } from "../core/work/unread.ts";
import type { Assessment } from "./assess.ts";
import { type Carrier, carriersOfDemand } from "./carriers.ts";

/** A demand with its grounds: what it means for the work, and where its doubt comes from. */
export interface DemandGrounds {
  readonly meaning: string;
  /** Empty where nothing has been read that bears on the demand: all doubt is then what is usual. */
  readonly doubtFrom: readonly Carrier[];
}

export function groundsOfDemand({ estimate }: Assessment, { demand, value }: DemandResult): DemandGrounds {
  if (unreadDemands(estimate, [demand]).size > 0) return { meaning: nothingRead, doubtFrom: [] };
  // No finer than the lists show it.
  return { meaning: demand.meaning(Number(formatNumber(value, 2))), doubtFrom: carriersOfDemand(estimate, demand) };
}

const nothingRead =
  "Nothing has been read that bears on it: what is usual of machines like this is all that is known of it.";
