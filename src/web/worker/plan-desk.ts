import type { LogEvent } from "../../logbook/events.ts";
import { eventsSince, isHeld, keepPlanned, versionOf } from "./held.ts";
import type { Answer } from "./protocol.ts";
import type { MeasureNext, PlanPage, WhatIf } from "./protocol-moves.ts";
import type { WorkAsked, WorkPage } from "./protocol-work.ts";

/** What the planner is asked: a plan, what to measure next, or what the work comes out like. */
export type PlannerQuestion =
  | { readonly about: "plan"; readonly what: WhatIf }
  | { readonly about: "measure" }
  | { readonly about: "work"; readonly asked: WorkAsked };
type About = PlannerQuestion["about"];
type PlannerAnswer<Of extends About> = Answer<{ plan: PlanPage; measure: MeasureNext; work: WorkPage }[Of]>;

/** To the planner: events that it does not have yet, and what is asked of it; null where nothing is asked. */
export type ToPlanner =
  | {
      readonly number: number;
      readonly machine: string;
      readonly events: readonly LogEvent[];
      readonly question: PlannerQuestion | null;
    }
  | { readonly forget: string };

export type FromPlanner =
  | { readonly number: number; readonly answer: PlannerAnswer<About> }
  | { readonly number: number; readonly fault: string };

interface Sheet {
  readonly version: number;
  readonly answer: PlannerAnswer<About>;
}

/** Answers that hold until their machine's next event, by machine and by what was asked. */
const kept = new Map<string, Map<string, Sheet>>();
/** Answers on their way: whoever asks for the same meanwhile gets the same. */
const onTheWay = new Map<string, Promise<Sheet>>();
const waiting = new Map<number, { resolve: (answer: Sheet["answer"]) => void; reject: (fault: Error) => void }>();
/** How many of a machine's events the planner has. */
const sent = new Map<string, number>();
let lastNumber = 0;
let planner: Worker | null = null;

const asItStands = JSON.stringify({ about: "plan", what: {} } satisfies PlannerQuestion);

/** The plan for a machine as it stands now, or with something tried; worked out in a thread of its own. */
export function planOf(machine: string, what: WhatIf): Promise<Answer<PlanPage>> {
  return answerTo<"plan">(machine, { about: "plan", what });
}

/** What to measure next, likewise. */
export function bestChecksOf(machine: string): Promise<Answer<MeasureNext>> {
  return answerTo<"measure">(machine, { about: "measure" });
}

/** What the work comes out like, likewise. */
export function workOf(machine: string, asked: WorkAsked): Promise<Answer<WorkPage>> {
  return answerTo<"work">(machine, { about: "work", asked });
}

async function answerTo<Of extends About>(machine: string, question: PlannerQuestion): Promise<PlannerAnswer<Of>> {
  const key = JSON.stringify(question);
  while (isHeld(machine)) {
    const sheet = keptSheet(machine, key) ?? (await sheetOnTheWay(machine, key, question));
    // Events that came meanwhile make it an old answer.
    if (sheet.version === versionOf(machine)) return sheet.answer as PlannerAnswer<Of>;
  }
  return { ok: false, told: [] };
}

export function forgetPlans(machine: string): void {
  kept.delete(machine);
  sent.delete(machine);
  planner?.postMessage({ forget: machine } satisfies ToPlanner);
}

/** Fetches what plans are made with, before the network can go. */
export function fetchPlanner(): void {
  thread().postMessage({ number: 0, machine: "", events: [], question: null } satisfies ToPlanner);
}

function keptSheet(machine: string, key: string): Sheet | null {
  const sheets = kept.get(machine);
  const sheet = sheets?.get(key);
  return sheet?.version === versionOf(machine) ? sheet : null;
}

function sheetOnTheWay(machine: string, key: string, question: PlannerQuestion): Promise<Sheet> {
  const name = `${machine} ${key}`;
  const known = onTheWay.get(name);
  if (known) return known;
  const version = versionOf(machine);
  const coming = askPlanner(machine, question)
    .then((answer): Sheet => {
      const sheet = { version, answer };
      const sheets = kept.get(machine) ?? new Map<string, Sheet>();
      for (const [other, { version: of }] of sheets) if (of !== version) sheets.delete(other);
      kept.set(machine, sheets.set(key, sheet));
      if (key === asItStands && answer.ok) keepPlanned(machine, version, (answer.value as PlanPage).things);
      return sheet;
    })
    .finally(() => onTheWay.delete(name));
  onTheWay.set(name, coming);
  return coming;
}

function askPlanner(machine: string, question: PlannerQuestion): Promise<Sheet["answer"]> {
  const number = ++lastNumber;
  const events = eventsSince(machine, sent.get(machine) ?? 0);
  sent.set(machine, versionOf(machine));
  return new Promise((resolve, reject) => {
    waiting.set(number, { resolve, reject });
    thread().postMessage({ number, machine, events, question } satisfies ToPlanner);
  });
}

function thread(): Worker {
  if (planner) return planner;
  const begun = new Worker(new URL("./planner.ts", import.meta.url), { type: "module" });
  begun.onmessage = ({ data }: MessageEvent<FromPlanner>) => {
    const asked = waiting.get(data.number);
    waiting.delete(data.number);
    if ("fault" in data) asked?.reject(new Error(data.fault));
    else asked?.resolve(data.answer);
  };
  // A thread that does not begin could not be fetched: the next question tries again with all its events.
  begun.onerror = (event) => {
    event.preventDefault();
    planner = null;
    sent.clear();
    for (const { reject } of waiting.values()) reject(new TypeError("import of the planner"));
    waiting.clear();
  };
  planner = begun;
  return begun;
}
