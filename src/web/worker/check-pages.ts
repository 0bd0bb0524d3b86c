import type { Assessment } from "../../app/assess.ts";
import { kindsOfFamily, objectKinds } from "../../app/catalog.ts";
import { knownCatalogue } from "../../app/known.ts";
import type { Session } from "../../app/session.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { formatTrimmed } from "../../core/base/number-format.ts";
import { refuse } from "../../core/base/outcome.ts";
import { type UnitId, unitFromCore, unitOf } from "../../core/base/units.ts";
import { checkById, checks } from "../../core/checks/catalogue.ts";
import { cautionHead, cautionInHand, sentenceForCaution } from "../../core/checks/cautions.ts";
import {
  type Check,
  isDoneWith,
  markedPlaces,
  offeredAnswers,
  optionOf,
  type Setup,
  type Station,
  suitingInstruments,
} from "../../core/checks/check.ts";
import { stages } from "../../core/checks/check-words.ts";
import { roundWordsOf } from "../../core/checks/round-words.ts";
import { fitToMeasureCards, type RoundCard, shortRoundCards } from "../../core/checks/rounds.ts";
import { standingWords } from "../../core/checks/standing.ts";
import { checkDetailDrawing, checkSetupDrawing } from "../../core/drawing/check-setup.ts";
import { latestRunWith } from "../../core/findings/gate.ts";
import { setupOfRun } from "../../core/fit/observations.ts";
import type { Run } from "../../core/fit/timeline.ts";
import { entriesByName } from "../../core/instruments/entry-words.ts";
import { type Instrument, type InstrumentFamily, inUse, quantityOf } from "../../core/instruments/instrument.ts";
import { placeForUser } from "../../core/machine/user-coordinates.ts";
import { entryForm, numberIn } from "./entry-form.ts";
import { assessmentOf, hereAndNow, sessionOf } from "./held.ts";
import { familiesOf, nextCard, stateOfCard } from "./next-thing.ts";
import type {
  Answer,
  CheckEntry,
  CheckList,
  CheckPage,
  OwnTool,
  RunPage,
  SetupChoice,
  StationEntry,
  UnfinishedRun,
} from "./protocol.ts";
import { stationPlan } from "./station-plan.ts";
import { answerFrom, toldFrom } from "./told.ts";

/** All checks of a machine in three lists, each with how it stands. */
export function checkList(machine: string): Answer<CheckList> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const { machine: body, timeline } = assessment;
    const entry = ({ key, title, check, answers, proposed }: RoundCard): CheckEntry => {
      const run = latestRunWith(body, timeline, check, answers);
      return {
        id: check.id,
        key,
        title,
        settles: check.words.settles,
        minutes: check.words.minutes,
        stage: check.words.stage,
        ...stateOfCard(assessment, check, answers),
        options: { ...answers, ...proposed, ...offeredAnswers(check, familiesOf(assessment)) },
        ...roundWordsOf(check.id),
        unfinished: run === null || run !== timeline.runs.at(-1) ? null : openStationsOf(assessment, run),
        last: run === null ? null : new Date(run.at).toISOString().slice(0, 10),
      };
    };
    const plain = (check: Check) =>
      entry({ key: check.id, title: check.words.title, check, answers: {}, proposed: {} });
    const first = fitToMeasureCards(body);
    const short = shortRoundCards(body);
    const isListed = new Set([...first, ...short].map(({ check }) => check.id));
    const rest = checks.filter(
      (check) =>
        !isListed.has(check.id) &&
        check.layouts.includes(body.layout.id) &&
        (check.kind === "geometric" || (check.appliesTo?.(body) ?? true)),
    );
    return {
      machine: timeline.machine.name,
      fitToMeasure: first.map(entry),
      fitToMeasurePassed: assessment.gate.passed,
      cautionHead,
      shortRound: short.map(entry),
      rest: rest.toSorted((a, b) => stages.indexOf(a.words.stage) - stages.indexOf(b.words.stage)).map(plain),
      next: nextCard(assessment)?.key ?? null,
      unfinished: unfinishedRuns(assessment),
    };
  });
}

