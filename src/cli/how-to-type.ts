import { kindForFamily } from "../app/catalog.ts";
import type { Session } from "../app/session.ts";
import { type Check, type Setup, type Station, suitingInstruments } from "../core/checks/check.ts";
import { type Instrument, type InstrumentFamily, inUse } from "../core/instruments/instrument.ts";
import { columns, wrap } from "./terminal.ts";

/** The command that takes a check's readings, with the user's own tools as far as they are known, ready to be copied. */
export function howToType(check: Check, setup: Setup, session: Pick<Session, "timeline"> | null, file: string): string {
  const instrument = setup.instrument ?? ownInstrumentFor(check, session, setup.options);
  const families = suitingInstruments(check, setup.options);
  const isVerdict = check.quantity === "verdict";
  // How long a length can be read decides where some stations are.
  const stations = check.stations({ ...setup, instrument });
  const readings = exampleReadings(
    check,
    stations.slice(0, 3),
    isVerdict ? undefined : (instrument?.family ?? families[0]),
  );
  const objects = inUse(session?.timeline.objects.values() ?? []);
  const roles = (check.kind === "geometric" ? check.roles : []).flatMap((role) => {
    const own = objects.find(({ family }) => family === role);
    return own ? [`--object ${wordInShell(`${role}=${own.id}`)}`] : [];
  });
  const choices = Object.entries(setup.options).map(([key, value]) => `--set ${wordInShell(`${key}=${value}`)}`);
  const tool = isVerdict ? [] : [`--with ${instrument?.id ?? "TOOL"}`];
  const command = commandOverLines([
    "kilter read",
    wordInShell(file),
    check.id,
    ...readings,
    ...tool,
    ...roles,
    ...choices,
  ]);
  const rest = stations.length > readings.length ? ", and the rest after them" : "";
  const lines = [wrap(`Readings are typed in the order of the stations${rest}, or as station=reading:`), command];
  if (!isVerdict && !instrument) {
    const kinds = families.map((family) => kindForFamily(family).id);
    lines.push(wrap(`TOOL is one that \`kilter tool FILE KIND\` has added; usual kinds here: ${kinds.join(", ")}.`));
  }
  return lines.join("\n");
}

/** The first of the user's instruments that the check is usually read with. */
export function ownInstrumentFor(
  check: Check,
  session: Pick<Session, "timeline"> | null,
  answers: Setup["options"] = {},
): Instrument | null {
  const own = inUse(session?.timeline.instruments.values() ?? []);
  for (const family of suitingInstruments(check, answers)) {
    const found = own.find((instrument) => instrument.family === family);
    if (found) return found;
  }
  return null;
}

/** Readings of the first stations as they may look; a length that is commanded is not far from what it should be. */
function exampleReadings(
  check: Check,
  stations: readonly Station[],
  family: InstrumentFamily | undefined,
): readonly string[] {
  if (family === undefined) return stations.map(() => "yes");
  const isFeeler = family === "feeler";
  const one = isFeeler ? "0.35/0.40" : check.quantity === "frequency" ? "60" : "0.12";
  const isDouble = check.entries !== undefined && !check.oneEntryWith?.includes(family);
  const reading = isDouble ? `${one}:${isFeeler ? "0.20/0.25" : "0.05"}` : one;
  return stations.map(({ nominal }) => (nominal ? String(Number(nominal.toFixed(1))) : reading));
}

/** Words of a command over as many lines as it needs, each but the last ended so that the shell reads on. */
export function commandOverLines(words: readonly string[]): string {
  const lines: string[] = [];
  let line = "  ";
  for (const word of words) {
    if (line.length + word.length + 3 > columns() && line.trim() !== "") {
      lines.push(`${line} \\`);
      line = "    ";
    }
    line += line.trim() === "" ? word : ` ${word}`;
  }
  return [...lines, line].join("\n");
}

export function wordInShell(word: string): string {
  return /^[\w./=+-]+$/.test(word) ? word : `"${word}"`;
}
