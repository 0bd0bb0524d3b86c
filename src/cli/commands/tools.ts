import { assess } from "../../app/assess.ts";
import { instrumentKinds, objectKinds } from "../../app/catalog.ts";
import { sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { formatNumber } from "../../core/base/number-format.ts";
import { covarianceTimes } from "../../core/estimation/elimination.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, sayJson, table, toned, wrap } from "../terminal.ts";
import { splitPair } from "./create.ts";

/** The user's instruments and objects, and what the readings have found out about them. */
export function listTools(file: string, options: { json?: boolean }): number {
  const { timeline } = openLogbook(file);
  const { estimate } = assess(timeline);
  const learnt = estimate.problem.variables.flatMap((variable, index) => {
    if (!/^(object|instrument) /.test(variable.id)) return [];
    const unit = new Float64Array(estimate.values.length);
    unit[index] = 1;
    const sd = Math.sqrt(covarianceTimes(estimate.factor, unit)[index]);
    return [
      {
        id: variable.id,
        words: variable.words,
        value: estimate.values[index],
        expandedUncertainty: 2 * sd,
        before: 2 * variable.usualSd,
      },
    ];
  });
  if (options.json) {
    sayJson({ instruments: [...timeline.instruments.values()], objects: [...timeline.objects.values()], learnt });
    return 0;
  }
  const rows = [
    ...[...timeline.instruments.values()].map(({ id, name, family }) => [id, name, family]),
    ...[...timeline.objects.values()].map(({ id, name, family }) => [id, name, family]),
  ];
  say(
    rows.length === 0
      ? "No instrument or object has been added yet: `kilter tool FILE KIND` adds one."
      : table([{ head: "id" }, { head: "name" }, { head: "family" }], rows),
  );
  const known = learnt.filter(({ expandedUncertainty, before }) => expandedUncertainty < 0.9 * before);
  if (known.length > 0) {
    say();
    say(toned("What the readings say of them", "strong"));
    for (const { id, words, value, expandedUncertainty } of known) {
      // A scale is a plain number inside; people think of it in mm over a metre.
      const factor = id.endsWith(": scale") ? 1000 : 1;
      const unit = factor === 1000 ? " mm/m" : "";
      const numbers = `${formatNumber(factor * value, 3, "always")} ± ${formatNumber(factor * expandedUncertainty, 3)}${unit}`;
      say(wrap(`${id.split(":")[0]}: ${words} ${numbers}`, undefined, "  "));
    }
  }
  return 0;
}

/** Adds an instrument or an object of a kind from the catalogue, with the user's own figures where given. */
export function addTool(
  file: string,
  kind: string,
  options: { id?: string; name?: string; serial?: string; set?: readonly string[]; by?: string },
): number {
  const session = openLogbook(file);
  const stamp = new Stamp(hereAndNow, options.by);
  const isInstrument = instrumentKinds.has(kind);
  if (!isInstrument && !objectKinds.has(kind)) {
    const kinds = [...instrumentKinds.keys(), ...objectKinds.keys()];
    throw new BadInput([
      refusal(
        "word-unknown",
        {},
        { word: kind, of: "a kind of tool", listed: kinds.join(", "), meant: nearestWord(kind, kinds) ?? "" },
      ),
    ]);
  }
  const figures = Object.fromEntries((options.set ?? []).map((pair) => figureFromPair(pair)));
  const own = {
    id: options.id ?? kind,
    kind,
    ...(options.name !== undefined && { name: options.name }),
    ...(options.serial !== undefined && { serial: options.serial }),
  };
  const nominal = new Set(["diameterMm", "includedAngleDeg"]);
  const stated = Object.fromEntries(Object.entries(figures).filter(([name]) => !nominal.has(name)));
  const nominals = Object.fromEntries(Object.entries(figures).filter(([name]) => nominal.has(name)));
  const event = isInstrument
    ? stamp.event("instrument-added", {
        instrument: { ...own, ...(Object.keys(figures).length > 0 && { figures }) },
      } as never)
    : stamp.event("object-added", {
        object: { ...own, ...nominals, ...(Object.keys(stated).length > 0 && { stated }) },
      } as never);
  accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  say(
    `${own.id} is in the logbook${isInstrument ? "" : `; a run leans on it with --object ${objectKinds.get(kind)?.family}=${own.id}`}.`,
  );
  return 0;
}

/** "heightMm=97.98±0.02" states a value with its U (k = 2); anything else is a number, a word or JSON. */
function figureFromPair(pair: string): [string, unknown] {
  const [name, text] = splitPair(pair, "--set", "resolutionMm=0.01 or heightMm=97.98±0.02");
  const stated = /^([+-]?[\d.,]+)\s*(?:±|\+-)\s*([\d.,]+)$/.exec(text);
  const number = (part: string) => Number(part.replace(",", "."));
  if (stated) return [name, { value: number(stated[1]), expandedUncertainty: number(stated[2]), coverageFactor: 2 }];
  if (/^[+-]?[\d.,]+$/.test(text)) return [name, number(text)];
  try {
    return [name, JSON.parse(text)];
  } catch {
    return [name, text];
  }
}
