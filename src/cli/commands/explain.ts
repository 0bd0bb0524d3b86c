import { assess } from "../../app/assess.ts";
import { explainFinding } from "../../app/explain.ts";
import { findingAsJson } from "../../app/findings-json.ts";
import { formatChance, formatChanceInWords, showUncertainty } from "../../core/base/number-format.ts";
import type { FindingResult } from "../../core/findings/evaluate.ts";
import { meaningInWords, showFinding } from "../../core/findings/shown.ts";
import { sayCarriers } from "../carrier-lines.ts";
import { openLogbook } from "../logbook-file.ts";
import { findingNamed } from "../named-finding.ts";
import { say, sayJson, toned, wrap } from "../terminal.ts";
import { tones } from "./findings.ts";

/** One finding with its grounds: what carries it, what it cannot be told from, what would sharpen it, its history. */
export function explain(file: string, text: string, options: { json?: boolean }): number {
  const { timeline, logbook } = openLogbook(file);
  const assessment = assess(timeline);
  const finding = findingNamed(
    assessment.findings.map((result) => result.finding),
    text,
  );
  const result = assessment.findings.find((candidate) => candidate.finding === finding) as FindingResult;
  const grounds = explainFinding(assessment, result, logbook.events);
  if (options.json) {
    sayJson({ ...findingAsJson(result), ...grounds });
    return 0;
  }
  const { probability, afterNextHoming, verdict } = result;
  const shown = showFinding(result);
  say(toned(`${finding.title}${finding.symbol ? `  ${finding.symbol}` : ""}`, "strong"));
  const whose = result.limitIsOwn ? "yours" : "usual";
  say(wrap(`${shown.whole}${shown.limit === "" ? "" : `, limit ${shown.limit} (${whose})`}`));
  say(wrap(meaningInWords(result)));
  if (probability !== null && verdict !== null) {
    say(
      toned(
        wrap(
          `Within the limit with ${formatChanceInWords(probability)}, if nothing slips: ${verdict}.${result.heldBack ? " The fit-to-measure round comes first." : ""}`,
        ),
        tones[verdict],
      ),
    );
  }
  if (afterNextHoming) {
    const chance =
      afterNextHoming.probability === null
        ? ""
        : ` Homed once more, it would be within with ${formatChance(afterNextHoming.probability)}.`;
    say(
      wrap(
        `This is as it is homed now; over homings U is ${showUncertainty(afterNextHoming.expandedUncertainty)}.${chance}`,
      ),
    );
  }
  say();
  say(toned("What carries it", "strong"));
  sayCarriers(grounds.carriedBy);
  say(toned("What it cannot be told from", "strong"));
  say(wrap(`  ${grounds.apart}`, undefined, "  "));
  say(toned("What would sharpen it most", "strong"));
  for (const line of grounds.sharpenedBy) say(wrap(`  ${line}`, undefined, "  "));
  if (grounds.cure !== null) {
    say(toned("What would cure it", "strong"));
    say(wrap(`  ${grounds.cure}`, undefined, "  "));
  }
  if (grounds.history.length > 1) {
    say(toned("Its history", "strong"));
    const widest = Math.max(...grounds.history.map(({ date }) => date.length));
    for (const { date, after, ...numbers } of grounds.history) {
      const { value, uncertainty } = showFinding({ ...result, ...numbers });
      const before = after === "" ? "" : `  after: ${after}`;
      say(
        wrap(
          `  ${date.padEnd(widest)}  ${value.padStart(6)} ± ${uncertainty}${before}`,
          undefined,
          " ".repeat(widest + 4),
        ),
      );
    }
  }
  return 0;
}
