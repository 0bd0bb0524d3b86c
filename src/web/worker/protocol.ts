import type { ProjectionAngle } from "../../core/drawing/marks.ts";
import type { Verdict } from "../../core/findings/evaluate.ts";
import type { MachineDescription } from "../../core/machine/description.ts";
import type { UserCoordinates } from "../../core/machine/user-coordinates.ts";
import type { EventKind, EventOf, LogEvent } from "../../logbook/events.ts";
import type { CompareRequests } from "./protocol-compare.ts";
import type { MovesRequests } from "./protocol-moves.ts";
import type {
  Answer,
  EntryForm,
  NextThing,
  OptionValue,
  OwnTool,
  SetupChoice,
  ShareRow,
  Told,
} from "./protocol-parts.ts";
import type { ToolsRequests } from "./protocol-tools.ts";
import type { TurnedRequests } from "./protocol-turned.ts";
import type { WorkRequests } from "./protocol-work.ts";

export type { Answer, EntryForm, NextThing, OptionValue, OwnTool, SetupChoice, Told };

/*
 * Everything that the page and its worker say to each other. Plain data only, for it is copied from one thread to the
 * other. Drawings are SVG text; numbers that a person reads are words already.
 */

/** An event before it has an id, a time and who made it. */
export type Draft = {
  [Kind in EventKind]: { readonly kind: Kind } & Omit<EventOf<Kind>, "v" | "id" | "at" | "by">;
}[EventKind];

export interface MachineCard {
  readonly id: string;
  readonly name: string;
  readonly demonstration: boolean;
  /** Why, where the machine has been set aside. */
  readonly setAside: string | null;
  readonly sentence: string;
  readonly measured: string;
  readonly plan: string;
  readonly next: NextThing | null;
  /** What the logbook is refused for; then nothing else is known of it. */
  readonly refused: readonly Told[];
}

export interface NumberRow {
  readonly words: string;
  readonly value: string;
  readonly uncertainty: string;
  readonly unit: string;
}

export interface Overview {
  readonly name: string;
  readonly demonstration: boolean;
  readonly setAside: string | null;
  readonly headline: string;
  /** What the first that is out means at the machine; empty where nothing is. */
  readonly meaning: string;
  readonly sheet: string;
  readonly plan: string;
  readonly shown: readonly NumberRow[];
  readonly next: NextThing | null;
  /** One sentence for each stage of the loop, by the stage's id. */
  readonly stages: Readonly<Record<string, string>>;
}

export type CheckState = "passed" | "failed" | "not done" | "not complete" | "taken";

/** A run that was begun and lacks stations: how many are read, and the number of the first that is not. */
export interface UnfinishedRun {
  readonly run: string;
  readonly read: number;
  readonly of: number;
  readonly next: number;
}

export interface CheckEntry {
  readonly id: string;
  readonly title: string;
  readonly settles: string;
  readonly minutes: number;
  readonly stage: string;
  readonly state: CheckState;
  /** Stations that did not pass, in words. */
  readonly where: readonly string[];
  /** Names a card of a round; of every other check its id. */
  readonly key: string;
  /** How a card of a round is set up. */
  readonly options: Readonly<Record<string, string>>;
  /** Why a card stands in its round, and what is put right where it does not pass. */
  readonly why: string;
  readonly putRight: string;
  /** The run that was begun last of all and lacks stations, where it is this one's. */
  readonly unfinished: UnfinishedRun | null;
  /** ISO date of the last run that stands, or null. */
  readonly last: string | null;
}

export interface CheckList {
  readonly machine: string;
  readonly fitToMeasure: readonly CheckEntry[];
  readonly fitToMeasurePassed: boolean;
  /** What stands before the cautions of every check. */
  readonly cautionHead: string;
  readonly shortRound: readonly CheckEntry[];
  readonly rest: readonly CheckEntry[];
  /** Key of the card that comes next. */
  readonly next: string | null;
  /** Runs that were begun and lack stations, the latest first. */
  readonly unfinished: readonly {
    readonly run: string;
    readonly check: string;
    readonly title: string;
    readonly read: number;
    readonly of: number;
  }[];
}

export interface OptionQuestion {
  readonly key: string;
  readonly question: string;
  readonly answers: readonly string[] | null;
  readonly number: { readonly unit: string; readonly from: number; readonly to: number } | null;
  readonly chosen: string | number;
}

export interface StationEntry {
  readonly number: number;
  readonly key: string;
  readonly words: string;
  /** In the user's own coordinates; empty where the place is told by words alone. */
  readonly place: string;
  readonly nominal: string;
}

