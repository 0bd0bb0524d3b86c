import { Stamp } from "../../app/stamp.ts";
import { type TakenReading, takeReading } from "../../app/take-reading.ts";
import { readingsInARow, type TakenRepeat, takeRepeat } from "../../app/take-repeat.ts";
import { takeRun } from "../../app/take-run.ts";
import { readNumber } from "../../core/base/number-entry.ts";
import { formatNumber, formatTrimmed } from "../../core/base/number-format.ts";
import { type UnitId, unitFromCore, unitOf } from "../../core/base/units.ts";
import type { Check, Station } from "../../core/checks/check.ts";
import { showFinding } from "../../core/findings/shown.ts";
import { type Innovation, standingOf } from "../../core/fit/preview.ts";
import type { Reading } from "../../core/fit/timeline.ts";
import { nextStackUp, stacksOf } from "../../core/instruments/leaves.ts";
import { inMarks } from "../../core/instruments/marks.ts";
import { bestValue } from "../../core/instruments/reading-uncertainty.ts";
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
  const inARow = typeof into === "string" ? readingsInARow(session.value.timeline, into, station) : [];
  const earlier = again === null || inARow.includes(again) ? inARow : [...inARow, again];
  if (earlier.length > 0)
    return answerFrom(takeRepeat(session.value, stamp, asked, earlier, again !== null), repeatFrom(earlier.length));
  return answerFrom(takeReading(session.value, assessment.value.estimate, stamp, asked), (taken) => ({
    events: taken.events,
    verdict: verdictOf(taken),
    replaced: [],
  }));
}

/** A repeat is held against the readings that it repeats before it is held against the rest. */
const repeatFrom =
  (earlier: number) =>
  ({ taken, standing, apart, withdrawals }: TakenRepeat): ReadOne => ({
    events: [...taken.events, ...withdrawals],
    replaced: withdrawals.map(({ reading }) => reading),
    verdict: { ...verdictOf(taken), ...besideWords(standing, sizeOf(apart, taken.check), earlier) },
  });

function besideWords(
  standing: TakenRepeat["standing"],
  size: string,
  earlier: number,
): Partial<Pick<ReadingVerdict, "fits" | "strong" | "rest">> {
  switch (standing) {
    case "beside":
    case "replaces":
      return {};
    case "same":
      return {
        fits: "noted",
        strong: "The same twice",
        rest: ": both readings are kept, and the fit has to live with them.",
      };
    case "agrees":
      return {
        fits: "noted",
        strong: "Two readings agree",
        rest: `: what lies ${size} away from them counts no more.`,
      };
    case "differs":
      return {
        fits: "far",
        strong: `${size} apart`,
        rest:
          earlier === 1
            ? ": the two readings of this station differ by more than the tool lets them. Take it a third time."
            : ": no two readings of this station agree. Look at how the tool sits, and take it once more.",
      };
  }
}

function verdictOf({
  events,
  reading,
  run,
  check,
  station,
  innovation,
  passed,
  session,
}: TakenReading): ReadingVerdict {
  const common = { reading, run, station: station.key, what: sentenceFrom(station.words) };
  const taken = session.timeline.readings.find(({ id }) => id === reading);
  const unit = unitOfReading(events);
  const judgement = judged(check, innovation, passed, readInWords(taken, unit));
  return { ...common, ...judgement, ...farInWords(innovation, taken, unit) };
}

/** "0.90 mm": one number that was read, as it was typed; null where it is two, or a look. */
function readInWords(reading: Reading | undefined, unit: UnitId | null): string | null {
  const [entry, second] = reading?.entries ?? [];
  if (unit === null || entry === undefined || second !== undefined || entry.form === "verdict") return null;
  const text = (core: number) => formatTrimmed(unitFromCore(core, unit), unit === "in" ? 4 : 3);
  const read = entry.form === "interval" ? `${text(entry.goes)}/${text(entry.doesNotGo)}` : text(bestValue(entry));
  return `${read} ${unitOf(unit).symbol}`;
}

/** Of one number that stands far off: what was read, and what the rest leads to expect there, in the unit typed. */
function farInWords(
  innovation: Innovation | null,
  reading: Reading | undefined,
  unit: UnitId | null,
): { readonly strong?: string } {
  const [entry, second] = reading?.entries ?? [];
  if (innovation?.fits !== "far" || unit === null || entry === undefined || second !== undefined) return {};
  if (entry.form === "verdict") return {};
  const read = bestValue(entry);
  const text = (value: number) => {
    const typed = unitFromCore(value, unit);
    return formatTrimmed(typed, Math.abs(typed) >= 10 ? 1 : unit === "in" ? 3 : 2);
  };
  return { strong: `${text(read)} read, about ${text(read - innovation.away)} ${unitOf(unit).symbol} expected` };
}

function unitOfReading(events: readonly LogEvent[]): UnitId | null {
  const taken = events.find((event) => event.kind === "reading-taken");
  return taken?.kind === "reading-taken" ? ((taken.unit ?? null) as UnitId | null) : null;
}

function judged(
  check: Check,
  innovation: Innovation | null,
  passed: boolean | null,
  read: string | null = null,
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
  if (innovation.fits === "fits") {
    const off = `: ${size} off what the rest leads to expect`;
    const standing = standingOf(innovation);
    if (standing === "near") return { fits: "fits", strong: "Fits", rest: `${off}.` };
    const because =
      standing === "open"
        ? "nothing known yet speaks against it"
        : "what is not known of the machine just lets it stand; read it once more where that is quickly done";
    return { fits: "noted", strong: read === null ? "Kept" : `${read} kept`, rest: `${off}; ${because}.` };
  }
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
