import type { Assessment } from "../../app/assess.ts";
import { instrumentKinds, objectKinds } from "../../app/catalog.ts";
import { formatNumber, formatTrimmed } from "../../core/base/number-format.ts";
import { covarianceTimes } from "../../core/estimation/elimination.ts";
import type { InstrumentFigures } from "../../core/instruments/instrument.ts";
import { type MeasuringObject, type ObjectFamily, unknownsOfFamily } from "../../core/instruments/object.ts";
import { assessmentOf } from "./held.ts";
import type { Answer, ToolKind, ToolStatement, ToolsPage } from "./protocol.ts";
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
        }),
      ),
    objectKinds: [...objectKinds.values()].map(
      (kind): ToolKind => ({
        id: kind.id,
        name: kind.name,
        family: kind.family,
        figures: [],
        statements: statementsOfObject(kind.family),
      }),
    ),
  };
  if (machine === null) return { ok: true, told: [], value: { instruments: [], objects: [], ...kinds } };
  return answerFrom(assessmentOf(machine), (assessment) => {
    const { timeline } = assessment;
    const learnt = learntOf(assessment);
    const said = (id: string) => learnt.filter((line) => line.id === id).map(({ words }) => words);
    return {
      instruments: [...timeline.instruments.values()].map((tool) => ({
        id: tool.id,
        name: tool.name,
        kind: tool.kind,
        family: tool.family,
        figures: figuresInWords(tool),
        learnt: said(tool.id),
      })),
      objects: [...timeline.objects.values()].map((tool) => ({
        id: tool.id,
        name: tool.name,
        kind: tool.kind,
        family: tool.family,
        figures: priorsInWords(tool),
        learnt: said(tool.id),
      })),
      ...kinds,
    };
  });
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

function figuresInWords(tool: InstrumentFigures): readonly string[] {
  const number = (value: number) => formatTrimmed(value, 4);
  switch (tool.measures) {
    case "length":
      return [
        tool.leaves ? `${tool.leaves.leavesMm.length} leaves, at most ${tool.leaves.largestStack} in a stack` : "",
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

function statementsOfInstrument(tool: InstrumentFigures): readonly ToolStatement[] {
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
        ...(tool.leaves ? [] : [figure("resolutionMm", "Read to", "mm")]),
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
