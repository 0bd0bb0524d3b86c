import { adjustersForTimeline } from "../core/fit/hand-scatter.ts";
import { packingNow } from "../core/fit/packing-now.ts";
import type { ProgrammeSolver } from "../core/planning/integer-programme.ts";
import type { Plan, PlanQuestion } from "../core/planning/plan.ts";
import { planMoves, planOfNoMoves } from "../core/planning/planner.ts";
import type { Demand } from "../core/work/demand.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import { judgeDemands } from "../core/work/judge.ts";
import { unreadDemands, withUnreadHeldBack } from "../core/work/unread.ts";
import { type WorkState, workState } from "../core/work/work-state.ts";
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
  /** Show what would be moved though the fit-to-measure round has not been passed. */
  readonly lookAhead?: boolean;
}

/** A plan for the work of a logbook. */
export interface WorkPlan extends Plan {
  /**
   * Why nothing is to be moved yet; null where moves may be made. The plan then has no moves, unless a look ahead was
   * asked for: those are not to be made.
   */
  readonly heldBack: HeldBack | null;
  /** Demands that are known too poorly for a move: they are measured for first, whatever else is moved. */
  readonly measureFirst: readonly Demand[];
}

export interface HeldBack {
  readonly because: "fit to measure";
  /** Whether something of the round was found loose, and not only left open. */
  readonly failed: boolean;
  readonly lookAhead: boolean;
}

/**
 * The plan for the work that the logbook asks for. Demands that no reading bears on yet are judged and not planned for:
 * nobody opens a joint for what is usual of machines in general; nor for a demand that may well be within, and of which
 * more is in doubt than its whole limit. Unread ones are not called within, nor is anything before the
 * fit-to-measure round has been passed: until then nothing is moved, for a loose machine reads differently every time.
 */
export function planFor(assessment: Assessment, solve: ProgrammeSolver, choices: PlanChoices = {}): WorkPlan {
  const { question, unread, vague } = planQuestion(assessment, choices);
  const heldBack = heldBackBy(assessment, choices);
  const plan = heldBack === null || heldBack.lookAhead ? planMoves(question, solve) : planOfNoMoves(question);
  const unasked = unplanned(question.state, plan, [...unread, ...vague]);
  const isUnread = new Set(unread.map(({ id }) => id));
  const hold = (result: DemandResult) => heldBackResult(result, isUnread, assessment);
  const demands = inOrder([...plan.demands, ...unasked.demands], demandsChosen(assessment, choices.kindOfWork)).map(
    (planned) => ({
      ...planned,
      before: hold(planned.before),
      after: hold(planned.after),
      // What a skim would cure is said when what it would cut is known.
      cure: planned.cure?.kind === "skim" && vague.length > 0 ? null : planned.cure,
    }),
  );
  const answer = heldBack === null ? answerOf(plan, demands) : "measure first";
  return { ...plan, answer, demands, chance: unasked.chance, heldBack, measureFirst: vague };
}

function heldBackBy({ gate }: Assessment, { lookAhead = false }: PlanChoices): HeldBack | null {
  if (gate.passed) return null;
  return { because: "fit to measure", failed: gate.checks.some(({ state }) => state === "failed"), lookAhead };
}

/** Where something was not planned for, to leave all alone may be too early. */
function answerOf({ answer }: Plan, demands: Plan["demands"]): Plan["answer"] {
  const allWithin = demands.every(({ after }) => after.verdict === "within");
  return answer === "leave it alone" && !allWithin ? "measure first" : answer;
}

/** Demands that were not planned for, as they are and as the plan leaves them, and the chances of all together. */
function unplanned(
  state: WorkState,
  { after, chance, demands: asked }: Plan,
  others: readonly Demand[],
): Pick<Plan, "demands" | "chance"> {
  if (others.length === 0) return { demands: [], chance };
  const all = [...asked.map(({ demand }) => demand), ...others];
  const now = judgeDemands(state, all);
  const then = after === state ? now : judgeDemands(after, all);
  const demands = others.map((demand, k) => {
    const at = asked.length + k;
    return { demand, before: now.results[at], after: then.results[at], excess: 0, cure: null };
  });
  return { demands, chance: { ...chance, now: now.together, after: then.together } };
}