export interface CheckPage {
  readonly id: string;
  readonly title: string;
  readonly settles: string;
  readonly minutes: number;
  readonly stage: string;
  readonly cautions: readonly string[];
  readonly cautionHead: string;
  readonly toolsAtHand: readonly string[];
  readonly steps: readonly string[];
  readonly sign: string;
  readonly goesWrong: readonly string[];
  readonly typical: string;
  /** What holds for this check as for others. */
  readonly standing: readonly { readonly title: string; readonly sentences: readonly string[] }[];
  readonly questions: readonly OptionQuestion[];
  /** Empty where nothing is read with an instrument. */
  readonly families: readonly string[];
  readonly instruments: readonly OwnTool[];
  /** The instruments of other families that could be tried. */
  readonly unusualInstruments: readonly OwnTool[];
  readonly kindsToAdd: readonly { readonly id: string; readonly name: string }[];
  readonly roles: readonly {
    readonly role: string;
    readonly objects: readonly OwnTool[];
    readonly kinds: readonly { readonly id: string; readonly name: string }[];
  }[];
  /** The choice as asked for, completed by what is usual. */
  readonly chosen: SetupChoice;
  readonly stations: readonly StationEntry[];
  /** Where the marks are cut between which lengths are read, in the user's own coordinates. */
  readonly marks: readonly string[];
  readonly entry: EntryForm;
  /** The run of this check that was broken off a short while ago, and nothing has happened to the machine since. */
  readonly unfinished: UnfinishedRun | null;
  /** The first station is read once more at the end. */
  readonly returns: boolean;
  readonly wide: string;
  readonly narrow: string;
  /** Whether the stations are told by coordinates and the user's own have never been tried. */
  readonly coordinatesUntried: boolean;
}

export interface ReadingEntry {
  readonly id: string;
  readonly station: string;
  readonly text: string;
  readonly withdrawn: string | null;
}

/** One run on its way: its stations, what has been read, and the picture of the station that is read now. */
export interface RunPage {
  readonly title: string;
  /** Key of the card that it belongs to, or of its check where it belongs to none. */
  readonly card: string;
  readonly run: string | null;
  readonly setup: SetupChoice;
  readonly stations: readonly StationEntry[];
  readonly readings: readonly ReadingEntry[];
  readonly entry: EntryForm;
  /** In one short line: somebody may come to the stations without having seen the cautions of the check. */
  readonly caution: string;
  readonly sign: string;
  readonly plan: string;
  readonly detail: string;
  readonly detailWords: string;
  /** The first station is read once more at the end. */
  readonly returns: boolean;
  readonly settles: string;
}

export interface ReadingVerdict {
  readonly reading: string;
  readonly run: string;
  readonly station: string;
  /** "noted" where nothing judges it; "passed" and "failed" of a look, a push or a count. */
  readonly fits: "fits" | "far" | "new" | "noted" | "passed" | "failed";
  /** Line 1 in its two parts: what stands out, and the rest. */
  readonly strong: string;
  readonly rest: string;
  readonly what: string;
}

export interface ReadOne {
  readonly events: readonly LogEvent[];
  readonly verdict: ReadingVerdict;
  /** Readings of this station that are withdrawn for this one. */
  readonly replaced: readonly string[];
}

export interface ReadMany {
  readonly events: readonly LogEvent[];
  readonly verdicts: readonly ReadingVerdict[];
}

export interface FindingRow {
  readonly id: string;
  readonly title: string;
  readonly symbol: string;
  readonly value: string;
  readonly uncertainty: string;
  readonly unit: string;
  readonly limit: string;
  readonly verdict: Verdict | null;
  /** The readings say next to nothing of it. */
  readonly unread: boolean;
  readonly heldBack: boolean;
  /** What stands beside the verdict: how likely it is within, or that what is usual says so; else "". */
  readonly chance: string;
  readonly bar: string;
  readonly meaning: string;
}

export interface GateLine {
  readonly check: string;
  readonly title: string;
  readonly state: string;
  readonly where: readonly string[];
}

export interface Concern {
  readonly kind: "odd" | "whole" | "returned" | "misread" | "scatter";
  readonly head: string;
  readonly text: string;
  readonly run: string | null;
  readonly readings: readonly string[];
  /** Of a run that was misread as a whole: the factor that puts it right, and why. */
  readonly factor: { readonly value: number; readonly because: string } | null;
}

export interface Findings {
  readonly machine: string;
  readonly headline: string;
  readonly readings: string;
  readonly gatePassed: boolean;
  readonly gate: readonly GateLine[];
  readonly rows: readonly FindingRow[];
  readonly concerns: readonly Concern[];
}

export interface FindingPage {
  readonly row: FindingRow;
  readonly whole: string;
  readonly limitIsOwn: boolean;
  readonly limitUnit: string;
  readonly limitValue: number | null;
  readonly chanceSentence: string;
  readonly homing: string;
  readonly carriedBy: readonly ShareRow[];
  readonly apart: string;
  /** The check is null where the line says that nothing would. */
  readonly sharpenedBy: readonly { readonly words: string; readonly check: string | null }[];
  readonly cure: string | null;
  readonly history: readonly HistoryRow[];
  readonly historyPlot: string;
}

export interface HistoryRow {
  readonly date: string;
  readonly value: string;
  readonly uncertainty: string;
  readonly low: number;
  readonly high: number;
  readonly after: string;
}

export interface RunEntry {
  readonly run: string;
  readonly check: string;
  readonly title: string;
  readonly how: string;
  readonly date: string;
  readonly instrument: string;
  readonly unit: string;
  readonly factor: string;
  readonly withdrawn: string | null;
  readonly concern: string;
  readonly plot: string;
  readonly note: string;
  readonly readings: readonly {
    readonly id: string;
    readonly number: number;
    readonly station: string;
    readonly place: string;
    readonly text: string;
    readonly odd: string;
    readonly withdrawn: string | null;
    readonly by: string;
  }[];
}

