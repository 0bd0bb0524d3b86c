import type { Assessment } from "../../app/assess.ts";
import {
  type Comparison,
  chosenEpochs,
  compareEpochs,
  comparisonInWords,
  type ReadEpoch,
  readEpochs,
  shownChange,
} from "../../app/compare.ts";
import { momentsInWords } from "../../app/moments.ts";
import { chanceUnlessHeldBack } from "../../app/plan-words.ts";
import { formatChance, formatTrimmed } from "../../core/base/number-format.ts";
import { beforeAfterDrawing } from "../../core/drawing/before-after.ts";
import { type MachineSheet, machinePlan, planExaggeration } from "../../core/drawing/machine-sheet.ts";
import { sceneOfEpoch } from "../../core/fit/epoch-scene.ts";
import { showDemand } from "../../core/work/shown-demand.ts";
import { assessmentOf, eventsOfMachine } from "./held.ts";
import type { Answer } from "./protocol.ts";
import type { ComparedEpoch, ComparedPair, ComparePage, CompareRequests } from "./protocol-compare.ts";
import { answerFrom } from "./told.ts";

/** Before and after, as the command line says it. */
export function comparePage({ machine, from, to, around }: CompareRequests["compare"]["ask"]): Answer<ComparePage> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const epochs = readEpochs(assessment);
    const dates = momentsInWords(
      epochs.map(({ at }) => at),
      eventsOfMachine(machine),
    );
    const dateOf = (epoch: ReadEpoch) => dates[epochs.indexOf(epoch)];
    const chosen = chosenEpochs(epochs, {
      ...(from !== null && { from: Date.parse(from) }),
      ...(to !== null && { to: Date.parse(to) }),
      ...(around !== null && { around }),
    });
    return {
      machine: assessment.timeline.machine.name,
      epochs: epochs.map((epoch) => epochOf(epoch, dateOf(epoch))),
      comparison: chosen && pairOf(assessment, compareEpochs(assessment, ...chosen), dateOf),
    };
  });
}

function epochOf({ at, after }: ReadEpoch, date: string): ComparedEpoch {
  return { at: new Date(at).toISOString(), date, after: after.join("; ") };
}

type DateOf = (epoch: ReadEpoch) => string;

function pairOf(assessment: Assessment, comparison: Comparison, dateOf: DateOf): ComparedPair {
  const { before, after, between, changes, demands, chance } = comparison;
  return {
    before: new Date(before.at).toISOString(),
    after: new Date(after.at).toISOString(),
    headline: comparisonInWords(comparison),
    between,
    changes: changes.map((change) => ({ id: change.finding.id, ...shownChange(change) })),
    chance:
      demands.length === 0
        ? ""
        : `Chance that all demands are within: ${formatChance(chance.before)} before, ${formatChance(chance.after)} after.`,
    demands: demands.map((pair) => ({
      id: pair.after.demand.id,
      title: pair.after.demand.title,
      unit: pair.after.demand.unit,
      limit: formatTrimmed(pair.after.demand.limit, 3),
      before: showDemand(pair.before).whole,
      after: showDemand(pair.after).whole,
      verdictBefore: pair.before.verdict,
      verdict: pair.after.verdict,
      chance: chanceUnlessHeldBack(pair.after),
    })),
    picture: pictureOf(comparison),
    plans: plansOf(assessment, before, after, dateOf),
  };
}

function pictureOf({ demands }: Comparison): string {
  if (demands.length === 0) return "";
  const rows = demands.map((pair) => {
    const { title, unit, limit } = pair.after.demand;
    return { title, unit, limit, before: pair.before, after: pair.after, verdict: pair.after.verdict };
  });
  return beforeAfterDrawing(rows, "page", { title: "Before and after", before: "before", after: "after" });
}

/** Both at the smaller of their exaggerations, so that one can be held against the other. */
function plansOf(
  { machine, estimate }: Assessment,
  before: ReadEpoch,
  after: ReadEpoch,
  dateOf: DateOf,
): ComparedPair["plans"] {
  const sheetOf = (epoch: ReadEpoch): MachineSheet => ({
    machine,
    state: sceneOfEpoch(estimate, epoch.stage).scene.state,
    readings: "",
    date: dateOf(epoch),
  });
  const [first, second] = [sheetOf(before), sheetOf(after)];
  const mostFactor = Math.min(planExaggeration(first).factor, planExaggeration(second).factor);
  return [machinePlan({ ...first, mostFactor }, "page"), machinePlan({ ...second, mostFactor }, "page")];
}
