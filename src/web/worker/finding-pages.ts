import type { Assessment } from "../../app/assess.ts";
import { historyOfFinding } from "../../app/drawn-finding.ts";
import { readingsInWords } from "../../app/drawn-machine.ts";
import { residualsOfRun } from "../../app/drawn-trust.ts";
import { explainFinding } from "../../app/explain.ts";
import type { DatedPoint } from "../../app/history-in-words.ts";
import { oddMarks } from "../../app/odd-readings.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import {
  formatChance,
  formatChanceInWords,
  formatNumber,
  formatTrimmed,
  showUncertainty,
  showValue,
} from "../../core/base/number-format.ts";
import { coreUnitOf, unitOf } from "../../core/base/units.ts";
import { checkById, checks } from "../../core/checks/catalogue.ts";
import { intervalBar } from "../../core/drawing/interval-bar.ts";
import { type FindingResult, isUnread } from "../../core/findings/evaluate.ts";
import { findingUnitOf } from "../../core/findings/finding.ts";
import { headlineOf } from "../../core/findings/headline.ts";
import { meaningInWords, showFinding } from "../../core/findings/shown.ts";
import { setupOfRun } from "../../core/fit/observations.ts";
import { stationFromKey } from "../../core/fit/station-key.ts";
import { entriesByName, writtenAlike } from "../../core/instruments/entry-words.ts";
import { placeForUser } from "../../core/machine/user-coordinates.ts";
import { waysOf } from "../../core/planning/next-check-words.ts";
import { sentenceFrom } from "./check-pages.ts";
import { concernsOf, titleOf } from "./concerns.ts";
import { assessmentOf, eventsOfMachine } from "./held.ts";
import type { Answer, FindingPage, FindingRow, Findings, HistoryRow, RunEntry } from "./protocol.ts";
import { shareRows } from "./share-rows.ts";
import { answerFrom, toldFrom } from "./told.ts";

/** As high as a row of the list, so that the limits stand under one another as lines. */
const BAR = { width: 200, height: 58 } as const;

/** All findings of a machine, with what stands between them and being believed. */
export function findingsPage(machine: string): Answer<Findings> {
  return answerFrom(assessmentOf(machine), (assessment) => ({
    machine: assessment.timeline.machine.name,
    headline:
      assessment.timeline.readings.length === 0
        ? "Nothing has been measured yet"
        : headlineOf(assessment.findings).replace(/\.$/, ""),
    readings: readingsInWords(assessment).replace(" in ", " readings in "),
    gatePassed: assessment.gate.passed,
    gate: assessment.gate.checks
      .filter(({ state }) => state !== "passed")
      .map(({ check, state, where }) => ({
        check: check.id,
        title: check.words.title,
        state: state === "failed" ? "not passed" : state,
        where,
      })),
    rows: assessment.findings.map(rowOf),
    concerns: concernsOf(assessment),
  }));
}

function rowOf(result: FindingResult): FindingRow {
  const { finding, value, low, high, limit, verdict, probability, heldBack } = result;
  const shown = showFinding(result);
  const unread = isUnread(result);
  const bar =
    limit === null || verdict === null || unread
      ? ""
      : intervalBar(
          { value, low, high, limit: { size: limit, sides: finding.sided === "two" ? "both" : "one" }, verdict },
          finding.title,
          BAR,
          "page",
        );
  return {
    id: finding.id,
    title: finding.title,
    symbol: finding.symbol ?? "",
    value: shown.value,
    uncertainty: shown.uncertainty,
    unit: shown.unit,
    limit: shown.limit,
    verdict,
    unread,
    heldBack,
    chance:
      verdict === "not known yet" && !heldBack && !unread && probability !== null
        ? `chance ${formatChance(probability)}`
        : verdict === "within" && restsOnUsual(result)
          ? "by what is usual"
          : "",
    bar,
    meaning: meaningInWords(result),
  };
}

/** One finding with its grounds. */
export function findingPage(machine: string, id: string): Answer<FindingPage> {
  const assessed = assessmentOf(machine);
  if (!assessed.ok) return { ok: false, told: toldFrom(assessed.diagnostics) };
  const assessment = assessed.value;
  const result = assessment.findings.find(({ finding }) => finding.id === id);
  if (!result)
    return { ok: false, told: toldFrom([refusal("finding-unknown-here", {}, { finding: id, listed: "", meant: "" })]) };
  const grounds = explainFinding(assessment, result, eventsOfMachine(machine));
  const rows = historyRows(result, grounds.history);
  return {
    ok: true,
    told: [],
    value: {
      row: rowOf(result),
      whole: showFinding(result).whole,
      limitIsOwn: result.limitIsOwn,
      limitUnit: findingUnitOf(result.finding),
      limitValue: result.limit,
      chanceSentence: chanceSentence(result),
      homing: homingSentence(result),
      carriedBy: shareRows(grounds.carriedBy),
      apart: grounds.apart,
      sharpenedBy: grounds.sharpenedBy.map((words) => ({ words, check: checkNamedIn(words) })),
      cure: grounds.cure,
      history: rows,
      historyPlot: rows.length > 1 ? asPagePart(historyOfFinding(assessment, result, eventsOfMachine(machine))) : "",
    },
  };
}

/** Such a sentence begins with the check's title; the longest that fits is meant. */
function checkNamedIn(words: string): string | null {
  const named = checks.filter(({ words: { title } }) => words.startsWith(title));
  return named.sort((a, b) => b.words.title.length - a.words.title.length)[0]?.id ?? null;
}

