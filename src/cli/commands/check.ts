import { instrumentKinds } from "../../app/catalog.ts";
import { knownCatalogue } from "../../app/known.ts";
import type { Session } from "../../app/session.ts";
import { instrumentNotThere } from "../../app/take-run.ts";
import { numberOrNull } from "../../app/typed-number.ts";
import { usualMachine } from "../../app/usual-machine.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { checkById, checks } from "../../core/checks/catalogue.ts";
import { cautionHead, sentenceForCaution } from "../../core/checks/cautions.ts";
import { type Check, markedPlaces, type Setup } from "../../core/checks/check.ts";
import type { Run } from "../../core/fit/timeline.ts";
import { type Instrument, type InstrumentId, instrumentFromKind } from "../../core/instruments/instrument.ts";
import { type Machine, machineFromDescription } from "../../core/machine/machine.ts";
import { placeForUser, type UserCoordinates } from "../../core/machine/user-coordinates.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { howToType, ownInstrumentFor } from "../how-to-type.ts";
import { openLogbook } from "../logbook-file.ts";
import { accepted, BadInput, writeDiagnostic } from "../report.ts";
import { columns, say, sayJson, table, toned, wrap } from "../terminal.ts";
import { pairFrom } from "../typed-words.ts";
import { kindNotThere } from "./create.ts";
import { drawCheck } from "./drawings.ts";

/** Everything about one check, with the stations of this machine. */
export function showCheck(
  id: string,
  file: string | undefined,
  options: { set?: readonly string[]; with?: string; drawing?: string; json?: boolean },
): number {
  const check = checkById(id);
  if (!check) {
    const ids = checks.map((candidate) => candidate.id);
    throw new BadInput([
      refusal(
        "word-unknown",
        {},
        { word: id, of: "a check", listed: ids.join(", "), meant: nearestWord(id, ids) ?? "" },
      ),
    ]);
  }
  const session = file === undefined ? null : openLogbook(file);
  const machine = session?.machine ?? machineFromDescription(usualMachine);
  const answers = optionsFromPairs(check, options.set ?? []);
  const setup: Setup = {
    machine,
    options: answers,
    instrument: instrumentNamed(session, options.with) ?? ownInstrumentFor(check, session, answers),
  };
  const known = knownCatalogue(session?.timeline.machine ?? usualMachine);
  const problems = known.runProblems(runAskedAbout(check, setup), setup.instrument);
  // Without a logbook the machine is only an example, and its layout refuses nothing.
  const refusals = problems.filter(
    ({ code, severity }) => severity === "refusal" && (session || code !== "check-of-other-layout"),
  );
  if (refusals.length > 0) throw new BadInput(refusals);
  for (const problem of problems) if (problem.severity !== "refusal") writeDiagnostic(problem);
  if (options.json) sayJson({ id: check.id, ...check.words, stations: check.stations(setup), options: check.options });
  else {
    sayCheck(check, setup, session?.timeline.coordinates ?? null, machine);
    say();
    say(howToType(check, setup, session, file ?? "FILE"));
  }
  if (options.drawing !== undefined) {
    drawCheck(check, setup, options.drawing);
    if (!options.json) say(`The drawing is in ${options.drawing}.`);
  }
  return 0;
}

/** A run of the check as it is asked about: nothing of it has been taken. */
function runAskedAbout(check: Check, { options, instrument }: Setup): Run {
  return {
    id: "",
    check: check.id,
    at: 0,
    instrument: instrument?.id ?? null,
    objects: {},
    options,
    conditions: {},
    factor: 1,
    withdrawn: null,
  };
}

/** An instrument of a logbook; without one an id of the catalogue will do. */
function instrumentNamed(session: Session | null, id: string | undefined): Instrument | null {
  if (id === undefined) return null;
  const own = session?.timeline.instruments.get(id);
  if (own) return own;
  if (session) throw new BadInput([instrumentNotThere(session, id)]);
  const kind = instrumentKinds.get(id);
  if (!kind) throw new BadInput([kindNotThere(id)]);
  return accepted(instrumentFromKind(kind, { id: id as InstrumentId, kind: kind.id }));
}

