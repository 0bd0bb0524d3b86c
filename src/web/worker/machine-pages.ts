import type { Assessment } from "../../app/assess.ts";
import { dateOf, drawnMachine, readingsInWords, shapeNumbers } from "../../app/drawn-machine.ts";
import { kindsOfWork, usualKindOfWork } from "../../app/kinds-of-work.ts";
import { newSession } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { machinePlan, machineSheet, machineStrip } from "../../core/drawing/machine-sheet.ts";
import type { ProjectionAngle } from "../../core/drawing/marks.ts";
import { headlineMeaning, headlineOf } from "../../core/findings/headline.ts";
import { adjustersForTimeline } from "../../core/fit/hand-scatter.ts";
import { inUse } from "../../core/instruments/instrument.ts";
import type { MachineDescription } from "../../core/machine/description.ts";
import { machineFromDescription } from "../../core/machine/machine.ts";
import type { UserCoordinates } from "../../core/machine/user-coordinates.ts";
import { eventsOf, inOrderOfTime } from "../../logbook/event-order.ts";
import { axesPicture } from "./axes-picture.ts";
import { counted } from "./counted.ts";
import { eightNumbersPicture } from "./eight-numbers-picture.ts";
import {
  assessmentOf,
  eventsOfMachine,
  hereAndNow,
  isDemonstration,
  labelOf,
  plannedThings,
  sessionOf,
} from "./held.ts";
import { nextThing } from "./next-thing.ts";
import type { Answer, DescriptionPage, Drawn, Overview } from "./protocol.ts";
import { answerFrom, toldFrom } from "./told.ts";

/** One machine with its drawing and a sentence for every stage of the loop. */
export function overview(machine: string, projection: ProjectionAngle): Answer<Overview> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const { machine: body, estimate, timeline, findings } = assessment;
    const read = timeline.readings.length > 0;
    const adjusters = adjustersForTimeline(body, timeline).filter(({ available }) => available);
    const sheet = {
      machine: body,
      state: read ? estimate.state : null,
      readings: readingsInWords(assessment),
      date: dateOf(assessment),
    };
    return {
      ...labelOf(machine),
      demonstration: isDemonstration(machine),
      headline: read ? headlineOf(findings) : "Nothing has been measured yet: the drawing shows it as it should be.",
      meaning: read ? headlineMeaning(findings) : "",
      // The drawing of a sheet and the page's are one; only the projection is the reader's own.
      sheet: read
        ? drawnMachine(assessment, "page", projection, adjusters)
        : machineSheet({ ...sheet, projection, adjusters }, "page"),
      plan: machinePlan(sheet, "page"),
      shown: read ? shapeNumbers(assessment) : [],
      next: nextThing(assessment, plannedThings(machine)),
      stages: stageSentences(machine, assessment),
    };
  });
}

function stageSentences(machine: string, assessment: Assessment): Readonly<Record<string, string>> {
  const { timeline, findings } = assessment;
  const runs = timeline.runs.filter(({ withdrawn }) => withdrawn === null).length;
  const of = (verdict: string) => findings.filter((result) => result.verdict === verdict).length;
  const first = inOrderOfTime(eventsOfMachine(machine))[0];
  const { x, y, z } = timeline.machine.travelMm;
  return {
    next: nextThing(assessment, plannedThings(machine))?.title ?? "nothing to do now",
    measure: runs === 0 ? "nothing measured yet" : `${counted(runs, "run")}, last read on ${dateOf(assessment)}`,
    findings:
      timeline.readings.length === 0
        ? "none before the first reading"
        : `${of("out")} out, ${of("not known yet")} not known yet, ${of("within")} within`,
    moves:
      plannedThings(machine)?.stage ??
      (timeline.readings.length === 0 ? "none before the first reading" : "what to move, and where to stop"),
    work: `for ${kindOfWorkInWords(timeline)}: what it comes out like`,
    readings: timeline.readings.length === 0 ? "none yet" : readingsInWords(assessment),
    history: first ? `since ${new Date(first.at).toISOString().slice(0, 10)}` : "",
    tools: `${counted(inUse(timeline.instruments.values()).length, "instrument")}, ${counted(inUse(timeline.objects.values()).length, "object")}`,
    description: `${x} × ${y} × ${z} mm, ${timeline.machine.layout.replace("-", " ")}`,
  };
}

function kindOfWorkInWords({ wishes }: Assessment["timeline"]): string {
  const { name } = (wishes.kindOfWork === null ? undefined : kindsOfWork.get(wishes.kindOfWork)) ?? usualKindOfWork;
  return `${name[0].toLowerCase()}${name.slice(1)}`;
}

export function descriptionPage(machine: string): Answer<DescriptionPage> {
  return answerFrom(sessionOf(machine), ({ timeline }) => {
    const latest = eventsOf(inOrderOfTime(eventsOfMachine(machine)), "machine-described").at(-1);
    const described = (latest?.event.machine ?? timeline.machine) as MachineDescription;
    return {
      machine: { ...described, name: timeline.machine.name },
      coordinates: timeline.coordinates,
      setAside: labelOf(machine).setAside,
    };
  });
}

/** A description drawn as it is typed, with what its numbers say against one another. */
export function drawDescription(
  description: MachineDescription,
  coordinates: UserCoordinates | null,
  projection: ProjectionAngle,
): Drawn {
  const event = new Stamp(hereAndNow).event("machine-described", { machine: description } as never);
  const session = newSession("", [event]);
  const told = toldFrom(session.diagnostics);
  if (!session.ok) return { strips: { plan: "", front: "" }, plan: "", sheet: "", axes: "", numbers: "", told };
  const machine = machineFromDescription(session.value.timeline.machine);
  const sheet = { machine, state: null, projection, readings: "left out", date: "as described" };
  const axes = coordinates === null ? "" : axesPicture(machine, coordinates);
  const numbers = eightNumbersPicture(machine);
  const strips = { plan: machineStrip(sheet, "plan", "page"), front: machineStrip(sheet, "front", "page") };
  return { strips, plan: machinePlan(sheet, "page"), sheet: machineSheet(sheet, "page"), axes, numbers, told };
}
