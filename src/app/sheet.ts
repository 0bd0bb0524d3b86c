import { formatChance, formatNumber } from "../core/base/number-format.ts";
import { checkById } from "../core/checks/catalogue.ts";
import { cautionHead, sentenceForCaution } from "../core/checks/cautions.ts";
import { type IntervalBar, intervalBar } from "../core/drawing/interval-bar.ts";
import type { FindingResult, Verdict } from "../core/findings/evaluate.ts";
import { headlineMeaning, headlineOf } from "../core/findings/headline.ts";
import { meaningInWords, showFinding } from "../core/findings/shown.ts";
import { waysOf } from "../core/planning/next-check-words.ts";
import type { Assessment } from "./assess.ts";
import { dateOf, drawnMachine, readingsInWords } from "./drawn-machine.ts";
import { residualsOfRun } from "./drawn-trust.ts";
import { oddReadings, oddRemedy } from "./odd-readings.ts";
import { sheetStyle } from "./sheet-style.ts";

/** A whole logbook on one page that needs nothing else: drawing, findings, what does not hang together, readings, cautions. */
export function sheetPage(assessment: Assessment): string {
  const { timeline, findings } = assessment;
  const name = asHtml(timeline.machine.name);
  const meaning = headlineMeaning(findings);
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>${name}: findings</title>
<style>${sheetStyle}</style>
<main>
<h1>${name}</h1>
<p class="second">${asHtml(timeline.machine.layout.replace("-", " "))}, ${asHtml(readingsInWords(assessment).replace(" in ", " readings in "))}, last read ${dateOf(assessment)}.</p>
<p class="lead">${asHtml(headlineOf(findings))}</p>
${meaning === "" ? "" : `<p>${asHtml(meaning)}</p>`}
${gateSection(assessment)}
<div class="drawing" role="region" aria-label="Drawing of the machine" tabindex="0">${drawnMachine(assessment, "page")}</div>
<h2>Findings</h2>
<p class="second">Value ± U covers 95 of 100 cases. Every bar is drawn to its own limit. A chance is that of being within, if nothing slips.</p>
${(["out", "not known yet", "within", null] as const).map((verdict) => group(findings, verdict)).join("\n")}
${oddSection(assessment)}
${readingsSection(assessment)}
${cautionsSection()}
</main>
</html>
`;
}

const headings: Readonly<Record<Verdict, string>> = { out: "Out", "not known yet": "Not known yet", within: "Within" };

function group(findings: readonly FindingResult[], verdict: Verdict | null): string {
  const rows = findings.filter((result) => result.verdict === verdict);
  if (rows.length === 0) return "";
  return `<h3 class="${verdict === "not known yet" ? "unknown" : (verdict ?? "second")}">${verdict === null ? "Without a limit from the work" : headings[verdict]}</h3>
<table class="findings"><thead><tr><th scope="col">Finding</th><th scope="col" class="num">value ± U</th><th scope="col" class="num">limit</th><th scope="col">−limit … +limit</th><th scope="col" class="num">chance</th></tr></thead><tbody>
${rows.map(rowOf).join("\n")}
</tbody></table>`;
}

function rowOf(result: FindingResult): string {
  const { finding, limit, verdict, probability } = result;
  const shown = showFinding(result);
  const bar =
    limit === null || verdict === null
      ? ""
      : intervalBar(barOf(result, limit, verdict), finding.title, undefined, "page");
  const symbol = finding.symbol === undefined ? "" : ` <small>${asHtml(finding.symbol)}</small>`;
  return `<tr><th scope="row">${asHtml(finding.title)}${symbol}<p class="meaning">${asHtml(meaningInWords(result))}</p></th><td class="num">${shown.value} ± ${shown.uncertainty} ${finding.unit}</td><td class="num">${asHtml(shown.limit)}</td><td class="bar">${bar}</td><td class="num">${probability === null ? "" : formatChance(probability)}</td></tr>`;
}

function barOf({ finding, value, low, high }: FindingResult, limit: number, verdict: Verdict): IntervalBar {
  return { value, low, high, limit: { size: limit, sides: finding.sided === "two" ? "both" : "one" }, verdict };
}

function gateSection({ gate }: Assessment): string {
  if (gate.passed) return "";
  const rows = gate.checks.filter(({ state }) => state !== "passed");
  return `<section class="held"><h2>Before any of this counts</h2><p>The fit-to-measure round has not been passed, so nothing geometric is called within yet.</p><ul>${rows
    .map(
      ({ check, state, where }) =>
        `<li>${asHtml(check.words.title)}: ${state}${where.length > 0 ? ` (${asHtml(where.join(", "))})` : ""}</li>`,
    )
    .join("")}</ul></section>`;
}

function oddSection(assessment: Assessment): string {
  const odd = oddReadings(assessment);
  if (odd.length === 0) return "";
  return `<h2>Readings that do not hang together with the rest</h2><ul>${odd
    .map((one) => {
      const { check, station, away, unit, without, against, isOpen } = one;
      const changes = without.length === 0 ? "" : ` Without it: ${asHtml(without.join("; "))}.`;
      return `<li>${asHtml(checkById(check)?.words.title ?? check)}, ${asHtml(station)}: ${formatNumber(Math.abs(away), 2)} ${unit} ${against === "rest" ? "away" : isOpen ? "between its readings" : "away from the others of its own station"}. ${asHtml(oddRemedy(one))}${changes}</li>`;
    })
    .join(
      "",
    )}</ul>${[...new Set(odd.map(({ run }) => run))].map((run) => `<div class="drawing" role="region" aria-label="Residuals" tabindex="0">${residualsOfRun(assessment, run, "page")}</div>`).join("")}`;
}

function readingsSection({ timeline, estimate }: Assessment): string {
  const rows = timeline.runs.map((run) => {
    const count = timeline.readings.filter((reading) => reading.run === run.id).length;
    const how = waysOf({ setup: run }).join(", ");
    const date = new Date(run.at).toISOString().slice(0, 10);
    const title = checkById(run.check)?.words.title ?? run.check;
    const instrument =
      run.instrument === null ? "" : (timeline.instruments.get(run.instrument)?.name ?? run.instrument);
    return `<tr><td>${date}</td><td>${asHtml(title)}${how === "" ? "" : ` (${asHtml(how)})`}</td><td>${asHtml(instrument)}</td><td class="num">${count}</td></tr>`;
  });
  const variables = estimate.problem.variables.length;
  return `<h2>What it rests on</h2><p class="second">${variables} unknowns fitted together from these runs.</p><table><thead><tr><th scope="col">date</th><th scope="col">check</th><th scope="col">read with</th><th scope="col" class="num">readings</th></tr></thead><tbody>${rows.join("\n")}</tbody></table>`;
}

function cautionsSection(): string {
  const sentences = (["hands in", "under power", "cutting"] as const).map(
    (caution) => `<li>${asHtml(sentenceForCaution(caution))}</li>`,
  );
  return `<h2>Cautions</h2><p>${asHtml(cautionHead)}</p><ul>${sentences.join("")}</ul>`;
}

function asHtml(text: string): string {
  return text.replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
}
