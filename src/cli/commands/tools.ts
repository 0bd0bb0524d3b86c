import { assess } from "../../app/assess.ts";
import { instrumentKinds, objectKinds } from "../../app/catalog.ts";
import { type OwnLeaves, ownLeaves } from "../../app/own-leaves.ts";
import { sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { putAway } from "../../app/stated-before.ts";
import { numberOrNull } from "../../app/typed-number.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { formatNumber } from "../../core/base/number-format.ts";
import { covarianceTimes } from "../../core/estimation/elimination.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, sayJson, table, toned, wrap } from "../terminal.ts";
import { numberFrom, pairFrom } from "../typed-words.ts";
import { kindNotThere } from "./create.ts";

/** The user's instruments and objects, and what the readings have found out about them. */
export function listTools(file: string | undefined, options: { json?: boolean }): number {
  if (file === undefined) return listKinds(options.json ?? false);
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
    ...[...timeline.instruments.values(), ...timeline.objects.values()].map(({ id, name, family, putAway: why }) => [
      id,
      why === undefined ? name : `put away: ${name}`,
      family,
    ]),
  ];
  say(
    rows.length === 0
      ? "No instrument or object has been added yet: `kilter tool FILE KIND` adds one."
      : table([{ head: "id" }, { head: "name", gives: true }, { head: "family" }], rows),
  );
  const known = learnt.filter(({ expandedUncertainty, before }) => expandedUncertainty < 0.9 * before);
  if (known.length > 0) {
    say();
    say(toned("What the readings say of them", "strong"));
    for (const { id, words, value, expandedUncertainty } of known) {
      // A scale is a plain number inside; people think of it in mm over a metre.
      const isScale = id.endsWith(": scale");
      const factor = isScale ? 1000 : 1;
      const unit = isScale ? " mm/m" : unitOfUnknown(id);
      const numbers = `${formatNumber(factor * value, 2, "always")} ± ${formatNumber(factor * expandedUncertainty, 2)}${unit}`;
      say(wrap(`${id.replace(/^(?:object|instrument) ([^:]*):.*$/, "$1")}: ${words}, ${numbers}`, undefined, "  "));
    }
  }
  return 0;
}

/** The kinds that can be added, with what stands in the catalogue about them. */
function listKinds(asJson: boolean): number {
  const kinds = [...instrumentKinds.values(), ...objectKinds.values()];
  if (asJson) sayJson(kinds);
  else {
    say(
      table(
        [{ head: "kind" }, { head: "what it is", gives: true }, { head: "family" }],
        kinds.map(({ id, name, family }) => [id, name, family]),
      ),
    );
    say();
    say("`kilter tool FILE KIND` adds one that you own to a logbook.");
  }
  return 0;
}

/** The unit of what an object carries unknown: a square's angle counts over 100 mm of its blade, the rest are lengths. */
function unitOfUnknown(id: string): string {
  if (id.endsWith(": angle")) return "°";
  return /: (?:square|overhang)/.test(id) ? " mm in 100 mm" : " mm";
}

/** Adds an instrument or an object of a kind from the catalogue, with the user's own figures where given. */
export function addTool(
  file: string,
  kind: string,
  options: {
    id?: string;
    name?: string;
    serial?: string;
    leaves?: string;
    stack?: string;
    set?: readonly string[];
    by?: string;
  },
): number {
  const session = openLogbook(file);
  const stamp = new Stamp(hereAndNow, options.by);
  const isInstrument = instrumentKinds.has(kind);
  if (!isInstrument && !objectKinds.has(kind)) {
    throw new BadInput([kindNotThere(kind)]);
  }
  const { leaves, markedIn } = leavesGiven(kind, options);
  const figures = {
    ...Object.fromEntries((options.set ?? []).map((pair) => figureFromPair(pair))),
    ...(leaves && { leaves }),
  };
  const own = {
    id: options.id ?? kind,
    kind,
    ...(markedIn && { markedIn }),
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
  const use = isInstrument ? `--with ${own.id}` : `--object ${objectKinds.get(kind)?.family}=${own.id}`;
  say(wrap(`${own.id} is in the logbook. A run names it with ${use}.`));
  return 0;
}

/** The leaves of a set that is not the kind's; nothing where none are listed. */
function leavesGiven(kind: string, options: { leaves?: string; stack?: string }): Partial<OwnLeaves> {
  const stack = options.stack === undefined ? null : numberFrom(options.stack, "--stack", "a whole number from 1 to 5");
  if (stack !== null && ![1, 2, 3, 4, 5].includes(stack)) {
    const data = { word: options.stack ?? "", of: "--stack", expected: "a whole number from 1 to 5" };
    throw new BadInput([refusal("word-form", {}, data)]);
  }
  if (options.leaves === undefined && stack === null) return {};
  const found = instrumentKinds.get(kind);
  if (!found) {
    const data = { figure: "leaves", name: objectKinds.get(kind)?.name ?? kind, expected: "" };
    throw new BadInput([refusal("figure-of-other-instrument", {}, data)]);
  }
  return accepted(ownLeaves(found, options.leaves ?? null, stack, { field: "--leaves" }));
}

/** Nothing new is read with a tool that is put away; with `back` it is taken out again. */
export function putToolAway(
  file: string,
  tool: string,
  options: { because?: string; back?: boolean; by?: string },
): number {
  const session = openLogbook(file);
  const because = options.back ? null : (options.because ?? "not used any more");
  const event = accepted(putAway(session, new Stamp(hereAndNow, options.by), tool, because));
  accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  say(
    wrap(
      because === null
        ? `${tool} is among your tools again.`
        : `${tool} is put away: no check and no plan asks for it. What was read with it counts; --back takes it out again.`,
    ),
  );
  return 0;
}

/** "heightMm=97.98±0.02" states a value with its U (k = 2); anything else is a number, a word or JSON. */
function figureFromPair(pair: string): [string, unknown] {
  const example = "resolutionMm=0.01 or heightMm=97.98±0.02";
  const [name, text] = pairFrom(pair, "--set", example);
  const stated = /^([+\-−]?[\d.,]+)\s*(?:±|\+-)\s*([\d.,]+)$/.exec(text);
  const number = (part: string) => numberFrom(part, "--set", example);
  if (stated) return [name, { value: number(stated[1]), expandedUncertainty: number(stated[2]), coverageFactor: 2 }];
  const plain = numberOrNull(text);
  if (plain !== null) return [name, plain];
  try {
    return [name, JSON.parse(text)];
  } catch {
    return [name, text];
  }
}
