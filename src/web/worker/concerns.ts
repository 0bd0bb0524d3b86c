import type { Assessment } from "../../app/assess.ts";
import { type OddReading, oddReadings, oddRemedy } from "../../app/odd-readings.ts";
import { formatNumber } from "../../core/base/number-format.ts";
import { checkById } from "../../core/checks/catalogue.ts";
import type { Concern } from "./protocol.ts";

/** Readings, runs and fits that do not hang together, each with what to do about it. */
export function concernsOf(assessment: Assessment): readonly Concern[] {
  const { probability, strange, runs } = assessment.trust;
  const concerns: Concern[] = oddReadings(assessment).map((odd) => ({
    kind: "odd",
    head: `${titleOf(odd.check)}, ${odd.station}`,
    text: `${oddInWords(odd)}${odd.without.length > 0 ? ` Without it: ${odd.without.join("; ")}.` : ""}`,
    run: odd.run,
    readings: odd.ids,
    factor: null,
  }));
  if (probability < 0.001) {
    const named = strange.map(
      ({ id, inSd }) => `${id.split(":")[0]} (${formatNumber(Math.abs(inSd), 0)} times what is usual)`,
    );
    concerns.push({
      kind: "whole",
      head: "All readings together",
      text: `They contradict one another: the chance of that is under 1 in 1000.${named.length > 0 ? ` Look at ${named.join(", ")}. A second tool, or the same turned over, settles it.` : ""}`,
      run: null,
      readings: [],
      factor: null,
    });
  }
  for (const { run, returned, misread, improbable } of runs) {
    const common = { head: titleOf(run.check), run: run.id, readings: [] };
    if (returned) {
      const text = `The first station had moved by ${formatNumber(returned.moved, 2)} when it was read again at the end. Something shifted: take the whole run anew, a mean of the two is no reading.`;
      concerns.push({ ...common, kind: "returned", text, factor: null });
    }
    if (misread) {
      const because = misreadInWords(misread.factor);
      const text = `${because} One touch puts it right; what was typed stays in the logbook.`;
      concerns.push({ ...common, kind: "misread", text, factor: { value: misread.factor, because } });
    } else if (improbable) {
      concerns.push({
        ...common,
        kind: "scatter",
        text: "Its readings scatter more than they should: the chance of that is under 1 in 1000.",
        factor: null,
      });
    }
  }
  return concerns;
}

function oddInWords(odd: OddReading): string {
  const { away, unit, studentised, against, isOpen } = odd;
  const size = `${formatNumber(Math.abs(away), 2)} ${unit}`;
  const times = `${formatNumber(Math.abs(studentised), 1)} times what`;
  if (against === "rest")
    return `This reading stands ${size} away from all others, ${times} it should scatter. ${oddRemedy(odd)}`;
  if (isOpen)
    return `The readings of this station contradict one another: ${size} apart, ${times} the tool lets them. Nothing else tells which one slipped. ${oddRemedy(odd)}`;
  return `This reading stands ${size} away from the others of its own station, ${times} the tool lets it. ${oddRemedy(odd)}`;
}

export function titleOf(check: string): string {
  return checkById(check)?.words.title ?? check;
}

function misreadInWords(factor: number): string {
  const about = (value: number, slack: number) => Math.abs(factor - value) < slack;
  if (factor < 0) return "The whole run fits far better with its sign turned: the stem may have pointed the other way.";
  if (about(25.4, 0.1)) return "The whole run fits far better as inches that were taken for millimetres.";
  if (about(1 / 25.4, 0.001)) return "The whole run fits far better as millimetres that were taken for inches.";
  if (about(0.0254, 0.001))
    return "The whole run fits far better as thousandths of an inch that were taken for millimetres.";
  if (about(39.37, 0.5))
    return "The whole run fits far better as millimetres that were taken for thousandths of an inch.";
  return `The whole run fits far better times ${Number(factor.toPrecision(6))}: the decimal mark may have slipped.`;
}