function inOrder<T extends { readonly demand: Demand }>(planned: readonly T[], demands: readonly Demand[]) {
  const places = new Map(demands.map(({ id }, place) => [id, place]));
  return [...planned].sort((a, b) => (places.get(a.demand.id) ?? 0) - (places.get(b.demand.id) ?? 0));
}

/** A question to the planner, and the demands that it is not asked for. */
export interface PlanAsked {
  readonly question: PlanQuestion;
  /** No reading bears on them yet. */
  readonly unread: readonly Demand[];
  /** They may well be within, and more is in doubt of them than their whole limit. */
  readonly vague: readonly Demand[];
}

/** The wishes of the logbook, and what was chosen for once, as a question to the planner. */
export function planQuestion(assessment: Assessment, choices: PlanChoices = {}): PlanAsked {
  const { machine, timeline, estimate } = assessment;
  const { wishes } = timeline;
  const adjusters = adjustersForTimeline(machine, timeline);
  const only = choices.only === undefined ? null : new Set(choices.only);
  const stay = only === null ? [] : adjusters.flatMap(({ id }) => (only.has(id) ? [] : [id]));
  const demands = demandsChosen(assessment, choices.kindOfWork);
  const state = workState(estimate);
  const unread = unreadDemands(estimate, demands);
  const read = demands.filter(({ id }) => !unread.has(id));
  const vague = new Set(
    judgeDemands(state, read, FEW_DRAWS)
      .results.filter(isVague)
      .map(({ demand }) => demand.id),
  );
  const willSkim = choices.willSkim === undefined ? wishes.willSkim : choices.willSkim;
  const question: PlanQuestion = {
    state,
    demands: read.filter(({ id }) => !vague.has(id)),
    adjusters,
    packingNow: packingNow(machine, timeline),
    stockMm: choices.stockMm ?? wishes.stockMm ?? usualStockMm,
    locks: new Set([...wishes.locks.keys(), ...(choices.locks ?? []), ...stay]),
    // A skim cannot be taken back: before it is measured, nobody skims who has not said so.
    willSkim: willSkim === null && vague.size > 0 ? false : willSkim,
  };
  return {
    question,
    unread: demands.filter(({ id }) => unread.has(id)),
    vague: read.filter(({ id }) => vague.has(id)),
  };
}

/** For what decides only whether a demand is planned for. */
const FEW_DRAWS = 2000;

/** From this chance on a demand may well be within as things stand. Common practice, no source. */
const FAIR_CHANCE = 0.4;

function isVague({ verdict, median, high, probability, demand }: DemandResult): boolean {
  return verdict === "not known yet" && probability >= FAIR_CHANCE && high - median > demand.limit;
}

/** What the work comes out like as the machine stands, and the chance that all of it is within. */
export function demandResults(
  assessment: Assessment,
  kindOfWork?: string | null,
): { readonly results: readonly DemandResult[]; readonly together: number } {
  return demandResultsIn(assessment, workState(assessment.estimate), kindOfWork);
}

/** The same for another state of the machine, as it was or as it would be. */
export function demandResultsIn(
  assessment: Assessment,
  state: WorkState,
  kindOfWork?: string | null,
): { readonly results: readonly DemandResult[]; readonly together: number } {
  const demands = demandsChosen(assessment, kindOfWork);
  const { results, together } = judgeDemands(state, demands);
  const unread = unreadDemands(assessment.estimate, demands);
  return { results: results.map((result) => heldBackResult(result, unread, assessment)), together };
}

function demandsChosen({ machine, timeline: { wishes } }: Assessment, kindOfWork?: string | null): readonly Demand[] {
  return demandsAsked(machine, kindOfWork === undefined ? wishes : { ...wishes, kindOfWork });
}

/** Takes back a verdict that the readings do not carry yet. */
function heldBackResult(result: DemandResult, unread: ReadonlySet<string>, { gate }: Assessment): DemandResult {
  const [held] = withUnreadHeldBack([result], unread);
  return gate.passed || held.verdict !== "within" ? held : { ...held, verdict: "not known yet" };
}
