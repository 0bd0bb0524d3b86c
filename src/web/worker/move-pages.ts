import { type AdjusterRow, adjusterRows } from "../../app/adjuster-rows.ts";
import { changeAdjuster as changeEvent } from "../../app/change-adjuster.ts";
import { kindsOfWork, usualKindOfWork } from "../../app/kinds-of-work.ts";
import { type NotedMove, noteMove as note } from "../../app/note-move.ts";
import { notedInWords } from "../../app/noted-words.ts";
import { cautionsBefore, cautionsMeanwhile } from "../../app/plan-words.ts";
import { type Session, sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { takeableFrom, takeBack } from "../../app/take-back.ts";
import { leafCounts, leavesFromText, leavesInWords } from "../../app/typed-leaves.ts";
import { numberOrNull } from "../../app/typed-number.ts";
import { usualStockMm } from "../../app/usual-stock.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { readNumber } from "../../core/base/number-entry.ts";
import { formatNumber, formatTrimmed } from "../../core/base/number-format.ts";
import { type Outcome, refuse, succeed } from "../../core/base/outcome.ts";
import { adjusterDrawing } from "../../core/drawing/adjuster-drawing.ts";
import { adjusterPlan } from "../../core/drawing/adjuster-plan.ts";
import { estimateTimeline } from "../../core/fit/estimate.ts";
import { adjustersForTimeline } from "../../core/fit/hand-scatter.ts";
import { packingNow } from "../../core/fit/packing-now.ts";
import { standingOf } from "../../core/fit/preview.ts";
import type { Adjuster } from "../../core/machine/adjusters/adjuster.ts";
import { amountForWay } from "../../core/machine/adjusters/direction.ts";
import { amountForFactor, directionOf } from "../../core/machine/adjusters/sentence.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { fasteningWords, readAgainEntries } from "./adjuster-words.ts";
import { counted } from "./counted.ts";
import { assessmentOf, eventsOfMachine, hereAndNow, sessionOf, versionOf } from "./held.ts";
import { openConcerns, toReadAgain } from "./next-thing.ts";
import type { Answer, Ask } from "./protocol.ts";
import type { AdjusterPage, AdjusterPlace, AmountAsked, AmountMade, MoveNoted, MovesBoard } from "./protocol-moves.ts";
import { answerFrom } from "./told.ts";

/** What is asked and at hand, what is locked, and what has been moved: everything about moves but the plan itself. */
export function movesBoard(machine: string): Answer<MovesBoard> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const { timeline, machine: body } = assessment;
    const { wishes } = timeline;
    const events = eventsOfMachine(machine);
    const isSaid = (kind: LogEvent["kind"]) => events.some((event) => event.kind === kind);
    const session = { machine: body, timeline };
    const stock = wishes.stockMm ?? usualStockMm;
    const adjusters = adjustersForTimeline(body, timeline);
    return {
      machine: timeline.machine.name,
      version: versionOf(machine),
      work: {
        isAsked: isSaid("work-chosen") || wishes.demands.size > 0,
        chosen: wishes.kindOfWork ?? usualKindOfWork.id,
        kinds: [...kindsOfWork.values()].map(({ id, name }) => ({ id, name })),
      },
      skim: { isAsked: isSaid("skim-decided"), will: wishes.willSkim },
      stock: {
        isUsual: wishes.stockMm === null,
        words: stock.length === 0 ? "none" : leavesInWords(stock),
        leaves: Array.from(leafCounts(stock), ([mm, count]) => ({ mm, count })),
      },
      places: adjusterRows(session).map(placeFrom),
      placesPicture: adjusterPlan({ machine: body, adjusters }, "page"),
      done: doneMoves(machine),
      readAgain: toReadAgain(assessment),
      disputed: openConcerns(assessment),
    };
  });
}

/** Moves that stand, the latest first. */
function doneMoves(machine: string): MovesBoard["done"] {
  const session = sessionOf(machine);
  if (!session.ok) return [];
  return takeableFrom(session.value).flatMap(({ happening, when, words }) =>
    happening.kind === "moved" ? [{ id: happening.id, adjuster: happening.adjuster, when, words }] : [],
  );
}

function placeFrom(row: AdjusterRow): AdjusterPlace {
  const signed = (value: number) => `${value > 0 ? "+" : ""}${formatTrimmed(value, 2)}`;
  return {
    id: row.adjuster,
    letter: row.letter,
    words: row.words,
    reach: row.unit === "" ? "" : `${signed(row.from)} to ${signed(row.to)} ${row.unit}`,
    lies: row.packingMm === null ? "" : `${formatTrimmed(Math.abs(row.packingMm), 3)} mm`,
    minutes: counted(Math.round(row.minutes), "minute"),
    available: row.available,
    locked: row.locked,
  };
}

