import "./without-eval.ts";
import { newSession, sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { inOrderOfTime } from "../../logbook/event-order.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { textFromEvents } from "../../logbook/write.ts";
import {
  addEvents,
  eventsOfMachine,
  forgetMachine,
  heldMachines,
  hereAndNow,
  isDemonstration,
  isHeld,
  labelOf,
  plannedThings,
  sessionOf,
} from "./held.ts";
import { machineCard } from "./machine-card.ts";
import type { Answer, AnswerTo, Ask, Draft, FromWorker, Question, RequestName } from "./protocol.ts";
import { answerFrom } from "./told.ts";

type Answering = { readonly [Name in RequestName]: (ask: Ask<Name>) => AnswerTo<Name> | Promise<AnswerTo<Name>> };

/** What the first screenful does not need. It is fetched right after the start, because the network may go at any time. */
const later = {
  machines: () => import("./machine-pages.ts"),
  checks: () => import("./check-pages.ts"),
  readings: () => import("./reading-answers.ts"),
  findings: () => import("./finding-pages.ts"),
  history: () => import("./history-pages.ts"),
  tools: () => import("./tool-pages.ts"),
  moves: () => import("./move-pages.ts"),
  next: () => import("./next-page.ts"),
  plans: () => import("./plan-desk.ts"),
  work: () => import("./work-board.ts"),
  compare: () => import("./compare-pages.ts"),
  turned: () => import("./turned-pages.ts"),
};
setTimeout(() => Object.values(later).forEach((load) => void load().catch(() => {})), 100);
// The planner is large, and nobody asks for it in the first moments.
setTimeout(
  () =>
    void later
      .plans()
      .then(({ fetchPlanner }) => fetchPlanner())
      .catch(() => {}),
  5_000,
);

/** Who answers what. A new kind of question is added to `protocol.ts` and here. */
const answering: Answering = {
  add: ({ machine, events, demonstration }) => {
    if (addEvents(machine, events, demonstration)) post({ changed: machine });
    return null;
  },
  forget: ({ machine }) => {
    forgetMachine(machine);
    void later
      .plans()
      .then(({ forgetPlans }) => forgetPlans(machine))
      .catch(() => {});
    post({ changed: machine });
    return null;
  },
  list: () => heldMachines().map((id) => ({ id, ...labelOf(id), demonstration: isDemonstration(id) })),
  card: ({ machine }) => machineCard(machine),
  overview: async ({ machine, projection }) => (await later.machines()).overview(machine, projection),
  checks: async ({ machine }) => (await later.checks()).checkList(machine),
  check: async ({ machine, choice, unit }) => (await later.checks()).checkPage(machine, choice, unit),
  run: async ({ machine, run, now, unit }) => (await later.checks()).runPage(machine, run, now, unit),
  nextLeaf: async (asked) => (await later.readings()).nextLeaf(asked),
  readOne: async (asked) => (await later.readings()).readOne(asked),
  knownBetter: async ({ machine }) => (await later.readings()).knownBetter(machine),
  readMany: async (asked) => (await later.readings()).readMany(asked),
  table: async (asked) => (await later.readings()).readTable(asked),
  findings: async ({ machine }) => (await later.findings()).findingsPage(machine),
  finding: async ({ machine, finding }) => (await later.findings()).findingPage(machine, finding),
  readings: async ({ machine }) => (await later.findings()).readingsPage(machine),
  history: async ({ machine }) => (await later.history()).historyPage(machine),
  takeEntryBack: async (asked) => (await later.history()).takeEntryBack(asked),
  turned: async ({ machine }) => (await later.turned()).turnedPage(machine),
  compare: async (asked) => (await later.compare()).comparePage(asked),
  tools: async ({ machine }) => (await later.tools()).toolsPage(machine),
  leafList: async (asked) => (await later.tools()).leafList(asked),
  putAway: async (asked) => (await later.tools()).putToolAway(asked),
  description: async ({ machine }) => (await later.machines()).descriptionPage(machine),
  draw: async ({ machine, coordinates, projection }) =>
    (await later.machines()).drawDescription(machine, coordinates, projection),
  next: ({ machine, wait }) => next(machine, wait),
  plan: ({ machine, what }) => plan(machine, what),
  bestChecks: async ({ machine }) => (await later.plans()).bestChecksOf(machine),
  movesBoard: async ({ machine }) => (await later.moves()).movesBoard(machine),
  adjuster: async ({ machine, adjuster }) => (await later.moves()).adjusterPage(machine, adjuster),
  noteMove: async (asked) => (await later.moves()).noteMove(asked),
  takeMoveBack: async (asked) => (await later.moves()).takeMoveBack(asked),
  changeAdjuster: async (asked) => (await later.moves()).changeAdjuster(asked),
  work: async ({ machine, asked }) => (await later.plans()).workOf(machine, asked),
  workBoard: async ({ machine }) => (await later.work()).workBoard(machine),
  changeDemand: async ({ machine, change }) => (await later.work()).changeDemand(machine, change),
  demand: async ({ machine, kind, demand }) => (await later.work()).demandGrounds(machine, kind, demand),
  begin: ({ drafts, by }) => {
    const events = stamped(drafts, by);
    return answerFrom(newSession("", events), () => events);
  },
  propose: ({ machine, drafts, by }) => propose(machine, drafts, by),
  logbook: ({ machine }) => textFromEvents(inOrderOfTime(eventsOfMachine(machine)).map(({ event }) => event)),
};

/** What to do now; with `wait` a plan is worked out first, where one has something to say. */
async function next(machine: string, wait: boolean): Promise<AnswerTo<"next">> {
  const { nextPage } = await later.next();
  const answer = nextPage(machine);
  if (!wait || !answer.ok || !answer.value.wouldPlan || answer.value.planned) return answer;
  const planned = await plan(machine, {});
  return planned.ok ? nextPage(machine) : { ok: false, told: planned.told };
}

/** The plan; when it is the one for the machine as it stands, all that asks what comes next has a new answer. */
async function plan(machine: string, what: Ask<"plan">["what"]): Promise<AnswerTo<"plan">> {
  const before = plannedThings(machine);
  const answer = await (await later.plans()).planOf(machine, what);
  if (before === null && plannedThings(machine) !== null) post({ changed: machine });
  return answer;
}

/** Events that the logbook would take; nothing is kept of them until they come back by `add`. */
function propose(machine: string, drafts: readonly Draft[], by: string): Answer<readonly LogEvent[]> {
  const session = sessionOf(machine);
  if (!session.ok) return answerFrom(session, () => []);
  const events = stamped(drafts, by);
  return answerFrom(sessionWith(session.value, events), () => events);
}

function stamped(drafts: readonly Draft[], by: string): readonly LogEvent[] {
  const stamp = new Stamp(hereAndNow, by === "" ? undefined : by);
  return drafts.map(({ kind, ...payload }) => stamp.event(kind, payload as never) as LogEvent);
}

/** What a worker has of the thread it runs in. */
interface Port {
  onmessage: ((message: { readonly data: Question }) => void) | null;
  postMessage(message: FromWorker): void;
}

const port = self as unknown as Port;

function post(message: FromWorker): void {
  port.postMessage(message);
}

port.onmessage = async ({ data: { number, name, ask } }) => {
  const { machine } = ask as { machine?: string | null };
  try {
    // What is asked about a machine that has not come yet, or is gone, has no answer.
    if (typeof machine === "string" && name !== "add" && !isHeld(machine)) {
      post({ number, answer: name === "card" ? null : { ok: false, told: [] } });
      return;
    }
    const answer = (answering[name] as (ask: unknown) => unknown)(ask);
    // What needs no waiting is answered in the same turn: events are taken in the order in which they come.
    post({ number, answer: answer instanceof Promise ? await answer : answer });
  } catch (error) {
    // What could not be fetched is no slip: the network went before it came.
    const isUnfetched = error instanceof TypeError && /import/.test(error.message);
    if (isUnfetched) post({ number, fault: "" });
    else post({ number, fault: error instanceof Error ? `${error.message}\n${error.stack ?? ""}` : String(error) });
  }
};
