import { instrumentKinds, objectKinds } from "../src/app/catalog.ts";
import { kindsOfWork } from "../src/app/kinds-of-work.ts";
import { formatTrimmed } from "../src/core/base/number-format.ts";
import { type UnitId, unitIds, unitOf } from "../src/core/base/units.ts";
import { checks } from "../src/core/checks/catalogue.ts";
import type { Check, CheckOption, Station } from "../src/core/checks/check.ts";
import { findingsOf } from "../src/core/findings/catalogue.ts";
import { findingUnitOf } from "../src/core/findings/finding.ts";
import { adjustersOf } from "../src/core/machine/adjusters/catalogue.ts";
import { directionOf } from "../src/core/machine/adjusters/sentence.ts";
import type { LayoutId } from "../src/core/machine/description.ts";
import { type Machine, machineFromDescription } from "../src/core/machine/machine.ts";
import { demandKinds } from "../src/core/work/catalogue.ts";
import type { DemandSize } from "../src/core/work/demand-kind.ts";

/** The worked machine: stations are listed as they fall on it. */
function workedMachine(layout: LayoutId): Machine {
  const gantry = layout === "moving-gantry";
  return machineFromDescription({
    name: "worked machine",
    layout,
    travelMm: gantry ? { x: 600, y: 500, z: 70 } : { x: 400, y: 350, z: 80 },
    railPlanesMm: gantry ? { left: -90, right: 690 } : { left: -60, right: 460 },
    wheelbaseMm: gantry ? 140 : 200,
    beamCentreMm: gantry ? 105 : 125,
    toolFromBeamMm: -75,
  });
}

const gantry = workedMachine("moving-gantry");
const bridge = workedMachine("fixed-bridge");

/** What stands between `<!-- name:begin -->` and `<!-- name:end -->` of the guide to the logbook, by name. */
export const guideSections: Readonly<Record<string, () => string>> = {
  checks: () => checks.map(blockOfCheck).join("\n\n"),
  instruments: () =>
    table(
      ["kind", "what it is", "family", "marked in"],
      [
        ...Array.from(instrumentKinds.values(), ({ id, name, family, markedIn }) => [
          code(id),
          name,
          family,
          markedIn ?? "–",
        ]),
      ],
    ),
  objects: () =>
    table(
      ["kind", "what it is", "family"],
      [...Array.from(objectKinds.values(), ({ id, name, family }) => [code(id), name, code(family)])],
    ),
  units: () =>
    table(
      ["unit", "of", "one is"],
      [...unitIds.filter(isOfReadings).map((id) => [code(id), unitOf(id).quantity, sizeOfUnit(id)])],
    ),
  adjusters: () =>
    byLayout(
      (machine) =>
        adjustersOf(machine)
          .filter(({ kind }) => kind !== "skim")
          .map((adjuster) => {
            const { id, unit, words, range, sd, minutes, kind } = adjuster;
            const plus = directionOf(adjuster, 1);
            return [
              code(id),
              unit || "–",
              plus ? `${words}; plus: ${adjuster.moves?.words} ${plus}` : words,
              kind === "assign" ? "–" : `${formatTrimmed(range[0], 2)} … ${formatTrimmed(range[1], 2)}`,
              kind === "assign" ? "–" : formatTrimmed(sd, 3),
              String(minutes),
            ];
          }),
      ["adjuster", "amount in", "what it is", "range", "left to chance", "minutes"],
    ),
  findings: () =>
    byLayout(
      (machine) => findingsOf(machine).map((finding) => [code(finding.id), findingUnitOf(finding), finding.title]),
      ["finding", "limit in", "what it is"],
    ),
  demands: () =>
    table(
      ["kind of demand", "limit in", "what it is", "sizes"],
      demandKinds.map(({ id, unit, words, sizes }) => [
        code(id),
        unit,
        words,
        sizes.map(sizeOfDemand).join("; ") || "–",
      ]),
    ),
  work: () => `Kinds of work: ${[...kindsOfWork.keys()].map(code).join(", ")}.`,
  modes: () =>
    byLayout(
      (machine) => machine.modes.map(({ id, unit, words, plus }) => [code(id), unit, `${words}; plus: ${plus}`]),
      ["mode", "in", "what it is"],
    ),
};

/** The guide with every generated section made anew; everything else stays as it is. */
export function withFreshSections(guide: string): string {
  return Object.entries(guideSections).reduce((text, [name, make]) => {
    const [begin, end] = [`<!-- ${name}:begin -->`, `<!-- ${name}:end -->`];
    const [from, to] = [text.indexOf(begin), text.indexOf(end)];
    if (from < 0 || to < from) throw new Error(`the guide has no section ${name}`);
    return `${text.slice(0, from + begin.length)}\n${make()}\n${text.slice(to)}`;
  }, guide);
}