/** More than half of what is known of it was known before anything was read. */
function restsOnUsual({ narrowed }: FindingResult): boolean {
  return narrowed ** 2 > 0.5;
}

function chanceSentence(result: FindingResult): string {
  const { probability, verdict, heldBack } = result;
  if (probability === null || verdict === null) return "";
  const gate = heldBack ? " The fit-to-measure round comes first, so it is not called within yet." : "";
  const usual =
    verdict === "within" && restsOnUsual(result)
      ? " That rests mostly on what is usual of such machines, and hardly on your readings."
      : "";
  return `If nothing slips, it is within the limit with ${formatChanceInWords(probability)}.${usual}${gate}`;
}

function homingSentence({ afterNextHoming }: FindingResult): string {
  if (afterNextHoming === null) return "";
  const { expandedUncertainty, probability } = afterNextHoming;
  const chance = probability === null ? "" : ` and the chance of being within ${formatChance(probability)}`;
  return `This holds as the machine is homed now. Over homings U is ${showUncertainty(expandedUncertainty)}${chance}.`;
}

/** A finding's epochs as rows of a table; ends of the intervals unrounded, to be compared. */
export function historyRows({ finding }: FindingResult, points: readonly DatedPoint[]): readonly HistoryRow[] {
  const sign = finding.sided === "two" ? "always" : "when negative";
  const quantity = finding.unit === "mm/m" ? "slope" : "length";
  return points.map(({ date, value, expandedUncertainty, low, high, after }) => {
    const shown = showValue(value, expandedUncertainty, { quantity, sign });
    return {
      date,
      value: shown.value,
      uncertainty: shown.uncertainty,
      low,
      high,
      after,
    };
  });
}

/** The plot as a part of the page: the page has taken in the styles, so those of the file go. */
export function asPagePart(svg: string): string {
  return svg
    .replace(/<style>[\s\S]*?<\/style>/, "")
    .replace(/<rect class="paper"[^>]*\/>/, "")
    .replace(/(<svg[^>]*?) width="[\d.]+" height="[\d.]+"/, "$1");
}

/** All readings by run, the latest run first, the odd ones marked. */
export function readingsPage(machine: string): Answer<readonly RunEntry[]> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const { timeline, machine: body, trust } = assessment;
    const odd = oddMarks(trust);
    const authors = new Map(eventsOfMachine(machine).map(({ id, by }) => [id, by ?? ""]));
    const concerns = concernsOf(assessment);
    return [...timeline.runs].reverse().map((run): RunEntry => {
      const check = checkById(run.check);
      const instrument = run.instrument === null ? null : (timeline.instruments.get(run.instrument) ?? null);
      const setup = setupOfRun(body, timeline, run);
      const keys = check ? check.stations(setup).map(({ key }) => key) : [];
      const quantity = check?.quantity;
      const unit = quantity === undefined || quantity === "verdict" || quantity === "count" ? "" : coreUnitOf[quantity];
      const readings = timeline.readings.filter((reading) => reading.run === run.id);
      const written = writtenAlike(readings.flatMap(({ entries }) => entries));
      const judged = trust.runs.some((candidate) => candidate.run.id === run.id);
      return {
        run: run.id,
        check: run.check,
        title: titleOf(run.check),
        how: waysOf({ setup: run }).join(", "),
        date: new Date(run.at).toISOString().slice(0, 10),
        instrument: instrument?.name ?? "",
        unit: unit === "" ? "" : unitOf(unit).symbol,
        factor: run.factor === 1 ? "" : formatTrimmed(run.factor, 6),
        withdrawn: run.withdrawn,
        concern: concerns.find((concern) => concern.run === run.id && concern.kind !== "odd")?.text ?? "",
        plot: judged && readings.length > 1 ? residualsOfRun(assessment, run.id, "page") : "",
        note: conditionsInWords(run.conditions),
        readings: readings.map((reading) => {
          const station = check ? stationFromKey(check, setup, reading.station) : null;
          const number = keys.indexOf(reading.station) + 1;
          return {
            id: reading.id,
            number,
            station: sentenceFrom(station?.words ?? reading.station),
            place:
              station && check?.kind === "geometric" ? placeForUser(timeline.coordinates, station.at, ["x", "y"]) : "",
            text: entriesByName(reading.entries, check ?? {}, written),
            odd: odd.has(reading.id)
              ? `${formatNumber(Math.abs(odd.get(reading.id) as number), 1)} times its scatter`
              : "",
            withdrawn: reading.withdrawn,
            by: authors.get(reading.id) ?? "",
          };
        }),
      };
    });
  });
}

function conditionsInWords(conditions: Assessment["timeline"]["runs"][number]["conditions"]): string {
  const { carriageParkedMm, hose, temperatureC, humidityPercent, note } = conditions;
  return [
    carriageParkedMm === undefined ? "" : `carriage parked at X ${formatTrimmed(carriageParkedMm, 1)}`,
    hose === undefined ? "" : `hose ${hose}`,
    temperatureC === undefined ? "" : `${formatTrimmed(temperatureC, 1)} °C`,
    humidityPercent === undefined ? "" : `${formatTrimmed(humidityPercent, 0)} % humidity`,
    note ?? "",
  ]
    .filter((part) => part !== "")
    .join(", ");
}
