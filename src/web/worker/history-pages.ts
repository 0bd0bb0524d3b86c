import { instrumentKinds, objectKinds } from "../../app/catalog.ts";
import { readEpochs } from "../../app/compare.ts";
import { historyOfFinding } from "../../app/drawn-finding.ts";
import { historyInWords } from "../../app/history-in-words.ts";
import { sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { takeStatementBack, waysBack } from "../../app/stated-before.ts";
import { happeningInWords, takeBack } from "../../app/take-back.ts";
import { leavesInWords } from "../../app/typed-leaves.ts";
import { instrumentName, type OwnInstrument } from "../../core/instruments/instrument.ts";
import { adjustersOf } from "../../core/machine/adjusters/catalogue.ts";
import { waysOf } from "../../core/planning/next-check-words.ts";
import { inOrderOfTime } from "../../logbook/event-order.ts";
import type { EventOf, LogEvent } from "../../logbook/events.ts";
import { titleOf } from "./concerns.ts";
import { counted } from "./counted.ts";
import { describedAnew } from "./described-anew.ts";
import { asPagePart, historyRows } from "./finding-pages.ts";
import { assessmentOf, eventsOfMachine, hereAndNow, sessionOf } from "./held.ts";
import type { Answer, Ask, HistoryPage, LogLine } from "./protocol.ts";
import { answerFrom } from "./told.ts";

/** Findings that have a limit over time, and what the logbook tells in between. */
export function historyPage(machine: string): Answer<HistoryPage> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const epochs = readEpochs(assessment);
    const findings = assessment.findings
      .filter(({ limit }) => limit !== null)
      .map((result) => {
        const points = historyInWords(assessment, result.finding, eventsOfMachine(machine));
        return {
          id: result.finding.id,
          title: result.finding.title,
          unit: result.finding.unit,
          plot: points.length > 1 ? asPagePart(historyOfFinding(assessment, result, eventsOfMachine(machine))) : "",
          rows: historyRows(result, points),
        };
      });
    return {
      findings,
      dates: findings[0]?.rows.map(({ date }) => date) ?? [],
      log: logOf(machine, new Set(epochs.slice(1).flatMap(({ happenings }) => happenings))),
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
  "move-made",
]);

/** Takes back what stands in the history: what happened and a move as never having been, a statement by what stood before. */
export function takeEntryBack({ machine, event: id, by }: Ask<"takeEntryBack">): Answer<readonly LogEvent[]> {
  const session = sessionOf(machine);
  if (!session.ok) return answerFrom(session, () => []);
  const stamp = new Stamp(hereAndNow, by === "" ? undefined : by);
  const isStated = waysBack(session.value.logbook.events).some((way) => way.id === id);
  const checked = (events: readonly LogEvent[]) => answerFrom(sessionWith(session.value, events), () => events);
  if (isStated) {
    const stated = takeStatementBack(session.value, stamp, id, "Added by mistake.");
    return stated.ok ? checked([stated.value]) : answerFrom(stated, () => []);
  }
  const taken = takeBack(session.value, stamp, id, "Noted by mistake.");
  return taken.ok ? checked(taken.value.events) : answerFrom(taken, () => []);
}

/** What happened, the latest first. Readings of one run are one line. */
function logOf(machine: string, changes: ReadonlySet<string>): readonly LogLine[] {
  const lines: LogLine[] = [];
  const ordered = inOrderOfTime(eventsOfMachine(machine)).map(({ event }) => event);
  const gone = new Set(
    ordered.flatMap((event) =>
      event.kind === "happening-withdrawn" ? [event.happening] : event.kind === "move-undone" ? [event.move] : [],
    ),
  );
  const statements = new Set(waysBack(eventsOfMachine(machine)).map(({ id }) => id));
  const readings = new Map<string, number>();
  const session = sessionOf(machine);
  const adjusters = session.ok ? adjustersOf(session.value.machine) : [];
  const described = ordered.filter((event) => event.kind === "machine-described");
  const words: LogWords = {
    describedInWords: (event) => {
      const before = described[described.indexOf(event) - 1];
      return before === undefined ? "The machine is described." : describedAnew(before.machine, event.machine);
    },
    placeOf: (id) => adjusters.find((adjuster) => adjuster.id === id)?.words ?? id,
    moveInWords: ({ id, adjuster, amount }) =>
      session.ok ? happeningInWords(session.value.machine, { kind: "moved", id, at: 0, adjuster, amount }) : adjuster,
    runOf: runInWords,
    readingOf: readingInWords,
  };
  const runs = new Map(ordered.flatMap((event) => (event.kind === "run-begun" ? [[event.run, event] as const] : [])));
  const taken = new Map(
    ordered.flatMap((event) => (event.kind === "reading-taken" ? [[event.id, event] as const] : [])),
  );
  function runInWords(run: string): string {
    const begun = runs.get(run);
    if (begun === undefined) return "unknown";
    return [titleOf(begun.check), ...waysOf({ setup: { options: begun.options ?? {} } })].join(", ");
  }
  function readingInWords(id: string): string {
    const reading = taken.get(id);
    return reading === undefined ? "unknown" : `${runInWords(reading.run)}, ${reading.station}`;
  }
  for (const event of ordered)
    if (event.kind === "reading-taken") readings.set(event.run, (readings.get(event.run) ?? 0) + 1);
  for (const event of ordered) {
    const line = inWords(event, readings, words);
    if (line !== "")
      lines.push({
        id: event.id,
        date: event.at.slice(0, 10),
        time: event.at.slice(11, 16),
        by: event.by ?? "",
        words: gone.has(event.id) ? `${line} It is taken back.` : line,
        photograph: event.kind === "photograph-added" ? event.sha256 : null,
        isChange: changes.has(event.id) && !gone.has(event.id),
        takeBack:
          gone.has(event.id) || !(happenings.has(event.kind) || statements.has(event.id))
            ? null
            : event.kind === "machine-described"
              ? "by the owner"
              : "by anybody",
      });
  }
  return lines.reverse();
}

