import type { Assessment } from "../../app/assess.ts";
import { instrumentKinds, objectKinds } from "../../app/catalog.ts";
import { ownLeaves } from "../../app/own-leaves.ts";
import { sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { putAway, toolStatements } from "../../app/stated-before.ts";
import { formatNumber, formatTrimmed } from "../../core/base/number-format.ts";
import { type UnitId, unitOf } from "../../core/base/units.ts";
import { covarianceTimes } from "../../core/estimation/elimination.ts";
import type { Instrument, InstrumentFigures, InstrumentKind, LeafSet } from "../../core/instruments/instrument.ts";
import { stackLimits, stacksOf } from "../../core/instruments/leaves.ts";
import { inMarks, leafListInWords, leafSetInWords } from "../../core/instruments/marks.ts";
import {
  type MeasuringObject,
  type ObjectFamily,
  type StatedValue,
  unknownsOfFamily,
} from "../../core/instruments/object.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { assessmentOf, eventsOfMachine, hereAndNow, sessionOf } from "./held.ts";
import type { Answer, Ask } from "./protocol.ts";
import type { LeavesRead, ToolKind, ToolRow, ToolStatement, ToolsPage } from "./protocol-tools.ts";
import { answerFrom } from "./told.ts";

/** The user's instruments and objects with what the readings have found out about them, and the kinds to add. */
export function toolsPage(machine: string | null): Answer<ToolsPage> {
  const kinds = {
    instrumentKinds: [...instrumentKinds.values()]
      .filter(({ family }) => family !== "look")
      .map(
        (kind): ToolKind => ({
          id: kind.id,
          name: kind.name,
          family: kind.family,
          figures: figuresInWords(kind),
          statements: statementsOfInstrument(kind),
          largestStack: leavesOf(kind)?.largestStack ?? null,
        }),
      ),
    objectKinds: [...objectKinds.values()].map(
      (kind): ToolKind => ({
        id: kind.id,
        name: kind.name,
        family: kind.family,
        figures: [],
        statements: statementsOfObject(kind.family),
        largestStack: null,
      }),
    ),
  };
  if (machine === null) return { ok: true, told: [], value: { instruments: [], objects: [], ...kinds } };
  return answerFrom(assessmentOf(machine), (assessment) => {
    const { timeline } = assessment;
    const learnt = learntOf(assessment);
    const said = (id: string) => learnt.filter((line) => line.id === id).map(({ words }) => words);
    const statements = toolStatements(eventsOfMachine(machine));
    const row = (tool: Instrument | MeasuringObject, figures: readonly string[]): ToolRow => {
      const event = statements.get(tool.id);
      const stated = { ...(event?.kind === "instrument-added" ? event.instrument : event?.object) };
      const { id, name, kind, family, putAway: why = null } = tool;
      return { id, name, kind, family, figures, learnt: said(id), putAway: why, stated, texts: textsOf(stated) };
    };
    return {
      instruments: [...timeline.instruments.values()].map((tool) => row(tool, figuresInWords(tool))),
      objects: [...timeline.objects.values()].map((tool) => row(tool, priorsInWords(tool))),
      ...kinds,
    };
  });
}

/** A list of leaves while it is typed. */
export function leafList({ kind, text, largestStack }: Ask<"leafList">): Answer<LeavesRead> {
  const found = instrumentKinds.get(kind) as InstrumentKind;
  const list = text.trim() === "" ? null : text;
  return answerFrom(ownLeaves(found, list, largestStack, { field: "leaves" }), ({ leaves, markedIn = null }) => {
    const unit = markedIn ?? found.markedIn ?? "mm";
    const { thickestMm } = stackLimits(stacksOf(leaves));
    const sums = `stacks up to ${inMarks(thickestMm, unit)} ${unitOf(unit).symbol}`;
    return { leaves, markedIn, words: `Leaves: ${leafSetInWords(leaves.leavesMm, unit)}; ${sums}.` };
  });
}

export function putToolAway({ machine, tool, because, by }: Ask<"putAway">): Answer<readonly LogEvent[]> {
  const session = sessionOf(machine);
  if (!session.ok) return answerFrom(session, () => []);
  const event = putAway(session.value, new Stamp(hereAndNow, by === "" ? undefined : by), tool, because);
  if (!event.ok) return answerFrom(event, () => []);
  return answerFrom(sessionWith(session.value, [event.value]), () => [event.value]);
}

/** What was stated of a tool as its owner would type it, by the names of the fields. */
function textsOf(stated: Readonly<Record<string, unknown>>): Readonly<Record<string, string>> {
  const texts: Record<string, string> = {};
  const kind = instrumentKinds.get(String(stated.kind));
  const all = { ...stated, ...(stated.figures as object), ...(stated.stated as object) };
  for (const [name, value] of Object.entries(all)) {
    if (typeof value === "number") texts[name] = formatTrimmed(value, 6);
    else if (name === "leaves") {
      const unit = (stated.markedIn ?? kind?.markedIn ?? "mm") as UnitId;
      texts[name] = leafListInWords((value as LeafSet).leavesMm, unit);
      texts["leaves stack"] = String((value as LeafSet).largestStack);
    } else if (typeof value === "object" && value !== null && "expandedUncertainty" in value) {
      const { value: middle, expandedUncertainty, coverageFactor } = value as StatedValue;
      texts[name] = formatTrimmed(middle, 6);
      texts[`${name} U`] = formatTrimmed((2 * expandedUncertainty) / coverageFactor, 6);
    }
  }
  return texts;
}

function leavesOf(tool: InstrumentFigures): LeafSet | null {
  return tool.measures === "length" ? (tool.leaves ?? null) : null;
}

/** What the fit knows of a tool better than when it was added. */
function learntOf({ estimate }: Assessment): readonly { readonly id: string; readonly words: string }[] {
  return estimate.problem.variables.flatMap((variable, index) => {
    const named = /^(?:object|instrument) ([^:]*):/.exec(variable.id);
    if (!named) return [];
    const one = new Float64Array(estimate.values.length);
    one[index] = 1;
    const sd = Math.sqrt(covarianceTimes(estimate.factor, one)[index]);
    if (sd >= 0.9 * variable.usualSd) return [];
    const isScale = variable.id.endsWith(": scale");
    const factor = isScale ? 1000 : 1;
    const unit = isScale
      ? "mm/m"
      : variable.id.endsWith(": angle")
        ? "°"
        : /: (?:square|overhang)/.test(variable.id)
          ? "mm in 100 mm"
          : "mm";
    const value = formatNumber(factor * estimate.values[index], 2, "always");
    return [{ id: named[1], words: `${variable.words}: ${value} ± ${formatNumber(2 * factor * sd, 2)} ${unit}` }];
  });
}

function figuresInWords(tool: InstrumentFigures & { readonly markedIn?: UnitId }): readonly string[] {
  const number = (value: number) => formatTrimmed(value, 4);
  switch (tool.measures) {
    case "length":
      return [
        tool.leaves ? leavesInWords(tool.leaves, tool.markedIn ?? "mm") : "",
        tool.rangeMm ? `${number(tool.rangeMm.from)} to ${number(tool.rangeMm.to)} mm` : "",
        tool.resolutionMm === undefined ? "" : `read to ${number(tool.resolutionMm)} mm`,
        `setting and feel u = ${number(tool.settingMm)} mm`,
        tool.maxPermissibleError ? `permissible error ${number(tool.maxPermissibleError.constantMm)} mm` : "",
      ].filter((line) => line !== "");
    case "slope":
      return [
        tool.resolutionMmPerM === undefined ? "" : `read to ${number(tool.resolutionMmPerM)} mm/m`,
        `setting u = ${number(tool.settingMmPerM)} mm/m`,
      ].filter((line) => line !== "");
    case "force":
    case "frequency":
      return [`permissible error ${number(100 * tool.maxPermissibleErrorShare)} %`];
    case "eye":
      return [];
  }
}

function leavesInWords({ leavesMm, largestStack }: LeafSet, unit: UnitId): string {
  const count = leavesMm.length === 1 ? "1 leaf" : `${leavesMm.length} leaves`;
  return `${count}, at most ${largestStack} in a stack: ${leafListInWords(leavesMm, unit)}`;
}

function priorsInWords({ priors, family }: MeasuringObject): readonly string[] {
  return unknownsOfFamily[family].flatMap((unknown) => {
    const prior = priors[unknown];
    if (!prior) return [];
    const unit =
      unknown === "angle" ? "°" : unknown === "square" || unknown.startsWith("overhang") ? "mm in 100 mm" : "mm";
    return [
      `${unknown}: ${formatTrimmed(prior.mean, 3)} ± ${formatTrimmed(2 * prior.sd, 3)} ${unit} before any reading`,
    ];
  });
}

const leavesAsked = (unit: UnitId): ToolStatement => ({
  name: "leaves",
  words: "Which leaves are in it",
  unit: unitOf(unit).symbol,
  form: "leaves",
  into: "figures",
});

function statementsOfInstrument(tool: InstrumentFigures & { readonly markedIn?: UnitId }): readonly ToolStatement[] {
  const figure = (name: string, words: string, unit: string): ToolStatement => ({
    name,
    words,
    unit,
    form: "number",
    into: "figures",
  });
  switch (tool.measures) {
    case "length":
      return [
        tool.leaves ? leavesAsked(tool.markedIn ?? "mm") : figure("resolutionMm", "Read to", "mm"),
        figure("settingMm", "Standard uncertainty of setting and feel", "mm"),
      ];
    case "slope":
      return [
        figure("resolutionMmPerM", "Read to", "mm/m"),
        figure("settingMmPerM", "Standard uncertainty of setting", "mm/m"),
      ];
    default:
      return [];
  }
}

const stated = (name: string, words: string, unit: string): ToolStatement => ({
  name,
  words,
  unit,
  form: "stated",
  into: "stated",
});
const nominal = (name: string, words: string, unit: string): ToolStatement => ({
  name,
  words,
  unit,
  form: "number",
  into: "nominal",
});

function statementsOfObject(family: ObjectFamily): readonly ToolStatement[] {
  switch (family) {
    case "square":
      return [stated("squareMmPer100", "How far its blade stands from 90°, + wider", "mm in 100 mm")];
    case "straightedge":
    case "glass plate":
      return [stated("bowMm", "Bow at its middle, + bulging outwards", "mm")];
    case "block":
      return [
        stated("heightMm", "Height", "mm"),
        stated("overhangSideMmPer100", "Overhang to the right", "mm in 100 mm"),
        stated("overhangForeMmPer100", "Overhang to the rear", "mm in 100 mm"),
      ];
    case "cutter":
      return [
        nominal("diameterMm", "Diameter written on it", "mm"),
        nominal("includedAngleDeg", "Angle written on it, of a V", "°"),
        stated("effectiveDiameterMm", "Width that it really cuts", "mm"),
      ];
    default:
      return [];
  }
}
