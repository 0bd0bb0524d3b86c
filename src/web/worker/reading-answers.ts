import type { Session } from "../../app/session.ts";
import { sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { type TakenReading, takeReading } from "../../app/take-reading.ts";
import { takeRun } from "../../app/take-run.ts";
import { readNumber } from "../../core/base/number-entry.ts";
import { formatNumber } from "../../core/base/number-format.ts";
import type { UnitId } from "../../core/base/units.ts";
import type { Check, Station } from "../../core/checks/check.ts";
import { showFinding } from "../../core/findings/shown.ts";
import { estimateTimeline } from "../../core/fit/estimate.ts";
import { type Innovation, innovationOf } from "../../core/fit/preview.ts";
import { nextStackUp, stacksOf } from "../../core/instruments/leaves.ts";
import { inMarks } from "../../core/instruments/possible-readings.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { sentenceFrom } from "./check-pages.ts";
import { assessmentOf, findingsBefore, hereAndNow, sessionOf } from "./held.ts";
import type { Answer, Ask, ReadingVerdict, ReadMany, ReadOne, TypedStation } from "./protocol.ts";
import { answerFrom, toldFrom } from "./told.ts";

/** One reading, taken and judged; nothing is kept of it here until its events come back by `add`. */
export function readOne({ machine, into, station, text, unit, again, by }: Ask<"readOne">): Answer<ReadOne> {
  const session = sessionOf(machine);
  const assessment = assessmentOf(machine);
  if (!session.ok || !assessment.ok) return { ok: false, told: toldFrom(session.diagnostics) };
  const stamp = new Stamp(hereAndNow, by === "" ? undefined : by);
  const asked = { into, station, typed: { text, ...(unit !== "" && { unit }) } };
  if (again !== null) return readAgain(session.value, stamp, asked, again);
  return answerFrom(takeReading(session.value, assessment.value.estimate, stamp, asked), (taken) => ({
    events: taken.events,
    verdict: verdictOf(taken),
    replaced: null,
  }));
}

/**
 * The second reading of a station whose first stood far off: it is held against all the rest, the first left out. Where it
 * sits with the rest, the first is withdrawn with the reason said; where both say the same, both stay.
 */
function readAgain(
  session: Session,
  stamp: Stamp,
  asked: Parameters<typeof takeReading>[3],
  first: string,
): Answer<ReadOne> {
  const withdrawal = stamp.event("reading-withdrawn", {
    reading: first,
    because: "Read again at once: the second reading sits with the rest, this one stood far off.",
  } as never) as LogEvent;
  const without = sessionWith(session, [withdrawal]);
  if (!without.ok) return { ok: false, told: toldFrom(without.diagnostics) };
  const estimate = estimateTimeline(session.machine, without.value.timeline);
  return answerFrom(takeReading(without.value, estimate, stamp, asked), (taken): ReadOne => {
    const verdict = verdictOf(taken);
    if (taken.innovation?.fits !== "far") return { events: [...taken.events, withdrawal], verdict, replaced: first };
    const before = session.timeline.readings.find(({ id }) => id === first);
    const away = before && innovationOf(estimate, session.timeline, before)?.away;
    const apart = away === undefined ? Number.POSITIVE_INFINITY : Math.abs(taken.innovation.away - away);
    const alike = apart < 0.25 * Math.abs(taken.innovation.away);
    return {
      events: taken.events,
      replaced: null,
      verdict: alike
        ? {
            ...verdict,
            fits: "noted",
            strong: "The same twice",
            rest: ": both readings are kept, and the fit has to live with them.",
          }
        : {
            ...verdict,
            rest: `: the two readings of this station differ by ${sizeOf(apart, taken.check)}. Take it a third time.`,
          },
    };
  });
}

function verdictOf({ events: _, reading, run, check, station, innovation, passed }: TakenReading): ReadingVerdict {
  const common = { reading, run, station: station.key, what: sentenceFrom(station.words) };
  return { ...common, ...judged(check, innovation, passed) };
}

function judged(
  check: Check,
  innovation: Innovation | null,
  passed: boolean | null,
): Pick<ReadingVerdict, "fits" | "strong" | "rest"> {
  if (innovation === null) {
    if (passed === null) return { fits: "noted", strong: "Noted", rest: "." };
    return passed
      ? { fits: "passed", strong: "Passed", rest: "." }
      : { fits: "failed", strong: "Not passed", rest: ": the check says what to do. It is done again after that." };
  }
  const size = sizeOf(innovation.away, check);
  if (innovation.fits === "new")
    return { fits: "new", strong: "First of its kind", rest: ": nothing to hold it against yet." };
  if (innovation.fits === "fits")
    return { fits: "fits", strong: "Fits", rest: `: ${size} off what the rest leads to expect.` };
  return {
    fits: "far",
    strong: `${size} off the rest`,
    rest: ": take it once more. Keep it if it comes out the same.",
  };
}

function sizeOf(away: number, check: Check): string {
  return `${formatNumber(Math.abs(away), 2)} ${check.quantity === "slope" ? "mm/m" : "mm"}`;
}

/** A whole run at one go: typed into a form, or a table. */
export function readMany({ machine, setup, readings, by, at }: Ask<"readMany">): Answer<ReadMany> {
  const session = sessionOf(machine);
  if (!session.ok) return { ok: false, told: toldFrom(session.diagnostics) };
  const stamp = new Stamp(hereAndNow, by === "" ? undefined : by, at);
  return answerFrom(takeRun(session.value, stamp, { ...setup, readings }), (taken) => {
    const begun = taken.events[0];
    const run = begun.kind === "run-begun" ? begun.run : "";
    return {
      events: taken.events,
      verdicts: taken.readings.map(
        ({
          id,
          station,
          innovation,
          passed,
        }: {
          id: string;
          station: Station;
          innovation: Innovation | null;
          passed: boolean | null;
        }) => ({
          reading: id,
          run,
          station: station.key,
          what: sentenceFrom(station.words),
          ...judged(taken.check, innovation, passed),
        }),
      ),
    };
  });
}

/** A pasted table or a file as readings; nothing is held against a check yet. */
export async function readTable({ text, name, unit }: Ask<"table">): Promise<Answer<readonly TypedStation[]>> {
  const { readingsFromTable } = await import("../../app/readings-table.ts");
  return answerFrom(readingsFromTable(text, name, unit === "" ? undefined : unit), (readings) => readings);
}

/** The next leaf or stack of the user's set above the one that goes, in the unit typed; empty where there is none. */
export function nextLeaf({ machine, instrument, goes, unit }: Ask<"nextLeaf">): string {
  const session = sessionOf(machine);
  const own = session.ok ? session.value.timeline.instruments.get(instrument) : undefined;
  if (own?.measures !== "length" || !own.leaves) return "";
  const read = readNumber(goes, { quantity: "length", usualUnit: unit as UnitId });
  if (!read.ok) return "";
  const next = nextStackUp(stacksOf(own.leaves), read.value.value);
  return next === null ? "" : inMarks(next.totalMm, unit as UnitId);
}

/** Which finding the last readings have narrowed most, in one sentence; empty where none has moved to speak of. */
export function knownBetter(machine: string): string {
  const before = findingsBefore(machine);
  const assessment = assessmentOf(machine);
  if (before === null || !assessment.ok) return "";
  let best: { text: string; share: number } | null = null;
  for (const now of assessment.value.findings) {
    const was = before.find(({ finding }) => finding.id === now.finding.id);
    if (!was || was.expandedUncertainty === 0) continue;
    const share = now.expandedUncertainty / was.expandedUncertainty;
    const [u, v] = [showFinding(now), showFinding(was)];
    if (share > 0.97 || u.uncertainty === v.uncertainty || (best !== null && best.share <= share)) continue;
    best = { share, text: `${now.finding.title}: ±\u00a0${u.uncertainty} ${u.unit}, before ±\u00a0${v.uncertainty}.` };
  }
  return best?.text ?? "";
}