function unfinishedRuns(assessment: Assessment): CheckList["unfinished"] {
  return [...assessment.timeline.runs]
    .reverse()
    .filter(({ withdrawn }) => withdrawn === null)
    .flatMap((run) => {
      const check = checkById(run.check);
      const open = openStationsOf(assessment, run);
      return check && open ? [{ ...open, check: check.id, title: check.words.title }] : [];
    })
    .slice(0, 3);
}

/** How far a run has come that was begun and lacks stations; null for every other. */
function openStationsOf(
  { timeline, machine }: Pick<Session, "timeline" | "machine">,
  run: Run,
): CheckEntry["unfinished"] {
  const check = checkById(run.check);
  if (!check) return null;
  const stations = check.stations(setupOfRun(machine, timeline, run));
  const read = new Set(
    timeline.readings
      .filter((reading) => reading.run === run.id && reading.withdrawn === null)
      .map(({ station }) => station),
  );
  const open = stations.filter(({ key }) => !read.has(key)).length;
  // Somebody who has read places of their own, or few on purpose, has not forgotten the rest.
  if (open === 0 || stations.length - open === 0) return null;
  const next = stations.findIndex(({ key }) => !read.has(key)) + 1;
  return { run: run.id, read: stations.length - open, of: stations.length, next };
}

/** By then the dial has been taken off and the machine has been switched off and on. */
const BROKEN_OFF_FOR_GOOD_MS = 12 * 3_600_000;

/** The last run of a check that is set up so, where it lacks stations and can still be gone on with. */
function brokenOff(session: Session, check: Check, setup: Setup): UnfinishedRun | null {
  const { runs, readings, happenings } = session.timeline;
  const run = runs.findLast(
    (one) =>
      one.check === check.id &&
      one.withdrawn === null &&
      one.instrument === (setup.instrument?.id ?? null) &&
      check.options.every(
        ({ key }) => optionOf(check, { ...setup, options: one.options }, key) === optionOf(check, setup, key),
      ),
  );
  if (run === undefined) return null;
  const last = readings.findLast((reading) => reading.run === run.id)?.at ?? run.at;
  if (hereAndNow.nowMs() - last > BROKEN_OFF_FOR_GOOD_MS) return null;
  return happenings.some(({ at, kind }) => at > run.at && kind !== "homed") ? null : openStationsOf(session, run);
}

