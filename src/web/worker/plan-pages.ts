import type { Assessment } from "../../app/assess.ts";
import { broughtBy } from "../../app/brought.ts";
import { nextFor } from "../../app/next-for.ts";
import { planAsJson } from "../../app/plan-json.ts";
import { type PlannedStop, stopsFor } from "../../app/plan-stops.ts";
import {
  amountInWords,
  answerInWords,
  cautionsBefore,
  chanceInWords,
  chanceUnlessHeldBack,
  holdOutInWords,
  inOrder,
  moveInWords,
  proofInWords,
  turnedOfMoveInWords,
} from "../../app/plan-words.ts";
import { formatTrimmed } from "../../core/base/number-format.ts";
import { type UnitId, unitFromCore, unitOf } from "../../core/base/units.ts";
import { type Station, usualEntries } from "../../core/checks/check.ts";
import { adjusterDrawing } from "../../core/drawing/adjuster-drawing.ts";
import { beforeAfterDrawing } from "../../core/drawing/before-after.ts";
import { adjustersForTimeline } from "../../core/fit/hand-scatter.ts";
import { inUse } from "../../core/instruments/instrument.ts";
import type { ProgrammeSolver } from "../../core/planning/integer-programme.ts";
import type { Plan, PlannedMove, StopAt } from "../../core/planning/plan.ts";
import { readingAtStop } from "../../core/planning/stop-at.ts";
import { showDemand } from "../../core/work/shown-demand.ts";
import { fasteningWords, readAgainEntries } from "./adjuster-words.ts";
import { counted } from "./counted.ts";
import { entryForm } from "./entry-form.ts";
import { assessmentOf, versionOf } from "./held.ts";
import { keptPlan } from "./kept-plan.ts";
import { plannedThings, thingsOfAnswer, wordsOfAnswer } from "./plan-things.ts";
import { leavesOfPlannedMove } from "./planned-leaves.ts";
import type { Answer, SetupChoice } from "./protocol.ts";
import type { DemandRow, MeasureNext, PlannedMovePage, PlanPage, StopPage, WhatIf } from "./protocol-moves.ts";
import { stationPlan } from "./station-plan.ts";
import { answerFrom } from "./told.ts";

/** What to measure next as the machine stands, before anything is moved. */
export function bestChecksPage(machine: string): Answer<MeasureNext> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const next = nextFor(assessment);
    return { first: true, words: wordsOfAnswer(next), checks: thingsOfAnswer(next) };
  });
}

/** The plan for a machine as the page shows it: the same moves and numbers as every other way in. */
export function planPage(machine: string, what: WhatIf, solve: ProgrammeSolver): Answer<PlanPage> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const plan = keptPlan(machine, assessment, solve, what);
    const stops = stopsFor(assessment, plan);
    const isOpen = plan.demands.some(({ after }) => after.verdict === "not known yet");
    const next = isOpen || plan.answer === "measure first" ? nextFor(assessment, plan, what.kindOfWork) : null;
    const adjusters = adjustersForTimeline(assessment.machine, assessment.timeline);
    const measure: MeasureNext | null = next && {
      first: plan.moves.length === 0 || plan.measureFirst.length > 0,
      words: wordsOfAnswer(next),
      checks: thingsOfAnswer(next),
    };
    return {
      version: versionOf(machine),
      answer: plan.answer,
      headline: answerInWords(plan),
      chance: chanceInWords(plan),
      proof: proofInWords(plan) ?? "",
      gatePassed: assessment.gate.passed,
      minutes: counted(Math.round(plan.minutes), "minute"),
      inOrder: plan.moves.length > 1 ? inOrder : "",
      moves: plan.moves.map((move, i) => movePage(machine, assessment, plan, move, stops[i] ?? null)),
      demands: plan.demands.map(demandRow),
      picture: pictureOf(plan),
      holdOuts: plan.demands.flatMap((planned) => {
        const words = holdOutInWords(planned, adjusters);
        const unlock = planned.cure?.kind === "unlock" ? planned.cure.adjuster : null;
        return words === null ? [] : [{ title: planned.demand.title, words, unlock }];
      }),
      measure,
      things: plannedThings(
        plan,
        stops.map((stop) => stop?.stop.setup.instrument?.name ?? ""),
        next,
      ),
      numbers: planAsJson(plan, stops),
    };
  });
}

function demandRow({ demand, before, after }: Plan["demands"][number]): DemandRow {
  return {
    id: demand.id,
    title: demand.title,
    limit: `${formatTrimmed(demand.limit, 3)} ${demand.unit}`,
    before: showDemand(before).whole,
    after: showDemand(after).whole,
    chance: chanceUnlessHeldBack(after),
    verdictNow: before.verdict,
    verdict: after.verdict,
  };
}