function sayCheck(check: Check, setup: Setup, coordinates: UserCoordinates | null, machine: Machine): void {
  const { words } = check;
  say(toned(wrap(`${words.title}  (${check.id}, ${words.minutes} min, ${words.stage})`), "strong"));
  say(wrap(words.settles));
  say();
  for (const caution of words.cautions) say(wrap(`Caution: ${sentenceForCaution(caution)}`, undefined, "  "));
  if (words.cautions.length > 0) say(toned(wrap(cautionHead), "second"));
  say();
  say(wrap(`At hand: ${words.tools.join(", ")}.`, undefined, "  "));
  words.steps.forEach((step, i) => {
    say(wrap(`${String(i + 1).padStart(2)}. ${step}`, undefined, "    "));
  });
  say();
  say(wrap(`Sign: ${words.sign}`, undefined, "  "));
  say(wrap(`Typical: ${words.typical}`, undefined, "  "));
  say(wrap(`Goes wrong: ${words.goesWrong.join(" ")}`, undefined, "  "));
  for (const option of check.options) {
    const answers =
      option.answers?.join(" | ") ?? `${option.number?.from} to ${option.number?.to} ${option.number?.unit}`;
    const usual = typeof option.usual === "function" ? option.usual(machine, setup.options) : option.usual;
    say(wrap(`--set ${option.key}=…  ${option.question} ${answers} (usual: ${usual})`, undefined, "  "));
  }
  if (check.entries)
    say(
      wrap(
        `Each station takes two readings with a colon between them: ${check.entries.join(" : ")}${
          check.readsSecondFirst ? `, the ${check.entries[0]} first` : ""
        }.${check.oneEntryWith ? ` Read by ${check.oneEntryWith.join(" or ")} it takes one.` : ""}`,
        undefined,
        "  ",
      ),
    );
  const marks = markedPlaces(check, setup).map((place) => placeForUser(coordinates, [...place, 0], ["x", "y"]));
  if (marks.length > 0) say(wrap(`Marks at: ${marks.join("; ")}.`, undefined, "  "));
  say();
  const rows = check
    .stations(setup)
    .map((station, i) => [
      String(i + 1),
      station.key,
      placesOf(check, station, coordinates),
      station.nominal === undefined ? "" : station.nominal.toFixed(2),
      station.words === station.key ? "" : station.words,
    ]);
  const beside = rows.map((row) => 12 + row[1].length + row[2].length + row[3].length);
  const room = columns() - Math.max(0, ...beside);
  say(
    table(
      [
        { head: "no", right: true },
        { head: "station", gives: true },
        { head: "where" },
        { head: "nominal", right: true },
        { head: "", gives: true },
      ],
      // Where they would be broken word by word, the names of the stations and their places say it by themselves.
      rows.map((row) => (room < LEAST_ROOM ? [...row.slice(0, 4), ""] : row)),
    ),
  );
}

/** Columns below which words beside a station are no help. */
const LEAST_ROOM = 16;

function placesOf(
  check: Check,
  { at, to }: ReturnType<Check["stations"]>[number],
  coordinates: UserCoordinates | null,
): string {
  if (check.kind === "condition") return "";
  const from = placeForUser(coordinates, at, ["x", "y"]);
  return to === undefined ? from : `${from} – ${placeForUser(coordinates, to, ["x", "y"])}`;
}

/** "--set key=value" pairs as the run's options: numbers where the check asks for a number. */
export function optionsFromPairs(check: Check, pairs: readonly string[]): Record<string, string | number> {
  const options: Record<string, string | number> = {};
  for (const pair of pairs) {
    const [key, text] = pairFrom(pair, "--set", "axis=X");
    const option = check.options.find((candidate) => candidate.key === key);
    options[key] = (option?.number && numberOrNull(text)) ?? text;
  }
  return options;
}