/** Everything about one check on this machine, with the choice completed by what is usual. */
export function checkPage(
  machine: string,
  asked: Partial<SetupChoice> & { readonly check: string },
  unit: string | null,
): Answer<CheckPage> {
  const session = sessionOf(machine);
  if (!session.ok) return { ok: false, told: toldFrom(session.diagnostics) };
  const check = checkById(asked.check);
  if (!check) return { ok: false, told: toldFrom([refusal("check-unknown", {}, { check: asked.check, meant: "" })]) };
  const { timeline } = session.value;
  const chosen = completed(session.value, check, asked);
  const setup = setupOf(session.value, chosen);
  const problems = knownCatalogue(timeline.machine).runProblems(runAskedAbout(chosen), setup.instrument);
  const refused = problems.some(({ severity }) => severity === "refusal");
  if (refused && !check.layouts.includes(session.value.machine.layout.id))
    return { ok: false, told: toldFrom(problems) };
  const safe: Setup = refused ? { ...setup, options: {} } : setup;
  const own = inUse(timeline.instruments.values()).map(toolFrom);
  const families: readonly InstrumentFamily[] = suitingInstruments(check, chosen.options);
  const usual = families.flatMap((family) => own.filter((tool) => tool.family === family));
  const { words } = check;
  const readsNumbers = check.quantity !== "verdict";
  const couldShow = (id: string) => quantityOf(timeline.instruments.get(id) as Instrument) === check.quantity;
  return {
    ok: true,
    told: toldFrom(problems),
    value: {
      id: check.id,
      title: words.title,
      settles: words.settles,
      minutes: words.minutes,
      stage: words.stage,
      cautions: words.cautions.map(sentenceForCaution),
      cautionHead,
      toolsAtHand: words.tools,
      steps: words.steps,
      sign: words.sign,
      goesWrong: words.goesWrong,
      typical: words.typical,
      standing: standingFor(check),
      questions: check.options.map((option) => ({
        key: option.key,
        question: option.question,
        answers: option.answers ?? null,
        number: option.number ?? null,
        chosen: optionOf(check, safe, option.key),
      })),
      families: readsNumbers ? families : [],
      instruments: readsNumbers ? usual : [],
      unusualInstruments: readsNumbers ? own.filter((tool) => !usual.includes(tool) && couldShow(tool.id)) : [],
      kindsToAdd: readsNumbers
        ? families.flatMap((family) => kindsOfFamily(family)).map(({ id, name }) => ({ id, name }))
        : [],
      roles: rolesOf(check).map((role) => ({
        role,
        objects: inUse(timeline.objects.values())
          .filter(({ family }) => family === role)
          .map(toolFrom),
        kinds: [...objectKinds.values()].filter(({ family }) => family === role).map(({ id, name }) => ({ id, name })),
      })),
      chosen,
      stations: stationEntries(check, safe, session.value, unit),
      marks: markedPlaces(check, safe).map((place) => placeForUser(timeline.coordinates, [...place, 0], ["x", "y"])),
      entry: entryForm(check, setup.instrument, unit),
      unfinished: brokenOff(session.value, check, safe),
      returns: returnsToFirst(check, safe),
      wide: checkSetupDrawing({ check, setup: safe }, "page"),
      narrow: checkSetupDrawing({ check, setup: safe, shape: "narrow" }, "page"),
      coordinatesUntried: ["powered", "cutting"].includes(words.stage) && timeline.coordinates?.tried === false,
    },
  };
}

/** Of what holds for every check, what has to do with this one. */
function standingFor(check: Check): CheckPage["standing"] {
  const families: readonly string[] = check.instruments;
  const isRead = check.kind === "geometric";
  const concerns: Readonly<Record<string, boolean>> = {
    "where-you-stand": true,
    "dial-sign": families.includes("dial") || families.includes("test indicator"),
    "side-of-the-square": rolesOf(check).includes("square"),
    "feeler-practice": families.includes("feeler"),
    "hands-off": check.quantity !== "verdict",
    "first-station-again": isRead,
    approach: ["powered", "cutting"].includes(check.words.stage),
    parking: isRead,
    room: isRead,
  };
  return standingWords.filter(({ id }) => concerns[id] ?? true).map(({ title, sentences }) => ({ title, sentences }));
}

/** A run that has been begun, or one that would be begun with its first reading. */
export function runPage(
  machine: string,
  asked: string | SetupChoice,
  now: string | null,
  unit: string | null,
): Answer<RunPage> {
  const session = sessionOf(machine);
  if (!session.ok) return { ok: false, told: toldFrom(session.diagnostics) };
  const { timeline } = session.value;
  const run = typeof asked === "string" ? timeline.runs.find(({ id }) => id === asked) : null;
  if (run === undefined)
    return answerFrom(refuse<RunPage>(refusal("run-unknown", {}, { run: String(asked), meant: "" })), (page) => page);
  const named = run?.check ?? (asked as SetupChoice).check;
  const check = checkById(named);
  if (!check) return { ok: false, told: toldFrom([refusal("check-unknown", {}, { check: named, meant: "" })]) };
  const choice = run === null ? completed(session.value, check, asked as SetupChoice) : { ...run, conditions: {} };
  const setup = run === null ? setupOf(session.value, choice) : setupOfRun(session.value.machine, timeline, run);
  const entry = entryForm(check, setup.instrument, unit);
  const readings = run === null ? [] : timeline.readings.filter((reading) => reading.run === run.id);
  const read = readings.filter(({ withdrawn }) => withdrawn === null).map(({ station }) => station);
  const detail = checkDetailDrawing({ check, setup, read, ...(now !== null && { now }) }, "page");
  return {
    ok: true,
    told: [],
    value: {
      title: check.words.title,
      card: cardFor(check, setup),
      run: run?.id ?? null,
      setup: choice,
      stations: stationEntries(check, setup, session.value, unit),
      readings: readings.map(({ id, station, entries, withdrawn }) => ({
        id,
        station,
        text: entriesByName(entries, check, (value) => numberIn(value, entry.unit as UnitId)),
        withdrawn,
      })),
      entry,
      caution: cautionInHand(check.words.cautions),
      sign: check.words.sign,
      plan: stationPlan({ check, setup, read, now }, 168),
      detail: detail ?? "",
      detailWords: check.words.sign,
      returns: returnsToFirst(check, setup),
      settles: check.words.settles,
    },
  };
}