function blockOfCheck(check: Check): string {
  const { id, words, quantity, options, instruments } = check;
  const lines = [
    `#### \`${id}\``,
    `${words.title}. ${words.sign}`,
    "",
    `- Reading: ${readingOf(check)}, usually by ${instruments.map((family) => (family === "look" ? "a look" : family)).join(", ")}.`,
  ];
  if (check.layouts.length === 1) lines.push(`- Only on the layout \`${check.layouts[0]}\`.`);
  const roles = check.kind === "geometric" ? check.roles : [];
  if (roles.length > 0) lines.push(`- Objects: ${roles.map(code).join(", ")}.`);
  for (const option of options) lines.push(`- Choice ${code(option.key)}: ${answersOf(option)}`);
  lines.push(`- Stations: ${stationsOf(check)}.`);
  if (check.kind === "geometric" && check.stationAt && quantity !== "verdict")
    lines.push("- A place of your own may stand for a station.");
  return lines.join("\n");
}

function readingOf(check: Check): string {
  const { quantity, entries } = check;
  if (quantity === "verdict") return "`passed`";
  const unit = { length: "mm", slope: "mm/m", force: "N", frequency: "Hz", count: "no unit" }[quantity];
  const nominal = stationsOn(check)[0].stations.some((station) => station.nominal !== undefined);
  const double = entries === undefined ? "" : `, \`first\` the ${entries[0]} and \`second\` the ${entries[1]}`;
  return `${quantity === "count" ? "a count" : `a ${quantity}, such as in ${code(unit)}`}${double}${nominal ? ", the whole of it: the nominal is taken off later" : ""}`;
}

function answersOf({ answers, number, usual }: CheckOption): string {
  const value = typeof usual === "function" ? usual(gantry) : usual;
  const taken = typeof value === "number" ? String(Math.round(value * 10) / 10) : code(value);
  const possible = number
    ? `a number from ${number.from} to ${number.to} ${number.unit}`
    : (answers ?? []).map(code).join(" or ");
  return `${possible}; ${taken} when it is not stated.`;
}

function stationsOn(
  check: Check,
): readonly [
  { layout: LayoutId; stations: readonly Station[] },
  ...{ layout: LayoutId; stations: readonly Station[] }[],
] {
  const [first, ...others] = check.layouts.map((layout) => {
    const machine = layout === "moving-gantry" ? gantry : bridge;
    return { layout, stations: check.stations({ machine, options: {}, instrument: null }) };
  });
  return [first!, ...others];
}

function stationsOf(check: Check): string {
  const [first, second] = stationsOn(check);
  const parts = [listed(first.stations)];
  if (second && keysOf(second.stations) !== keysOf(first.stations)) {
    parts.push(`on the layout \`${second.layout}\` ${listed(second.stations)}`);
  }
  const machine = first.layout === "moving-gantry" ? gantry : bridge;
  for (const { key, answers = [] } of check.options) {
    for (const answer of answers) {
      const stations = check.stations({ machine, options: { [key]: answer }, instrument: null });
      const isAnother = keysOf(stations) !== keysOf(first.stations);
      if (isAnother) parts.push(`with ${code(key)} ${code(answer)} ${listed(stations)}`);
    }
  }
  return parts.join("; ");
}

function keysOf(stations: readonly Station[]): string {
  return stations.map(({ key }) => key).join("\n");
}

/** Keys that do not say where they are get the words for it, as they fall on the worked machine. */
function listed(stations: readonly Station[]): string {
  return stations
    .map(({ key, words }) => (/\d/.test(key) && words !== key ? `${code(key)} (${words})` : code(key)))
    .join(", ");
}

/** Rows that both layouts have come first, those of one only under its name. */
function byLayout(rowsOf: (machine: Machine) => readonly (readonly string[])[], headings: readonly string[]): string {
  const [ofGantry, ofBridge] = [rowsOf(gantry), rowsOf(bridge)];
  const ids = (rows: readonly (readonly string[])[]) => new Set(rows.map(([id]) => id));
  const [gantryIds, bridgeIds] = [ids(ofGantry), ids(ofBridge)];
  const rows = [
    ...ofGantry.map((row) => [...row, bridgeIds.has(row[0]) ? "both" : code("moving-gantry")]),
    ...ofBridge.filter(([id]) => !gantryIds.has(id)).map((row) => [...row, code("fixed-bridge")]),
  ];
  return table([...headings, "layout"], rows);
}

function sizeOfDemand(size: DemandSize): string {
  const possible = "answers" in size ? size.answers.map(code).join(" or ") : `${size.from} to ${size.to} ${size.unit}`;
  return `${code(size.key)} (${size.words.replace(/,$/, "")}): ${possible}`;
}

function isOfReadings(id: UnitId): boolean {
  return ["length", "slope", "force", "frequency"].includes(unitOf(id).quantity);
}

function sizeOfUnit(id: UnitId): string {
  const { numerator, denominator, quantity } = unitOf(id);
  const core = { length: "mm", slope: "mm/m", force: "N", frequency: "Hz", temperature: "°C", share: "" }[quantity];
  return `${Number((numerator / denominator).toPrecision(9))} ${core}`;
}

function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
  return [line(headings), line(headings.map(() => "---")), ...rows.map(line)].join("\n");
}

function code(text: string): string {
  return `\`${text}\``;
}
