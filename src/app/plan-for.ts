import { adjustersForTimeline } from "../core/fit/hand-scatter.ts";
import { packingNow } from "../core/fit/packing-now.ts";
import type { ProgrammeSolver } from "../core/planning/integer-programme.ts";
import type { Plan, PlanQuestion } from "../core/planning/plan.ts";
import { planMoves } from "../core/planning/planner.ts";
import type { Demand } from "../core/work/demand.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import { judgeDemands } from "../core/work/judge.ts";
import { unreadDemands, withUnreadHeldBack } from "../core/work/unread.ts";
import { workState } from "../core/work/work-state.ts";
import type { Assessment } from "./assess.ts";
import { usualStockMm } from "./usual-stock.ts";
import { demandsAsked } from "./wished-demands.ts";

/** What is asked for once, beside or instead of what the logbook says. */
export interface PlanChoices {
  /** Adjusters that stay as they are, beside those that the logbook locks. */
  readonly locks?: Iterable<string>;
  /** The only adjusters that may move; all others stay as they are. */
  readonly only?: Iterable<string>;
  readonly stockMm?: readonly number[];
  readonly willSkim?: boolean | null;
  /** A kind of work of the catalogue; null for the usual one. */
  readonly kindOfWork?: string | null;
}

/**
 * The plan for the work that the logbook asks for. Nothing is called within that no reading bears on, nor anything before
 * the fit-to-measure round has been passed: what would have been left alone is then to be measured first.
 */
export function planFor(assessment: Assessment, solve: ProgrammeSolver, choices: PlanChoices = {}): Plan {
  const question = planQuestion(assessment, choices);
  const plan = planMoves(question, solve);
  const hold = holderBack(assessment, question.demands);
  const before = hold(plan.demands.map((planned) => planned.before));
  const after = hold(plan.demands.map((planned) => planned.after));
  const demands = plan.demands.map((planned, k) => ({ ...planned, before: before[k], after: after[k] }));
  const isHeldBack = plan.answer === "leave it alone" && after.some(({ verdict }) => verdict !== "within");
  return { ...plan, answer: isHeldBack ? "measure first" : plan.answer, demands };
}

/** The wishes of the logbook, and what was chosen for once, as a question to the planner. */
export function planQuestion(assessment: Assessment, choices: PlanChoices = {}): PlanQuestion {
  const { machine, timeline, estimate } = assessment;
  const { wishes } = timeline;
  const adjusters = adjustersForTimeline(machine, timeline);
  const only = choices.only === undefined ? null : new Set(choices.only);
  const stay = only === null ? [] : adjusters.flatMap(({ id }) => (only.has(id) ? [] : [id]));
  return {
    state: workState(estimate),
    demands: demandsChosen(assessment, choices.kindOfWork),
    adjusters,
    packingNow: packingNow(machine, timeline),
    stockMm: choices.stockMm ?? wishes.stockMm ?? usualStockMm,
    locks: new Set([...wishes.locks.keys(), ...(choices.locks ?? []), ...stay]),
    willSkim: choices.willSkim === undefined ? wishes.willSkim : choices.willSkim,
  };
}

/** What the work comes out like as the machine stands, and the chance that all of it is within. */
export function demandResults(
  assessment: Assessment,
  kindOfWork?: string | null,
): { readonly results: readonly DemandResult[]; readonly together: number } {
  const demands = demandsChosen(assessment, kindOfWork);
  const { results, together } = judgeDemands(workState(assessment.estimate), demands);
  return { results: holderBack(assessment, demands)(results), together };
}

function demandsChosen({ machine, timeline: { wishes } }: Assessment, kindOfWork?: string | null): readonly Demand[] {
  return demandsAsked(machine, kindOfWork === undefined ? wishes : { ...wishes, kindOfWork });
}

/** Takes back what the readings do not carry yet. */
function holderBack({ estimate, gate }: Assessment, demands: readonly Demand[]) {
  const unread = unreadDemands(estimate, demands);
  return (results: readonly DemandResult[]): readonly DemandResult[] =>
    withUnreadHeldBack(results, unread).map((result) =>
      gate.passed || result.verdict !== "within" ? result : { ...result, verdict: "not known yet" },
    );
}
