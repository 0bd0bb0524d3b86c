import type { Assessment } from "../../app/assess.ts";
import { dayOf } from "../../app/odd-readings.ts";
import { checkById } from "../../core/checks/catalogue.ts";
import { type Check, offeredAnswers, suitingInstruments } from "../../core/checks/check.ts";
import { fitToMeasureCards, type RoundCard, shortRoundCards } from "../../core/checks/rounds.ts";
import { isRunWith, judgeWay } from "../../core/findings/gate.ts";
import { sinceReading } from "../../core/fit/since-reading.ts";
import { type InstrumentFamily, inUse } from "../../core/instruments/instrument.ts";
import { adjustersOf } from "../../core/machine/adjusters/catalogue.ts";
import { queryFromChoice } from "../views/measure/setup-query.ts";
import type { CheckState, NextThing } from "./protocol.ts";
import type { PlannedThings } from "./protocol-moves.ts";

/** How a check that is done with these answers stands: judged where it gates, else whether it has been taken at all. */
export function stateOfCard(
  { machine, timeline }: Assessment,
  check: Check,
  answers: RoundCard["answers"],
): { readonly state: CheckState; readonly where: readonly string[] } {
  if (check.kind === "condition" && check.fitToMeasure) return judgeWay(machine, timeline, check, answers);
  const isTaken = timeline.runs.some(
    (run) =>
      isRunWith(machine, check, run, answers) &&
      timeline.readings.some((reading) => reading.run === run.id && reading.withdrawn === null),
  );
  return { state: isTaken ? "taken" : "not done", where: [] };
}

/** The first card of the fit-to-measure round that has not been passed, then the first of the short round not yet taken. */
export function nextCard(assessment: Assessment): RoundCard | null {
  return openInRounds(assessment)[0] ?? null;
}

function openInRounds(assessment: Assessment): readonly RoundCard[] {
  return [...fitToMeasureCards(assessment.machine), ...shortRoundCards(assessment.machine)].filter(
    ({ check, answers }) => !["passed", "taken"].includes(stateOfCard(assessment, check, answers).state),
  );
}

/** What there is to do, the first thing first. */
export interface ThingsToDo {
  readonly things: readonly NextThing[];
  /** Whether what stands first, or that there is nothing, waits for a plan. */
  readonly asksPlan: boolean;
  /** Whether a plan would have something to say at all. */
  readonly wouldPlan: boolean;
}

/**
 * What there is to do now and afterwards. Nothing is moved before the machine is fit to be measured, what does not hang
 * together is read again, and a first round has been taken with the tools there are; then the plan says what is moved,
 * and what was moved is read again when it has no more to say. Without a plan it is only said where to see one.
 */
export function thingsToDo(assessment: Assessment, planned: PlannedThings | null): ThingsToDo {
  const round = openInRounds(assessment);
  if (!assessment.gate.passed)
    return { things: round.slice(0, 4).map((card) => thingFor(assessment, card)), asksPlan: false, wouldPlan: false };
  const hasMoved = assessment.timeline.happenings.some(({ kind }) => kind === "moved");
  const first = [
    ...openConcerns(assessment),
    ...(hasMoved
      ? []
      : round.filter(({ check }) => isAtHand(assessment, check)).map((card) => thingFor(assessment, card))),
  ];
  const again = toReadAgain(assessment);
  const byPlan = planned ? thingsOfPlan(planned, again) : [...seeMoves(assessment), ...again];
  return { things: [...first, ...byPlan], asksPlan: first.length === 0, wouldPlan: true };
}

/** The first of them; null when nothing would come first. */
export function nextThing(assessment: Assessment, planned: PlannedThings | null): NextThing | null {
  return thingsToDo(assessment, planned).things[0] ?? null;
}

/** Moves before they are read again, and readings before more readings; what nobody moves for yet is measured first. */
function thingsOfPlan(
  { answer, moves, checks, measureFirst }: PlannedThings,
  again: readonly NextThing[],
): readonly NextThing[] {
  const open = checks.filter(({ path }) => !again.some((thing) => path.split("?")[0] === thing.path));
  switch (answer) {
    case "move":
      return measureFirst ? [...open, ...moves, ...again] : [...moves, ...again, ...open];
    case "leave it alone":
      return again;
    case "measure first":
      return [...again, ...open];
    case "out of reach":
      return [...again, seeOutOfReach, ...open];
  }
}

const seeOutOfReach: NextThing = {
  title: "See what is out of reach",
  why: "No move that is free brings it in; each demand that holds out says what would.",
  minutes: null,
  tools: "",
  button: "Show the demands",
  path: "moves",
};

/** Where no plan has been worked out: only what is out, or not known, asks for one. */
function seeMoves({ findings, timeline }: Assessment): readonly NextThing[] {
  const isSettled = findings.every(({ verdict }) => verdict === null || verdict === "within");
  if (timeline.readings.length === 0 || isSettled) return [];
  const out = findings.filter(({ verdict }) => verdict === "out").length;
  return [
    {
      title: "See which moves help",
      why:
        out === 0
          ? "Something is not known yet: the plan says whether a move or a reading comes first."
          : `${out === 1 ? "One finding is" : `${out} findings are`} out. The plan says what is moved for the work, and where to stop.`,
      minutes: null,
      tools: "",
      button: "Show the moves",
      path: "moves",
    },
  ];
}

