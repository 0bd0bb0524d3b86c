import { instrumentKinds, objectKinds } from "../../app/catalog.ts";
import { Stamp } from "../../app/stamp.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import type { MachineDescription } from "../../core/machine/description.ts";
import { beginLogbook } from "../logbook-file.ts";
import { BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { say } from "../terminal.ts";

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
      const listed = [...instrumentKinds.keys(), ...objectKinds.keys()].join(", ");
      throw new BadInput([refusal("word-unknown", {}, { word: kind, of: "--tool", listed, meant: "" })]);
    }
  }
  beginLogbook(file, events);
  say(
    `${machine.name}: ${machine.travelMm.x} × ${machine.travelMm.y} × ${machine.travelMm.z} of travel, ${machine.layout}.`,
  );
  say(
    `The logbook is ${file}. Next: \`kilter checks ${file}\` lists what can be measured, the fit-to-measure round first.`,
  );
  return 0;
}

function machineFromOptions(options: CreateOptions): MachineDescription {
  const [x, y, z] = numbers(options.travel, 3, "--travel", "600x500x70");
  const bridge = options.layout === "fixed-bridge";
  const [left, right] =
    options.rails === undefined
      ? [bridge ? -60 : -90, x + (bridge ? 60 : 90)]
      : numbers(options.rails, 2, "--rails", "-90x690");
  const single = (text: string | undefined, name: string, usual: number) =>
    text === undefined ? usual : numbers(text, 1, name, String(usual))[0];
  const beamCentreMm = single(options.beamHeight, "--beam-height", z + 35);
  const details: Record<string, unknown> = {};
  if (options.drives !== undefined) details.drives = drivesFrom(options.drives);
  if (options.yMotors !== undefined) details.motorsOnY = single(options.yMotors, "--y-motors", 2);
  for (const pair of options.set ?? []) {
    const [key, text] = splitPair(pair, "--set", "railContactMm=-25");
    details[key] = /^-?[\d.]+$/.test(text) ? Number(text) : parseJson(text);
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

/** "600x500x70" as numbers; a comma as decimal mark is accepted. */
export function numbers(text: string, count: number, of: string, example: string): number[] {
  const parts = text.split(/[x×]/).map((part) => Number(part.trim().replace(",", ".").replace("−", "-")));
  if (parts.length !== count || parts.some((part) => !Number.isFinite(part))) {
    throw new BadInput([refusal("word-form", {}, { word: text, of, expected: example })]);
  }
  return parts;
}

export function splitPair(text: string, of: string, example: string): [string, string] {
  const at = text.indexOf("=");
  if (at < 1) throw new BadInput([refusal("word-form", {}, { word: text, of, expected: example })]);
  return [text.slice(0, at), text.slice(at + 1)];
}