/** One place where the machine can be changed, as it is known before anything is planned there. */
export function adjusterPage(machine: string, id: string): Answer<AdjusterPage> {
  const session = sessionOf(machine);
  if (!session.ok) return answerFrom(session, () => undefined as never);
  const { machine: body, timeline } = session.value;
  const adjuster = adjustersForTimeline(body, timeline).find((one) => one.id === id);
  const row = adjusterRows(session.value).find((one) => one.adjuster === id);
  if (!adjuster || !row) {
    return answerFrom(
      refuse<AdjusterPage>(refusal("adjuster-unknown", {}, { adjuster: id, meant: "" })),
      (page) => page,
    );
  }
  return answerFrom(succeed(adjuster), () => ({
    place: placeFrom(row),
    kind: adjuster.kind,
    drawing: adjusterDrawing({ machine: body, adjuster, amount: 0 }, "page"),
    does: adjuster.does ?? "",
    fastening: fasteningWords(adjuster),
    alsoLoose: adjuster.whatHolds.alsoLoose ?? "",
    cautions: cautionsBefore(adjuster),
    meanwhile: cautionsMeanwhile(adjuster),
    readAgain: readAgainEntries(adjuster),
    asks: amountAsked(adjuster),
  }));
}

function amountAsked(adjuster: Adjuster): AmountAsked {
  const { kind, packing, leavesLie = {}, moves, stepsPerMmNow, id, words } = adjuster;
  if (kind !== "add") return { kind: "none" };
  if (id.startsWith("steps.")) {
    return { kind: "steps", now: stepsPerMmNow === undefined ? "" : formatTrimmed(stepsPerMmNow, 4) };
  }
  if (packing !== "none") {
    const places =
      packing === "one place"
        ? [{ sign: 1 as const, words: leavesLie.only ?? words }]
        : [
            { sign: 1 as const, words: leavesLie.top ?? "top" },
            { sign: -1 as const, words: leavesLie.bottom ?? "bottom" },
          ];
    return { kind: "leaves", places };
  }
  return {
    kind: "way",
    of: moves?.words ?? words,
    plus: directionOf(adjuster, 1) ?? "plus",
    minus: directionOf(adjuster, -1) ?? "minus",
    over: moves?.over ? `over the ${formatTrimmed(moves.over.lengthMm, 1)} ${moves.over.words}` : "",
  };
}

/** A move that was made, with what the gauge read; nothing is kept of it here until its events come back by `add`. */
export function noteMove({
  machine,
  adjuster: id,
  made,
  planned,
  leaves,
  gauge,
  by,
}: Ask<"noteMove">): Answer<MoveNoted> {
  const opened = sessionOf(machine);
  if (!opened.ok) return answerFrom(opened, () => undefined as never);
  const session = opened.value;
  const stamp = new Stamp(hereAndNow, by === "" ? undefined : by);
  const adjuster = adjustersForTimeline(session.machine, session.timeline).find((one) => one.id === id);
  if (adjuster?.kind === "skim") return noteSkim(machine, session, stamp);
  const amount = adjuster ? amountOf(session, adjuster, made) : succeed({ amount: null, leaves: null });
  if (!amount.ok) return answerFrom(amount, () => undefined as never);
  const laid = made.kind === "planned" ? leaves : amount.value.leaves;
  const part = (text: string) => (text.trim() === "" ? undefined : text);
  const texts = gauge === null ? [] : [gauge.loose, gauge.nipped, gauge.final, gauge.other?.text ?? ""];
  const read = texts.some((text) => text.trim() !== "") ? gauge : null;
  const noted = note(session, stamp, {
    adjuster: id,
    amount: amount.value.amount,
    ...(planned !== null && { planned }),
    ...(laid !== null && { leaves: laid }),
    gauge: read && {
      into: read.into,
      station: read.station,
      unit: read.unit,
      ...(part(read.loose) && { loose: read.loose }),
      ...(part(read.nipped) && { nipped: read.nipped }),
      ...(part(read.final) && { final: read.final }),
      ...(read.other && part(read.other.text) && { other: read.other }),
    },
  });
  return answerFrom(noted, (value) => ({
    version: versionOf(machine) + value.events.length,
    ...notedPage(value, read !== null && read.final.trim() !== ""),
  }));
}

function noteSkim(machine: string, session: Session, stamp: Stamp): Answer<MoveNoted> {
  const event = stamp.event("skimmed", {} as never) as LogEvent;
  return answerFrom(sessionWith(session, [event]), () => ({
    version: versionOf(machine) + 1,
    events: [event],
    move: event.id,
    adjuster: "bed.skim",
    sentences: ["Noted: the bed is skimmed. Its surface is what the machine cut it to."],
    reading: null,
  }));
}

function notedPage(noted: NotedMove, isRead: boolean): Omit<MoveNoted, "version"> {
  const words = notedInWords(noted, isRead);
  const { reading, adjuster, events } = noted;
  const innovation = reading?.innovation ?? null;
  const size = innovation === null ? "" : formatNumber(Math.abs(innovation.away), 2);
  const isNear = innovation !== null && standingOf(innovation) === "near";
  return {
    events,
    move: events.find(({ kind }) => kind === "move-made")?.id ?? "",
    adjuster: adjuster.id,
    sentences: [words.byHand, ...words.lies, ...words.hands, ...words.open],
    reading: innovation && {
      // No mark of praise stands beside what only a wide doubt lets stand.
      fits: innovation.fits === "fits" && !isNear ? "new" : innovation.fits,
      words: {
        fits: isNear
          ? `The last reading fits: ${size} off what the move should have done.`
          : `The last reading is kept: ${size} off what the move should have done, and nothing known yet speaks against it.`,
        far: `The last reading stands ${size} off what the move should have done. Read it once more; if it reads the same, the joint went where it did not mean to.`,
        new: "The last reading is the first of its kind: nothing to hold it against yet.",
      }[innovation.fits],
    },
  };
}

