import type { Plan } from "../core/planning/plan.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import type { WorkPlan } from "./plan-for.ts";
import type { PlannedStop } from "./plan-stops.ts";
import { moveInWords, turnedOfMoveInWords } from "./plan-words.ts";
import { type OpenDemand, openDemandAsJson } from "./what-settles.ts";

/**
 * A plan for machines: numbers unrounded, and the sentences that people are told.
 *
 * @param open what would settle the demands that are not known yet
 */
export function planAsJson(
  planned: Plan & Partial<Pick<WorkPlan, "heldBack" | "measureFirst">>,
  stops: readonly (PlannedStop | null)[],
  open: readonly OpenDemand[] = [],
) {
  const { answer, minutes, chance, proven, gap, moves, demands, heldBack = null, measureFirst = [] } = planned;
  return {
    answer,
    heldBack,
    measureFirst: measureFirst.map(({ id }) => id),
    minutes,
    chance,
    proven,
    gap: Number.isFinite(gap) ? gap : null,
    moves: moves.map((move, i) => ({
      adjuster: move.adjuster.id,
      letter: move.adjuster.letter,
      amount: move.amount,
      unit: move.adjuster.unit,
      sentence: moveInWords(move),
      turned: turnedOfMoveInWords(move),
      leaves: move.leaves,
      minutes: move.adjuster.minutes,
      fasteners: move.adjuster.fasteners.words,
      alsoLoose: move.adjuster.whatHolds.alsoLoose,
      cautions: move.adjuster.whatHolds.cautions,
      readAgain: move.adjuster.readAgain?.checks ?? [],
      stop: stopAsJson(stops[i]),
      brings: move.brings.map(({ demand, before, after }) => ({ demand: demand.id, before, after })),
    })),
    demands: demands.map(({ before, after, excess, cure }) => ({
      before: demandAsJson(before),
      after: demandAsJson(after),
      excess,
      cure,
    })),
    settling: open.map(openDemandAsJson),
  };
}

function stopAsJson(planned: PlannedStop | null) {
  if (planned === null) return null;
  const { stop, words } = planned;
  const { check, setup, run, station, against, reads, from, to, setUp, homesFirst, readsBefore, changesBy } = stop;
  return {
    ...{ words, check: check.id, instrument: setup.instrument?.id ?? null, options: setup.options, run },
    ...{ station: station.key, against: against?.key ?? null, reads, from, to },
    ...{ setUp, homesFirst, readsBefore, changesBy },
  };
}

/** One demand with its interval, for machines. */
export function demandAsJson({ demand, value, low, median, high, probability, verdict }: DemandResult) {
  const { id, kind, title, unit, limit } = demand;
  return { id, kind, title, unit, limit, value, low, median, high, probabilityWithin: probability, verdict };
}
