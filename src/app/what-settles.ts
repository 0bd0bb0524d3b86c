import type { InstrumentVerdict } from "../core/planning/next-check-answer.ts";
import { instrumentVerdicts } from "../core/planning/next-check-instruments.ts";
import type { Plan } from "../core/planning/plan.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import type { Assessment } from "./assess.ts";
import { instrumentKinds } from "./catalog.ts";
import { runAsJson, willSkimBefore } from "./next-for.ts";

/** A demand that is not known yet, with the readings that would settle it. */
export interface OpenDemand extends InstrumentVerdict {
  readonly result: DemandResult;
}

/**
 * For every demand that is not known yet: which checks would settle it with what the user has, at what minutes, and how
 * well it would then be known; else what it lacks. For the machine as it stands, or as a plan's moves would leave it.
 */
export function whatSettles(
  { estimate, gate, timeline }: Assessment,
  results: readonly DemandResult[],
  planned: Plan | null = null,
): readonly OpenDemand[] {
  const open = results.filter(({ verdict }) => verdict === "not known yet");
  if (open.length === 0) return [];
  const moves = planned !== null && planned.moves.length > 0;
  const verdicts = instrumentVerdicts({
    estimate,
    gate,
    demands: open,
    ...(moves && { planned: planned.after }),
    willSkim: willSkimBefore(timeline.wishes.willSkim, planned),
    kinds: [...instrumentKinds.values()],
  });
  return verdicts.map((verdict, k) => {
    const sentence = verdict.open === "nothing" && !gate.passed ? roundAlone : verdict.sentence;
    return { ...verdict, result: open[k], sentence };
  });
}

const roundAlone = "Enough has been read of it; the fit-to-measure round alone is missing.";

/** The same for machines. Uncertainties are standard ones, in the demand's unit. */
export function openDemandAsJson(settled: OpenDemand) {
  const { demand, open, decides, by, would, sentence, standardUncertaintyNow, standardUncertaintyAfter } = settled;
  const runs = would?.runs ?? by;
  return {
    demand: demand.id,
    unit: demand.unit,
    open: open === "nothing" ? "fit to measure" : open,
    settles: decides || would !== null,
    lacks: would?.lacks ?? [],
    checks: runs.map(runAsJson),
    minutes: runs.reduce((sum, { minutes }) => sum + minutes, 0),
    standardUncertaintyNow,
    standardUncertaintyAfter: would?.standardUncertaintyAfter ?? standardUncertaintyAfter,
    sentence,
  };
}