/** The amount that was made, in the adjuster's unit, and the leaves where leaves were laid. */
function amountOf(
  session: Session,
  adjuster: Adjuster,
  made: AmountMade,
): Outcome<{
  readonly amount: number | null;
  readonly leaves: { laidMm: readonly number[]; takenOutMm: readonly number[] } | null;
}> {
  const alone = (amount: number | null) => succeed({ amount, leaves: null });
  switch (made.kind) {
    case "none":
      return alone(null);
    case "planned":
      return alone(adjuster.kind === "assign" ? null : made.amount);
    case "way": {
      const read = readNumber(made.text, { quantity: "length", usualUnit: "mm" });
      if (!read.ok) return read;
      return alone(made.sign * (adjuster.moves ? amountForWay(adjuster.moves, read.value.value) : read.value.value));
    }
    case "leaves": {
      const laid = leavesFromText(made.laid, "leaves laid");
      if (!laid.ok) return laid;
      const out = leavesFromText(made.takenOut, "leaves taken out");
      if (!out.ok) return out;
      if (laid.value.length + out.value.length === 0) {
        return refuse(refusal("amount-missing", {}, { adjuster: adjuster.id, unit: adjuster.unit }));
      }
      const sum = (leaves: readonly number[]) => leaves.reduce((total, leaf) => total + leaf, 0);
      const amount = Math.round(made.sign * (sum(laid.value) - sum(out.value)) * 1e6) / 1e6;
      return succeed({ amount, leaves: { laidMm: laid.value, takenOutMm: out.value } });
    }
    case "steps": {
      const number = numberOrNull(made.text);
      if (number === null || number <= 0) {
        const expected = "a number above 0, as it stands in the controller";
        return refuse(refusal("word-form", {}, { word: made.text, of: adjuster.words, expected }));
      }
      const [mode] = Object.keys(adjuster.effect);
      const index = session.machine.parameterIndex.get(mode) as number;
      const { state } = estimateTimeline(session.machine, session.timeline);
      return alone(amountForFactor(number / (adjuster.stepsPerMmNow ?? 1), state[index]));
    }
  }
}

/** Takes a move back, and with it the reading that was noted for it. */
export function takeMoveBack({ machine, move, by }: Ask<"takeMoveBack">): Answer<readonly LogEvent[]> {
  const session = sessionOf(machine);
  if (!session.ok) return answerFrom(session, () => []);
  const stamp = new Stamp(hereAndNow, by === "" ? undefined : by);
  const taken = takeBack(session.value, stamp, move, "noted by mistake");
  if (!taken.ok) return answerFrom(taken, () => []);
  return answerFrom(sessionWith(session.value, taken.value.events), () => taken.value.events);
}

/** Figures of the user's own for a place: how far it goes, or that there is no such place. */
export function changeAdjuster({ machine, adjuster, figures, by }: Ask<"changeAdjuster">): Answer<readonly LogEvent[]> {
  const opened = sessionOf(machine);
  if (!opened.ok) return answerFrom(opened, () => []);
  const session = opened.value;
  const stamp = new Stamp(hereAndNow, by === "" ? undefined : by);
  const own =
    "available" in figures ? succeed({ available: figures.available }) : rangeFrom(session, adjuster, figures);
  if (!own.ok) return answerFrom(own, () => []);
  const event = changeEvent(session, stamp, adjuster, own.value);
  return answerFrom(sessionWith(session, [event]), () => [event]);
}

/** Ways of the hand from where it stands now, as the range of the adjuster: for packing, of what may lie there in all. */
function rangeFrom(
  { machine, timeline }: Session,
  id: string,
  typed: { readonly plus: string; readonly minus: string },
): Outcome<{ readonly range: readonly [number, number] }> {
  const adjuster = adjustersForTimeline(machine, timeline).find((one) => one.id === id);
  if (!adjuster) return refuse(refusal("adjuster-unknown", {}, { adjuster: id, meant: "" }));
  const lies = adjuster.packing === "none" ? 0 : (packingNow(machine, timeline).get(id) ?? 0);
  const ends: number[] = [];
  for (const text of [typed.minus, typed.plus]) {
    const read = readNumber(text.trim() === "" ? "0" : text, { quantity: "length", usualUnit: "mm" });
    if (!read.ok) return read;
    const way = Math.abs(read.value.value);
    ends.push(adjuster.moves && adjuster.packing === "none" ? amountForWay(adjuster.moves, way) : way);
  }
  const from = adjuster.packing === "one place" ? Math.max(0, lies - ends[0]) : lies - ends[0];
  return succeed({ range: [from, lies + ends[1]] });
}
