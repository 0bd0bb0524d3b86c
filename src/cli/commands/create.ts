import { instrumentKinds, objectKinds } from "../../app/catalog.ts";
import { Stamp } from "../../app/stamp.ts";
import { numberOrNull } from "../../app/typed-number.ts";
import { type Diagnostic, refusal } from "../../core/base/diagnostic.ts";
import type { MachineDescription } from "../../core/machine/description.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { beginLogbook } from "../logbook-file.ts";
import { BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, wrap } from "../terminal.ts";
import { numberFrom, numbersFrom, pairFrom } from "../typed-words.ts";

export interface CreateOptions {
  readonly name: string;
  readonly layout: string;
  readonly travel: string;
  readonly rails?: string;
  readonly wheelbase?: string;
  readonly beamHeight?: string;
  readonly toolFromBeam?: string;
  readonly set?: readonly string[];
  readonly drives?: string;
  readonly yMotors?: string;
  readonly tool?: readonly string[];
  readonly by?: string;
}

/** Begins a logbook with the machine, and the tools that most people own. */
export function createLogbook(file: string, options: CreateOptions): number {
  const stamp = new Stamp(hereAndNow, options.by);
  const machine = machineFromOptions(options);
  const events = [stamp.event("machine-described", { machine } as never)];
  for (const kind of options.tool ?? []) {
    if (instrumentKinds.has(kind))
      events.push(stamp.event("instrument-added", { instrument: { id: kind, kind } } as never) as never);
    else if (objectKinds.has(kind))
      events.push(stamp.event("object-added", { object: { id: kind, kind } } as never) as never);
    else {
      throw new BadInput([kindNotThere(kind)]);
    }
  }
  beginLogbook(file, events);
  const { x, y, z } = machine.travelMm;
  say(wrap(`${machine.name}: ${x} × ${y} × ${z} mm of travel, ${machine.layout}. The logbook is ${file}.`));
  const taken = takenAsUsual(machine, options);
  if (taken.length > 0) {
    say(wrap(`Taken as usual, in mm: ${taken.join(", ")}. Where yours is otherwise, begin again with these options.`));
  }
  say(wrap(`Next: \`kilter checks ${file}\` lists what can be measured, the fit-to-measure round first.`));
  return 0;
}

/** What the user has not stated, as it was taken. */
function takenAsUsual(machine: MachineDescription, options: CreateOptions): string[] {
  const number = (value: number) => String(value).replace("-", "−");
  const { left, right } = machine.railPlanesMm;
  return [
    ...(options.rails === undefined ? [`--rails ${number(left)}×${number(right)}`] : []),
    ...(options.wheelbase === undefined ? [`--wheelbase ${number(machine.wheelbaseMm)}`] : []),
    ...(options.beamHeight === undefined ? [`--beam-height ${number(machine.beamCentreMm)}`] : []),
    ...(options.toolFromBeam === undefined ? [`--tool-from-beam ${number(machine.toolFromBeamMm)}`] : []),
  ];
}

/** A refusal for a kind of tool that is not in the catalogue. */
export function kindNotThere(kind: string): Diagnostic {
  const kinds = [...instrumentKinds.keys(), ...objectKinds.keys()];
  // "feeler" for "feeler-leaves": the beginning of a name is how people guess it.
  const meant = kinds.find((candidate) => candidate.startsWith(kind) && kind !== "") ?? nearestWord(kind, kinds) ?? "";
  return refusal("word-unknown", {}, { word: kind, of: "a kind of tool", listed: kinds.join(", "), meant });
}

function machineFromOptions(options: CreateOptions): MachineDescription {
  const [x, y, z] = numbersFrom(options.travel, 3, "--travel", "600x500x70");
  const bridge = options.layout === "fixed-bridge";
  const [left, right] =
    options.rails === undefined
      ? [bridge ? -60 : -90, x + (bridge ? 60 : 90)]
      : numbersFrom(options.rails, 2, "--rails", "-90x690");
  const single = (text: string | undefined, name: string, usual: number) =>
    text === undefined ? usual : numberFrom(text, name, `a number such as ${usual}`);
  const beamCentreMm = single(options.beamHeight, "--beam-height", z + 35);
  const details: Record<string, unknown> = {};
  if (options.drives !== undefined) details.drives = drivesFrom(options.drives);
  if (options.yMotors !== undefined) details.motorsOnY = single(options.yMotors, "--y-motors", 2);
  for (const pair of options.set ?? []) {
    const [key, text] = pairFrom(pair, "--set", "railContactMm=-25");
    details[key] = numberOrNull(text) ?? parseJson(text);
  }
  return {
    name: options.name,
    layout: options.layout as MachineDescription["layout"],
    travelMm: { x, y, z },
    railPlanesMm: { left, right },
    wheelbaseMm: single(options.wheelbase, "--wheelbase", bridge ? 200 : 140),
    beamCentreMm,
    toolFromBeamMm: single(options.toolFromBeam, "--tool-from-beam", -75),
    ...(Object.keys(details).length > 0 && { details: details as MachineDescription["details"] }),
  };
}

function drivesFrom(text: string) {
  const kinds = text.split(",");
  if (kinds.length !== 3)
    throw new BadInput([refusal("word-form", {}, { word: text, of: "--drives", expected: "belt,belt,screw" })]);
  return Object.fromEntries(["x", "y", "z"].map((axis, i) => [axis, { kind: kinds[i].trim() }]));
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
