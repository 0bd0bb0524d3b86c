import { evaluateFindings, type FindingResult, type Limits } from "../core/findings/evaluate.ts";
import { type Gate, gateFromTimeline } from "../core/findings/gate.ts";
import { type Estimate, estimateTimeline } from "../core/fit/estimate.ts";
import { judgeTrust, type Trust } from "../core/fit/trust.ts";
import { type Machine, machineFromDescription } from "../core/machine/machine.ts";
import type { Chronicle } from "../core/planning/wishes.ts";
import { usualLimitsOf } from "./usual-limits.ts";

/** What a logbook comes to: the estimate, how far to trust it, and the findings. */
export interface Assessment {
  readonly timeline: Chronicle;
  readonly machine: Machine;
  readonly gate: Gate;
  readonly estimate: Estimate;
  readonly trust: Trust;
  readonly findings: readonly FindingResult[];
  readonly limits: Limits;
}

/** @param before the estimate before the last readings, where nothing but readings has been added since */
export function assess(timeline: Chronicle, before?: Estimate): Assessment {
  const machine = machineFromDescription(timeline.machine);
  const gate = gateFromTimeline(machine, timeline);
  const estimate = estimateTimeline(machine, timeline, before);
  const trust = judgeTrust(estimate);
  const limits = limitsFor(machine, timeline);
  return { timeline, machine, gate, estimate, trust, findings: evaluateFindings(estimate, limits, gate), limits };
}

/** The user's own limits, and the usual ones for such a machine. */
export function limitsFor(machine: Machine, timeline: Pick<Chronicle, "limits">): Limits {
  return { own: timeline.limits, usual: usualLimitsOf(machine) };
}