/** What only the machine can say of an event. */
interface LogWords {
  readonly placeOf: (adjuster: string) => string;
  readonly moveInWords: (move: EventOf<"move-made">) => string;
  /** The check, and how it was set up: "Play on turning round, X". */
  readonly runOf: (run: string) => string;
  readonly readingOf: (reading: string) => string;
  readonly describedInWords: (described: EventOf<"machine-described">) => string;
}

function inWords(
  event: LogEvent,
  readings: ReadonlyMap<string, number>,
  { placeOf, moveInWords, runOf, readingOf, describedInWords }: LogWords,
): string {
  switch (event.kind) {
    case "machine-described":
      return describedInWords(event);
    case "machine-renamed":
      return `The machine is named ${event.name}.`;
    case "machine-set-aside":
      return `The machine is set aside: ${event.because}`;
    case "machine-brought-back":
      return "The machine is brought back.";
    case "coordinates-set":
      return `Axes and zero are the user's own${event.tried ? ", tried by a move" : ", not tried yet"}.`;
    case "instrument-added":
      return toolInWords("Instrument", instrumentCalled(event.instrument), event.instrument.putAway);
    case "object-added": {
      const { name, kind, putAway } = event.object;
      return toolInWords("Object", name ?? objectKinds.get(kind)?.name ?? kind, putAway);
    }
    case "run-begun":
      return `${runOf(event.run)}: ${counted(readings.get(event.run) ?? 0, "reading")}.`;
    case "reading-withdrawn":
      return `A reading is withdrawn (${readingOf(event.reading)}): ${event.because}`;
    case "reading-restored":
      return `A withdrawn reading counts again (${readingOf(event.reading)}).`;
    case "run-withdrawn":
      return `A run is withdrawn (${runOf(event.run)}): ${event.because}`;
    case "run-restored":
      return `A withdrawn run counts again (${runOf(event.run)}).`;
    case "run-reinterpreted":
      return `A run is read times ${Number(event.factor.toPrecision(6))} (${runOf(event.run)}): ${event.because}`;
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
    case "move-made":
      return withNote(`Moved: ${moveInWords(event)}`, event.note);
    case "move-undone":
      return "A move is taken back.";
    case "skim-decided":
      if (event.will === null) return "A plan may propose to skim the bed.";
      return event.will ? "The bed will be skimmed." : "The bed stays as it is.";
    case "work-chosen":
      return `The machine is for ${event.kindOfWork ?? "general work"}.`;
    case "stock-set":
      return event.leavesMm === null
        ? "Plans pack with a usual assortment."
        : `Shims to pack with: ${event.leavesMm.length === 0 ? "none" : leavesInWords(event.leavesMm)}.`;
    case "adjuster-locked":
      return `Kept as it is, ${placeOf(event.adjuster)}: ${event.because}`;
    case "adjuster-unlocked":
      return `Free again: ${placeOf(event.adjuster)}.`;
    case "adjuster-changed":
      return `Own figures for ${placeOf(event.adjuster)}${event.available === false ? ": not there, or nobody gets at it" : ""}.`;
    case "happening-withdrawn":
      return `Something noted is taken back: ${event.because}`;
    case "note-added":
      return event.text;
    case "photograph-added":
      return `A photograph: ${event.note ?? event.name}.`.replace("..", ".");
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

function instrumentCalled(own: EventOf<"instrument-added">["instrument"]): string {
  const kind = instrumentKinds.get(own.kind);
  return kind === undefined ? (own.name ?? own.kind) : instrumentName(kind, own as OwnInstrument);
}

function toolInWords(what: string, name: string, putAway: string | undefined): string {
  return putAway === undefined ? `${what}: ${name}.` : `Put away, ${name}: ${putAway}`;
}

function members(names: readonly string[] | undefined): string {
  return names === undefined || names.length === 0 ? "" : ` (${names.join(", ")})`;
}

function withNote(words: string, note: string | undefined): string {
  return note === undefined ? `${words}.` : `${words}: ${note}`;
}
