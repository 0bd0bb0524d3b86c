import type { Assessment } from "../app/assess.ts";
import { type OddReading, oddReadings, oddRemedy } from "../app/odd-readings.ts";
import { runName } from "../app/run-name.ts";
import { formatNumber } from "../core/base/number-format.ts";
import { checkById } from "../core/checks/catalogue.ts";

/** What still stands between the machine and the word "within". */
export function gateLines({ gate }: Assessment): readonly string[] {
  if (gate.passed) return [];
  const failed = gate.checks.filter(({ state }) => state === "failed");
  const open = gate.checks.filter(({ state }) => state === "not done" || state === "not complete");
  return [
    "The fit-to-measure round has not been passed, so nothing geometric is called within yet.",
    ...failed.map(({ check, where }) => `  not passed: ${check.words.title} (${where.join(", ")})`),
    ...(open.length > 0 ? [`  still to do: ${open.map(({ check }) => check.id).join(", ")}`] : []),
  ];
}

/** Odd readings that can still be repeated: what a move may rest on without reason. */
export function linesBeforeMoving(assessment: Assessment): readonly string[] {
  const odd = oddReadings(assessment).filter(({ since }) => since.kind === "nothing");
  return odd.length === 0 ? [] : ["Before anything is moved:", ...oddLines(odd)];
}

/** Readings, runs and fits that do not hang together, each with what to do. */
export function trustLines(assessment: Assessment): readonly string[] {
  const lines = [...oddLines(oddReadings(assessment))];
  const { probability: whole, strange } = assessment.trust;
  if (whole < 0.001) {
    const named = strange.map(
      ({ id, inSd }) => `${id.split(":")[0]} (${formatNumber(Math.abs(inSd), 0)} times what is usual)`,
    );
    lines.push(
      `Taken together the readings do not hang together: chance under 1 in 1000.${named.length > 0 ? ` Look at ${named.join(", ")}: a second tool, or turning it over, settles it.` : ""}`,
    );
  }
  for (const { run, returned } of assessment.trust.runs) {
    if (!returned) continue;
    const title = checkById(run.check)?.words.title ?? run.check;
    lines.push(
      `${title}, ${runName(run.id)}: the first station, read again at the end, had moved by ${formatNumber(returned.moved, 2)}. Something shifted: do the run again, do not average.`,
    );
  }
  for (const { run, misread, improbable, probability } of assessment.trust.runs) {
    const title = checkById(run.check)?.words.title ?? run.check;
    if (misread)
      lines.push(
        `${title}, ${runName(run.id)}: ${misreadInWords(misread.factor)} \`kilter reinterpret FILE ${run.id.slice(-6)} ${formatFactor(misread.factor)} --because …\` corrects it and keeps what was typed.`,
      );
    else if (improbable)
      lines.push(
        `${title}, ${runName(run.id)}: its readings scatter more than they should (chance ${probability < 0.0001 ? "under 1 in 10 000" : "under 1 in 1000"}).`,
      );
  }
  return lines.length === 0 ? [] : ["", ...lines];
}

function oddLines(all: readonly OddReading[]): readonly string[] {
  return all.flatMap((odd) => {
    const where = `${checkById(odd.check)?.words.title ?? odd.check}, ${odd.station}`;
    return [
      `Odd: ${where}: ${oddInWords(odd)} Reading ${odd.ids.map((id) => id.slice(-6)).join(", ")}.`,
      ...(odd.without.length > 0 ? [`  Without it: ${odd.without.join("; ")}.`] : []),
    ];
  });
}

function oddInWords(odd: OddReading): string {
  const { away, unit, studentised, against, isOpen } = odd;
  const size = `${formatNumber(Math.abs(away), 2)} ${unit}`;
  const times = `${formatNumber(Math.abs(studentised), 1)} times what`;
  if (against === "rest") return `${size} away from the rest (${times} it should scatter). ${oddRemedy(odd)}`;
  if (isOpen) return `its readings are ${size} apart (${times} the tool lets them). ${oddRemedy(odd)}`;
  return `${size} away from the others of its own station (${times} the tool lets it). ${oddRemedy(odd)}`;
}

export function formatFactor(factor: number): string {
  return String(Number(factor.toPrecision(6)));
}

function misreadInWords(factor: number): string {
  if (factor < 0) return "the whole run fits far better with its sign turned: did the stem point the other way?";
  if (Math.abs(factor - 25.4) < 0.1) return "the whole run fits far better as inches typed as mm.";
  if (Math.abs(factor - 1 / 25.4) < 0.001) return "the whole run fits far better as mm typed as inches.";
  if (Math.abs(factor - 0.0254) < 0.001) return "the whole run fits far better as thousandths of an inch typed as mm.";
  if (Math.abs(factor - 39.37) < 0.5) return "the whole run fits far better as mm typed as thousandths of an inch.";
  return `the whole run fits far better times ${formatFactor(factor)}: is the decimal mark in its place?`;
}