function returnsToFirst(check: Check, setup: Setup): boolean {
  return check.kind === "geometric" && check.stations(setup).length > 2;
}

function cardFor(check: Check, setup: Setup): string {
  const cards = [...fitToMeasureCards(setup.machine), ...shortRoundCards(setup.machine)];
  return cards.find((card) => card.check === check && isDoneWith(check, setup, card.answers))?.key ?? check.id;
}

/** The choice as it stands in an address, with what is usual for this user where it says nothing. */
function completed({ timeline }: Session, check: Check, asked: Partial<SetupChoice>): SetupChoice {
  const own = inUse(timeline.instruments.values());
  const known =
    asked.instrument !== undefined && asked.instrument !== null && timeline.instruments.has(asked.instrument);
  const chosen = known ? own.filter(({ id }) => id === asked.instrument) : own;
  const options = {
    ...offeredAnswers(
      check,
      chosen.map(({ family }) => family),
    ),
    ...asked.options,
  };
  const suiting = suitingInstruments(check, options);
  const usual = suiting.flatMap((one) => own.filter((tool) => tool.family === one))[0]?.id ?? null;
  const objects = rolesOf(check).flatMap((role) => {
    const given = asked.objects?.[role];
    const object =
      given !== undefined && (given === "" || timeline.objects.has(given))
        ? given
        : inUse(timeline.objects.values()).find(({ family }) => family === role)?.id;
    return object === undefined || object === "" ? [] : [[role, object] as const];
  });
  return {
    check: check.id,
    instrument: check.quantity === "verdict" ? null : known ? (asked.instrument as string) : usual,
    objects: Object.fromEntries(objects),
    options,
    conditions: asked.conditions ?? {},
  };
}

function setupOf({ machine, timeline }: Session, { options, instrument }: SetupChoice): Setup {
  return { machine, options, instrument: instrument === null ? null : (timeline.instruments.get(instrument) ?? null) };
}

function rolesOf(check: Check): readonly string[] {
  return check.kind === "geometric" ? check.roles : [];
}

function toolFrom({ id, name, kind, family }: OwnTool): OwnTool {
  return { id, name, kind, family };
}

function runAskedAbout({ check, instrument, objects, options }: SetupChoice): Run {
  return { id: "", check, at: 0, instrument, objects, options, conditions: {}, factor: 1, withdrawn: null };
}

export function stationEntries(
  check: Check,
  setup: Setup,
  { timeline }: Session,
  unit: string | null,
): readonly StationEntry[] {
  const shown = entryForm(check, setup.instrument, unit).unit as UnitId;
  return check.stations(setup).map((station, i) => ({
    number: i + 1,
    key: station.key,
    words: sentenceFrom(station.words),
    place: check.kind === "condition" ? "" : placeOf(station, timeline.coordinates),
    nominal: station.nominal
      ? `about ${formatTrimmed(unitFromCore(station.nominal, shown), shown === "in" ? 3 : 1)} ${unitOf(shown).symbol}`
      : "",
  }));
}

function placeOf({ at, to }: Station, coordinates: Session["timeline"]["coordinates"]): string {
  const from = placeForUser(coordinates, at, ["x", "y"]);
  return to === undefined ? from : `${from} to ${placeForUser(coordinates, to, ["x", "y"])}`;
}

export function sentenceFrom(words: string): string {
  return words[0].toUpperCase() + words.slice(1);
}
