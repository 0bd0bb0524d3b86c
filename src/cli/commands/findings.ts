import { assess } from "../../app/assess.ts";
import { findingsAsJson } from "../../app/findings-json.ts";
import { formatChance } from "../../core/base/number-format.ts";
import { type FindingResult, isUnread, type Verdict } from "../../core/findings/evaluate.ts";
import { headlineOf } from "../../core/findings/headline.ts";
import { showFinding } from "../../core/findings/shown.ts";
import { openLogbook } from "../logbook-file.ts";
import { exitStatus } from "../report.ts";
import { counted, say, sayJson, type Tone, toned, wrap } from "../terminal.ts";
import { gateLines, trustLines } from "../trust-lines.ts";

export interface FindingsOptions {
  readonly json?: boolean;
  readonly gate?: boolean;
  readonly all?: boolean;
}

export const tones: Readonly<Record<Verdict, Tone | null>> = { within: "within", out: "out", "not known yet": null };

export function showFindings(file: string, options: FindingsOptions): number {
  const assessment = assess(openLogbook(file).timeline);
  if (options.json) sayJson(findingsAsJson(assessment));
  else sayFindings(assessment, options.all ?? false);
  return options.gate && assessment.findings.some(({ verdict }) => verdict !== null && verdict !== "within")
    ? exitStatus.gated
    : exitStatus.done;
}

export function sayFindings(assessment: ReturnType<typeof assess>, all: boolean): void {
  const { timeline, findings } = assessment;
  const runs = new Set(timeline.readings.map(({ run }) => run)).size;
  say(toned(timeline.machine.name, "strong"));
  say(toned(`${counted(timeline.readings.length, "reading")} in ${counted(runs, "run")}`, "second"));
  say();
  say(wrap(headlineOf(findings)));
  for (const line of gateLines(assessment)) say(wrap(line, undefined, "  "));
  say();
  for (const verdict of ["out", "not known yet", "within", null] as const) {
    if (all || verdict !== null) sayVerdict(findings, verdict);
  }
  const unread = findings.filter((result) => result.verdict !== null && isUnread(result));
  if (unread.length > 0) {
    say(toned("Not known yet: the readings say next to nothing of these", "strong"));
    say(
      unread
        .map(
          (result) =>
            `${symbols["not known yet"]} ${nameOf(result).padEnd(NAME)} ${"".padStart(13)}  ${limitOf(result)}`,
        )
        .join("\n"),
    );
    say();
  }
  say(
    toned(wrap("U covers 95 of 100 cases. The chance is that of being within the limit, if nothing slips."), "second"),
  );
  say(toned(wrap("`kilter explain FILE NAME` takes one of these apart; a part of its name will do."), "second"));
  for (const line of trustLines(assessment)) say(wrap(line, undefined, "  "));
}

/** Findings of one verdict under its name; nothing where there are none. */
export function sayVerdict(findings: readonly FindingResult[], verdict: Verdict | null): void {
  const listed = findings.filter((result) => result.verdict === verdict && !isUnread(result));
  if (listed.length === 0) return;
  say(toned(verdict === null ? "Without a limit" : `${verdict[0].toUpperCase()}${verdict.slice(1)}`, "strong"));
  say(toned(listed.map((result) => lineOf(result)).join("\n"), verdict === null ? null : tones[verdict]));
  say();
}

const symbols: Readonly<Record<Verdict, string>> = { within: "●", out: "◆", "not known yet": "○" };
const NAME = 42;

function nameOf({ finding }: FindingResult): string {
  return finding.symbol === undefined ? finding.title : `${finding.title} ${finding.symbol}`;
}

function limitOf(result: FindingResult): string {
  const { limit, unit } = showFinding(result);
  return `${limit.replace("at most ", "≤ ")} ${unit}`;
}

/** One finding in 80 columns: symbol, name, value ± U, limit; the chance where it is not settled. */
export function lineOf(result: FindingResult): string {
  const { verdict, probability, heldBack } = result;
  const { value, uncertainty, unit, limit } = showFinding(result);
  const judged = limit === "" ? unit : limitOf(result);
  const chance = verdict === "not known yet" && !heldBack && probability !== null ? formatChance(probability) : "";
  return `${verdict === null ? " " : symbols[verdict]} ${nameOf(result).padEnd(NAME)} ${`${value} ± ${uncertainty}`.padStart(13)}  ${judged.padEnd(14)} ${chance.padStart(5)}`.trimEnd();
}
