import type { Assessment } from "../../app/assess.ts";
import { fitToMeasureRound, shortRound } from "../../core/checks/catalogue.ts";
import type { Check } from "../../core/checks/check.ts";
import type { CheckState, NextThing } from "./protocol.ts";

/** How a check stands in the logbook: judged where it gates, else whether it has been taken at all. */
export function stateOfCheck({ gate, timeline }: Assessment, check: Check): CheckState {
  const judged = gate.checks.find((candidate) => candidate.check.id === check.id);
  if (judged) return judged.state;
  const runs = new Set(
    timeline.runs.filter((run) => run.withdrawn === null && run.check === check.id).map(({ id }) => id),
  );
  return timeline.readings.some(({ run, withdrawn }) => withdrawn === null && runs.has(run)) ? "taken" : "not done";
}

/** The first check of the fit-to-measure round that has not been passed, then the first of the short round not yet taken. */
export function nextCheck(assessment: Assessment): Check | null {
  const open = (check: Check) => !["passed", "taken"].includes(stateOfCheck(assessment, check));
  return shortRound(assessment.machine).find(open) ?? null;
}

/** What there is to do now; null when nothing measured would come first. */
export function nextThing(assessment: Assessment): NextThing | null {
  const check = nextCheck(assessment);
  if (check) {
    const round = fitToMeasureRound(assessment.machine);
    const place = round.findIndex(({ id }) => id === check.id);
    const failed = stateOfCheck(assessment, check) === "failed";
    return {
      title: `${failed ? "Put right and do again" : place >= 0 ? "Fit to measure" : "Measure"}: ${lowerFirst(check.words.title)}`,
      why: check.words.settles,
      minutes: check.words.minutes,
      button: "Show how it is done",
      path: `measure/${check.id}`,
    };
  }
  const out = assessment.findings.filter(({ verdict }) => verdict === "out").length;
  if (out === 0) return null;
  return {
    title: out === 1 ? "Look at the finding that is out" : `Look at the ${out} findings that are out`,
    why: "Each says which readings carry it and what it cannot be told apart from.",
    minutes: null,
    button: "Show the findings",
    path: "findings",
  };
}

function lowerFirst(title: string): string {
  return /^[A-Z][a-z]/.test(title) ? title[0].toLowerCase() + title.slice(1) : title;
}