export interface HistoryPage {
  readonly findings: readonly {
    readonly id: string;
    readonly title: string;
    readonly unit: string;
    readonly plot: string;
    readonly rows: readonly HistoryRow[];
  }[];
  readonly dates: readonly string[];
  readonly log: readonly LogLine[];
  readonly members: readonly string[];
}

export interface LogLine {
  readonly id: string;
  readonly date: string;
  readonly time: string;
  readonly by: string;
  readonly words: string;
  /** Checksum of a photograph that the line speaks of. */
  readonly photograph: string | null;
  /** The machine was another before and after it, and was measured on both sides. */
  readonly isChange: boolean;
  /** What can be taken back by its id, and by whom: what the machine is, its owner says. */
  readonly takeBack: "by anybody" | "by the owner" | null;
}

export interface DescriptionPage {
  readonly machine: MachineDescription;
  readonly coordinates: UserCoordinates | null;
  readonly setAside: string | null;
}

export interface Drawn {
  /** One view each, low enough to stay in sight while a phone's fields are filled. */
  readonly strips: { readonly plan: string; readonly front: string };
  readonly plan: string;
  readonly sheet: string;
  /** Empty where the user's axes are Kilter's own. */
  readonly axes: string;
  /** Where each of the eight numbers is measured, by its letter. */
  readonly numbers: string;
  readonly told: readonly Told[];
}

export interface TypedStation {
  readonly station?: string;
  readonly text: string;
  readonly unit?: string;
  readonly line?: number;
}

/** What the page asks, and what it gets. */
export interface Requests extends MovesRequests, WorkRequests, CompareRequests, TurnedRequests, ToolsRequests {
  add: { ask: { machine: string; demonstration?: boolean; events: readonly LogEvent[] }; answer: null };
  forget: { ask: { machine: string }; answer: null };
  list: {
    ask: Record<string, never>;
    answer: readonly {
      readonly id: string;
      readonly name: string;
      readonly demonstration: boolean;
      readonly setAside: string | null;
    }[];
  };
  card: { ask: { machine: string }; answer: MachineCard | null };
  overview: { ask: { machine: string; projection: ProjectionAngle }; answer: Answer<Overview> };
  checks: { ask: { machine: string }; answer: Answer<CheckList> };
  check: {
    ask: { machine: string; choice: Partial<SetupChoice> & { check: string }; unit: string | null };
    answer: Answer<CheckPage>;
  };
  run: {
    ask: { machine: string; run: string | SetupChoice; now: string | null; unit: string | null };
    answer: Answer<RunPage>;
  };
  nextLeaf: { ask: { machine: string; instrument: string; goes: string; unit: string }; answer: string };
  readOne: {
    ask: {
      machine: string;
      into: string | SetupChoice;
      station: string;
      text: string;
      unit: string;
      again: string | null;
      by: string;
    };
    answer: Answer<ReadOne>;
  };
  knownBetter: { ask: { machine: string }; answer: string };
  readMany: {
    /** `at`: when it was read, ms; now where it is left out. */
    ask: { machine: string; setup: SetupChoice; readings: readonly TypedStation[]; by: string; at?: number };
    answer: Answer<ReadMany>;
  };
  table: { ask: { text: string; name: string; unit: string }; answer: Answer<readonly TypedStation[]> };
  findings: { ask: { machine: string }; answer: Answer<Findings> };
  finding: { ask: { machine: string; finding: string }; answer: Answer<FindingPage> };
  readings: { ask: { machine: string }; answer: Answer<readonly RunEntry[]> };
  history: { ask: { machine: string }; answer: Answer<HistoryPage> };
  takeEntryBack: { ask: { machine: string; event: string; by: string }; answer: Answer<readonly LogEvent[]> };
  description: { ask: { machine: string }; answer: Answer<DescriptionPage> };
  draw: {
    ask: { machine: MachineDescription; coordinates: UserCoordinates | null; projection: ProjectionAngle };
    answer: Drawn;
  };
  begin: { ask: { drafts: readonly Draft[]; by: string }; answer: Answer<readonly LogEvent[]> };
  propose: { ask: { machine: string; drafts: readonly Draft[]; by: string }; answer: Answer<readonly LogEvent[]> };
  logbook: { ask: { machine: string }; answer: string };
}

export type RequestName = keyof Requests;
export type Ask<Name extends RequestName> = Requests[Name]["ask"];
export type AnswerTo<Name extends RequestName> = Requests[Name]["answer"];

export interface Question {
  readonly number: number;
  readonly name: RequestName;
  readonly ask: unknown;
}

/**
 * From the worker: an answer, what went wrong inside it (nothing where only a part of its script could not be fetched), or
 * that a machine is not what it was.
 */
export type FromWorker =
  | { readonly number: number; readonly answer: unknown }
  | { readonly number: number; readonly fault: string }
  | { readonly changed: string };
