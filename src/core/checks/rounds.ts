import type { Machine } from "../machine/machine.ts";
import { fitToMeasureRound, shortRound } from "./catalogue.ts";
import type { Check } from "./check.ts";

type Answers = Readonly<Record<string, string>>;

/** One card of a round: a check, done in one way. */
export interface RoundCard {
  /** Names the card within its round, for addresses. */
  readonly key: string;
  readonly title: string;
  readonly check: Check;
  /** Answers to the check's questions that make it this card: with others it is another card. */
  readonly answers: Answers;
  /** Answers that the round proposes; the card is done with others as well. */
  readonly proposed: Answers;
}

/** The looks, pushes and counts that come first. What has to be done with each axis is a card for each. */
export function fitToMeasureCards(machine: Machine): readonly RoundCard[] {
  return fitToMeasureRound(machine).flatMap((check) =>
    (check.doneWith ?? [{}]).map((answers) => cardOf(check, answers)),
  );
}

/** What the short round takes when the machine is fit to be measured. */
export function shortRoundCards(machine: Machine): readonly RoundCard[] {
  const first = new Set(fitToMeasureRound(machine).map(({ id }) => id));
  return shortRound(machine)
    .filter(({ id }) => !first.has(id))
    .flatMap((check) => {
      if (check.id === "turnaround") return ["X", "Y"].map((axis) => cardOf(check, { axis }));
      // Four pricks need no more than a rule and a pointed cutter, and span the whole travel.
      if (check.id === "hole-rectangle") return [cardOf(check, {}, { marks: "pricks" })];
      return [cardOf(check, {})];
    });
}

function cardOf(check: Check, answers: Answers, proposed: Answers = {}): RoundCard {
  const said = Object.values(answers);
  return {
    key: [check.id, ...said].join("-"),
    title: [check.words.title, ...said].join(", "),
    check,
    answers,
    proposed,
  };
}
