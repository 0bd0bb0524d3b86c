import { usualMachine } from "../../app/usual-machine.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { checkById, checks, fitToMeasureRound, shortRound } from "../../core/checks/catalogue.ts";
import { cautionHead, sentenceForCaution } from "../../core/checks/cautions.ts";
import type { Check, Setup } from "../../core/checks/check.ts";
import { gateFromTimeline } from "../../core/findings/gate.ts";
import { type Machine, machineFromDescription } from "../../core/machine/machine.ts";
import { placeForUser, type UserCoordinates } from "../../core/machine/user-coordinates.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { openLogbook } from "../logbook-file.ts";
import { BadInput } from "../report.ts";
import { say, sayJson, table, toned, wrap } from "../terminal.ts";
import { splitPair } from "./create.ts";

/** Lists the checks: the short round as the offer, or all that this machine has. */
export function listChecks(file: string | undefined, options: { all?: boolean; json?: boolean }): number {
  const session = file === undefined ? null : openLogbook(file);
  const machine = session?.machine ?? machineFromDescription(usualMachine);
  const gate = session && gateFromTimeline(machine, session.timeline);
  const done = new Set(session?.timeline.runs.filter((run) => run.withdrawn === null).map(({ check }) => check));
  const offered: readonly Check[] = options.all
    ? checks.filter(({ layouts }) => layouts.includes(machine.layout.id))
    : shortRound(machine);
  if (options.json) {
    sayJson(
      offered.map((check) => ({
        id: check.id,
        title: check.words.title,
        kind: check.kind,
        minutes: check.words.minutes,
        stage: check.words.stage,
        settles: check.words.settles,
        instruments: check.instruments,
        taken: done.has(check.id),
      })),
    );
    return 0;
  }
  const round = new Set(fitToMeasureRound(machine).map(({ id }) => id));
  const state = (check: Check) =>
    gate?.checks.find((g) => g.check.id === check.id)?.state ?? (done.has(check.id) ? "taken" : "");
  say(
    wrap(
      options.all
        ? "Every check of this machine."
        : "The short round: the eight of the fit-to-measure round first, then the checks that show most. --all lists every check.",
    ),
  );
  say();
  const rows = offered.map((check) => [
    check.id,
    check.words.title,
    `${check.words.minutes} min`,
    round.has(check.id) ? "fit to measure" : check.words.stage,
    state(check),
  ]);
  say(
    table(
      [{ head: "check" }, { head: "what it is" }, { head: "time", right: true }, { head: "when" }, { head: "" }],
      rows.map((row) => [row[0], row[1].slice(0, 30), ...row.slice(2)]),
    ),
  );
  return 0;
}

/** Everything about one check, with the stations of this machine. */
export function showCheck(
  id: string,
  file: string | undefined,
  options: { set?: readonly string[]; with?: string; json?: boolean },
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
  const instrument = options.with === undefined ? null : (session?.timeline.instruments.get(options.with) ?? null);
  const setup: Setup = { machine, options: optionsFromPairs(check, options.set ?? []), instrument };
  if (options.json) sayJson({ id: check.id, ...check.words, stations: check.stations(setup), options: check.options });
  else sayCheck(check, setup, session?.timeline.coordinates ?? null, machine);
  return 0;
}

function sayCheck(check: Check, setup: Setup, coordinates: UserCoordinates | null, machine: Machine): void {
  const { words } = check;
  say(toned(`${words.title}  (${check.id}, ${words.minutes} min, ${words.stage})`, "strong"));
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
        `Each station takes two readings with a colon between them: ${check.entries.join(" : ")}.${
          check.oneEntryWith ? ` Read by ${check.oneEntryWith.join(" or ")} it takes one.` : ""
        }`,
        undefined,
        "  ",
      ),
    );
  say();
  const rows = check
    .stations(setup)
    .map((station, i) => [
      String(i + 1),
      station.key,
      placesOf(check, station, coordinates),
      station.nominal === undefined ? "" : station.nominal.toFixed(2),
      station.words,
    ]);
  say(
    table(
      [
        { head: "no", right: true },
        { head: "station" },
        { head: "where" },
        { head: "nominal", right: true },
        { head: "" },
      ],
      rows.map((row) => [...row.slice(0, 4), row[4].length > 34 ? "" : row[4]]),
    ),
  );
}

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
    const [key, text] = splitPair(pair, "--set", "axis=X");
    const option = check.options.find((candidate) => candidate.key === key);
    const value = Number(text.replace(",", "."));
    options[key] = option?.number && Number.isFinite(value) ? value : text;
  }
  return options;
}
