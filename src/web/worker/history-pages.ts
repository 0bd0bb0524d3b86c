import { instrumentKinds, objectKinds } from "../../app/catalog.ts";
import { historyOfFinding } from "../../app/drawn-finding.ts";
import { historyOf } from "../../core/findings/history.ts";
import { inOrderOfTime } from "../../logbook/event-order.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { titleOf } from "./concerns.ts";
import { counted } from "./counted.ts";
import { asPagePart, historyRows } from "./finding-pages.ts";
import { assessmentOf, eventsOfMachine } from "./held.ts";
import type { Answer, HistoryPage, LogLine } from "./protocol.ts";
import { answerFrom } from "./told.ts";

/** Findings that have a limit over time, and what the logbook tells in between. */
export function historyPage(machine: string): Answer<HistoryPage> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const findings = assessment.findings
      .filter(({ limit }) => limit !== null)
      .map((result) => {
        const points = historyOf(assessment.estimate, result.finding).map((point) => ({
          ...point,
          date: new Date(point.at).toISOString().slice(0, 10),
          after: point.after.join(", "),
        }));
        return {
          id: result.finding.id,
          title: result.finding.title,
          unit: result.finding.unit,
          plot: points.length > 1 ? asPagePart(historyOfFinding(assessment, result)) : "",
          rows: historyRows(result, points),
        };
      });
    return {
      findings,
      dates: findings[0]?.rows.map(({ date }) => date) ?? [],
      log: logOf(machine),
      members: [
        "bed",
        "rails",
        "beam",
        "carriage",
        "slide",
        "spindle",
        "frame",
        assessment.machine.layout.id === "fixed-bridge" ? "bridge" : "",
      ]
        .filter((name) => name !== "")
        .concat(assessment.machine.layout.id === "fixed-bridge" ? ["table"] : []),
    };
  });
}

const happenings: ReadonlySet<string> = new Set([
  "homed",
  "powered-on",
  "knocked",
  "transported",
  "part-replaced",
  "skimmed",
]);

/** What happened, the latest first. Readings of one run are one line. */
function logOf(machine: string): readonly LogLine[] {
  const lines: LogLine[] = [];
  const ordered = inOrderOfTime(eventsOfMachine(machine)).map(({ event }) => event);
  const gone = new Set(ordered.flatMap((event) => (event.kind === "happening-withdrawn" ? [event.happening] : [])));
  const readings = new Map<string, number>();
  for (const event of ordered)
    if (event.kind === "reading-taken") readings.set(event.run, (readings.get(event.run) ?? 0) + 1);
  for (const event of ordered) {
    const words = inWords(event, readings);
    if (words !== "")
      lines.push({
        id: event.id,
        date: event.at.slice(0, 10),
        time: event.at.slice(11, 16),
        by: event.by ?? "",
        words: gone.has(event.id) ? `${words} It is taken back.` : words,
        canWithdraw: happenings.has(event.kind) && !gone.has(event.id),
      });
  }
  return lines.reverse();
}

function inWords(event: LogEvent, readings: ReadonlyMap<string, number>): string {
  switch (event.kind) {
    case "machine-described":
      return "The machine is described.";
    case "machine-renamed":
      return `The machine is named ${event.name}.`;
    case "machine-set-aside":
      return `The machine is set aside: ${event.because}`;
    case "machine-brought-back":
      return "The machine is brought back.";
    case "coordinates-set":
      return `Axes and zero are the user's own${event.tried ? ", tried by a move" : ", not tried yet"}.`;
    case "instrument-added":
      return `Instrument: ${event.instrument.name ?? instrumentKinds.get(event.instrument.kind)?.name ?? event.instrument.kind}.`;
    case "object-added":
      return `Object: ${event.object.name ?? objectKinds.get(event.object.kind)?.name ?? event.object.kind}.`;
    case "run-begun":
      return `${titleOf(event.check)}: ${counted(readings.get(event.run) ?? 0, "reading")}.`;
    case "reading-withdrawn":
      return `A reading is withdrawn: ${event.because}`;
    case "reading-restored":
      return "A withdrawn reading counts again.";
    case "run-withdrawn":
      return `A run is withdrawn: ${event.because}`;
    case "run-restored":
      return "A withdrawn run counts again.";
    case "run-reinterpreted":
      return `A run is read times ${Number(event.factor.toPrecision(6))}: ${event.because}`;
    case "homed":
      return "Homed.";
    case "powered-on":
      return "Powered on.";
    case "knocked":
      return withNote(`Knocked${members(event.members)}`, event.note);
    case "transported":
      return withNote("Transported", event.note);
    case "part-replaced":
      return withNote(`A part is replaced${members(event.members)}`, event.note);
    case "skimmed":
      return withNote("The bed is skimmed", event.note);
    case "happening-withdrawn":
      return `Something noted is taken back: ${event.because}`;
    case "note-added":
      return event.text;
    case "limit-set":
      return event.limit === null
        ? `The limit of ${event.finding} is the usual one again.`
        : `Own limit for ${event.finding}: ${event.limit} ${event.unit}.`;
    case "reading-taken":
      return "";
    default:
      return `${event.kind.replaceAll("-", " ").replace(/^./, (first) => first.toUpperCase())}.`;
  }
}

function members(names: readonly string[] | undefined): string {
  return names === undefined || names.length === 0 ? "" : ` (${names.join(", ")})`;
}

function withNote(words: string, note: string | undefined): string {
  return note === undefined ? `${words}.` : `${words}: ${note}`;
}