function pictureOf({ demands, moves }: Plan): string {
  if (moves.length === 0 || demands.length === 0) return "";
  const rows = demands.map(({ demand: { title, unit, limit }, before, after }) => {
    return { title, unit, limit, before, after, verdict: after.verdict };
  });
  return beforeAfterDrawing(rows, "page");
}

function movePage(
  machine: string,
  assessment: Assessment,
  plan: Plan,
  move: PlannedMove,
  stop: PlannedStop | null,
): PlannedMovePage {
  const { adjuster, amount, leaves } = move;
  const verdictOf = (id: string) =>
    plan.demands.find(({ demand }) => demand.id === id)?.after.verdict ?? "not known yet";
  const brought = broughtBy(plan, move).map((row) => ({ ...row, verdict: verdictOf(row.demand.id) }));
  return {
    adjuster: adjuster.id,
    letter: adjuster.letter,
    kind: adjuster.kind,
    words: adjuster.words,
    sentence: moveInWords(move),
    minutes: counted(Math.round(adjuster.minutes), "minute"),
    amount,
    amountWords: amountInWords(move),
    turned: turnedOfMoveInWords(move) ?? "",
    fastening: fasteningWords(adjuster),
    alsoLoose: adjuster.whatHolds.alsoLoose ?? "",
    cautions: cautionsBefore(adjuster),
    readAgain: readAgainEntries(adjuster),
    brings: brought.map(({ demand, before, after, verdict }) => ({
      title: demand.title,
      unit: demand.unit,
      limit: formatTrimmed(demand.limit, 3),
      before: showDemand(before).value,
      after: showDemand(after).whole,
      verdict,
    })),
    drawing: adjusterDrawing({ machine: assessment.machine, adjuster, amount, leaves }, "page"),
    picture:
      brought.length === 0
        ? ""
        : beforeAfterDrawing(
            brought.map(({ demand: { title, unit, limit }, before, after, verdict }) => {
              return { title, unit, limit, before, after, verdict };
            }),
            "page",
          ),
    leaves: leavesOfPlannedMove(machine, move),
    stop: stop && stopPage(assessment, move, stop),
  };
}

function stopPage({ estimate, machine, timeline }: Assessment, move: PlannedMove, planned: PlannedStop): StopPage {
  const { stop, title, lead, clause, band, setUp: toSetUp } = planned;
  const { check, setup, run, station, against } = stop;
  const instrument = setup.instrument ?? null;
  const isFirst = stop.setUp === "before the move" || stop.homesFirst;
  const single = against === null && usualEntries(check, instrument) === 1 && !isFirst;
  const entry = entryForm(check, instrument, null);
  const unit = entry.unit as UnitId;
  const before = readingAtStop(estimate, stop, move.before.scene.state.slice(0, machine.parameters.length));
  const begun = timeline.runs.find(({ id }) => id === run);
  const { objects } = begun ?? { objects: objectsOf(planned, timeline) };
  const anew: SetupChoice = {
    check: check.id,
    instrument: instrument?.id ?? null,
    objects,
    options: setup.options,
    conditions: {},
  };
  return {
    title,
    check: check.id,
    goesOn:
      begun === undefined
        ? "begun anew"
        : `going on with the run of ${new Date(begun.at).toISOString().slice(0, 10)}, on the same spots`,
    into: begun?.id ?? anew,
    station: station.key,
    lead,
    clause,
    band: band ?? "",
    setUpFirst: isFirst ? (toSetUp ?? "") : "",
    setUpElse: isFirst ? "" : (toSetUp ?? ""),
    now: single ? `about ${formatTrimmed(unitFromCore(before, unit), 2)} ${unitOf(unit).symbol} now` : "",
    instrument: { id: instrument?.id ?? "", name: instrument?.name ?? "" },
    plan: stationPlan({ check, setup, read: against === null ? [] : [against.key], now: station.key }, 168),
    entry,
    other: heldAgainst(stop),
    homesFirst: stop.homesFirst,
    stationName: nameOf(station),
  };
}

/** The other reading of a proof that takes two: at another station, or at the same one before the joint is opened. */
export function heldAgainst({ against, setUp, station }: Pick<StopAt, "against" | "setUp" | "station">) {
  if (against !== null) return { station: against.key, name: nameOf(against), isBefore: false };
  return setUp === "before the move" ? { station: station.key, name: nameOf(station), isBefore: true } : null;
}

/** What a field is called: a length by its two ends. */
function nameOf({ key, words, to }: Station): string {
  return to === undefined ? key : words;
}

/** Objects of a run that is begun for the move: the first of the user's own in each role. */
function objectsOf(
  { stop: { check } }: PlannedStop,
  { objects }: Assessment["timeline"],
): Readonly<Record<string, string>> {
  return Object.fromEntries(
    check.roles.flatMap((role) => {
      const own = inUse(objects.values()).find(({ family }) => family === role);
      return own ? [[role, own.id] as const] : [];
    }),
  );
}