function thingFor(assessment: Assessment, { check, title, answers, proposed }: RoundCard): NextThing {
  const offered = offeredAnswers(check, familiesOf(assessment));
  const inRound = check.kind === "condition" && check.fitToMeasure;
  const failed = stateOfCard(assessment, check, answers).state === "failed";
  return {
    title: `${failed ? "Put right and do again" : inRound ? "Fit to measure" : "Measure"}: ${lowerFirst(title)}`,
    why: check.words.settles,
    minutes: check.words.minutes,
    tools: toolsFor(assessment, check),
    button: "Show how it is done",
    path: `measure/${check.id}${queryFromChoice({ options: { ...answers, ...proposed, ...offered } })}`,
  };
}

/** The user's own instrument by its name where one fits, else what the check asks for. */
export function toolsFor(assessment: Pick<Assessment, "timeline">, check: Check): string {
  const own = inUse(assessment.timeline.instruments.values());
  const suiting = suitingInstruments(check, offeredAnswers(check, familiesOf(assessment)));
  const fitting = suiting.flatMap((family) => own.filter((tool) => tool.family === family))[0];
  return check.quantity === "verdict" || fitting === undefined ? check.words.tools.join(", ") : fitting.name;
}

/** What kinds of instrument the user has. */
export function familiesOf({ timeline }: Pick<Assessment, "timeline">): readonly InstrumentFamily[] {
  return inUse(timeline.instruments.values()).map(({ family }) => family);
}

/** A check that gates is done with what is there; a measuring one needs a tool of the user's. */
function isAtHand({ timeline }: Assessment, check: Check): boolean {
  if (check.kind === "condition") return true;
  return inUse(timeline.instruments.values()).some(({ family }) =>
    (check.instruments as readonly string[]).includes(family),
  );
}

/**
 * Readings that contradict the rest, have been read once only and can still be repeated, runs that shifted or were misread
 * as a whole. What has been read anew since, or cannot be repeated, is withdrawn or kept among the findings.
 */
export function openConcerns({ trust, estimate, timeline }: Assessment): readonly NextThing[] {
  const odd = trust.rows
    .filter((row) => row.odd && row.readings.length === 1)
    .filter(({ observation }) => sinceReading(estimate, observation).kind === "nothing")
    .sort((a, b) => Math.abs(b.studentised) - Math.abs(a.studentised))
    .slice(0, 1)
    .map((row): NextThing => {
      const { run, check, station } = estimate.problem.observations[row.observation];
      return {
        title: `Read again: ${lowerFirst(check.words.title)}, ${station.words}`,
        why: `This reading, of ${dayOf(row.readings[0].at)}, stands far from what all others lead to expect. Before anything is moved for it, it is read a second time in the same run.`,
        minutes: 2,
        tools: toolsFor({ timeline }, check),
        button: "Show the station",
        path: `measure/${check.id}/run/${run.id}?station=${encodeURIComponent(station.key)}`,
      };
    });
  const runs = trust.runs.flatMap(({ run, returned, misread }): NextThing[] => {
    const check = checkById(run.check);
    const isAnew = timeline.runs.some(
      (other) => other.check === run.check && other.at > run.at && other.withdrawn === null,
    );
    if (!check || (!returned && !misread) || (returned && isAnew)) return [];
    const title = lowerFirst(check.words.title);
    return misread
      ? [
          {
            title: `Put right: ${title}`,
            why: "The whole run fits far better in another unit or with its sign turned; one touch corrects it.",
            minutes: null,
            tools: "",
            button: "Show the run",
            path: `readings?run=${run.id}`,
          },
        ]
      : [
          {
            title: `Take anew: ${title}`,
            why: "Its first station had moved when it was read again at the end: something shifted during the run.",
            minutes: check.words.minutes,
            tools: toolsFor({ timeline }, check),
            button: "Show how it is done",
            path: `measure/${check.id}`,
          },
        ];
  });
  return [...odd, ...runs];
}

/**
 * What moves have disturbed and nobody has read again: a run begun afterwards counts, and so do two stations more in one
 * that goes on.
 */
export function toReadAgain({ machine, timeline }: Assessment): readonly NextThing[] {
  const adjusters = new Map(adjustersOf(machine).map((adjuster) => [adjuster.id, adjuster]));
  const open = new Map<string, string>();
  for (const happening of timeline.happenings) {
    if (happening.kind !== "moved") continue;
    const adjuster = adjusters.get(happening.adjuster);
    for (const check of adjuster?.readAgain?.checks ?? []) {
      const runs = new Map(
        timeline.runs.filter((run) => run.check === check && run.withdrawn === null).map(({ id, at }) => [id, at]),
      );
      const since = timeline.readings.filter(
        (reading) => runs.has(reading.run) && reading.at > happening.at && reading.withdrawn === null,
      );
      const isRead =
        since.some(({ run }) => (runs.get(run) as number) > happening.at) ||
        new Set(since.map(({ station }) => station)).size > 1;
      if (isRead) open.delete(check);
      else open.set(check, adjuster?.words ?? "");
    }
  }
  return [...open].flatMap(([id, moved]): NextThing[] => {
    const check = checkById(id);
    if (!check) return [];
    return [
      {
        title: `Measure again: ${lowerFirst(check.words.title)}`,
        why: `Something was moved (${moved}): what that did is known when this has been read again.`,
        minutes: check.words.minutes,
        tools: toolsFor({ timeline }, check),
        button: "Show how it is done",
        path: `measure/${check.id}`,
      },
    ];
  });
}

export function lowerFirst(title: string): string {
  return /^[A-Z][a-z]/.test(title) ? title[0].toLowerCase() + title.slice(1) : title;
}
