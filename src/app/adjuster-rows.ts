import { adjustersForTimeline } from "../core/fit/hand-scatter.ts";
import { packingNow } from "../core/fit/packing-now.ts";
import type { Adjuster, Turned } from "../core/machine/adjusters/adjuster.ts";
import { directionWord } from "../core/machine/adjusters/direction.ts";
import type { Session } from "./session.ts";

/** A place where the machine can be changed, as it is for this user now. */
export interface AdjusterRow {
  readonly letter: string;
  readonly adjuster: string;
  readonly words: string;
  /** What a plus amount does; empty where nothing is moved by an amount. */
  readonly plus: string;
  readonly unit: Adjuster["unit"];
  /** From where it stands now. */
  readonly from: number;
  readonly to: number;
  readonly standardUncertainty: number;
  readonly minutes: number;
  readonly available: boolean;
  /** What is turned or shifted for it, with the way of each turn, tooth or step. */
  readonly turned: readonly Turned[];
  /** Why it must stay as it is; null where it may be moved. */
  readonly locked: string | null;
  /** What lies there now, mm; null where nothing is packed. */
  readonly packingMm: number | null;
  readonly cure: Adjuster["cure"];
  readonly readAgain: readonly string[];
}

export function adjusterRows({ machine, timeline }: Pick<Session, "machine" | "timeline">): readonly AdjusterRow[] {
  const packing = packingNow(machine, timeline);
  return adjustersForTimeline(machine, timeline).map((adjuster) => {
    const { id, letter, words, unit, range, sd, minutes, available, cure, readAgain, turned = [] } = adjuster;
    const lies = packing.get(id) ?? null;
    return {
      letter,
      adjuster: id,
      words,
      plus: plusOf(adjuster),
      unit,
      from: range[0] - (lies ?? 0),
      to: range[1] - (lies ?? 0),
      standardUncertainty: sd,
      minutes,
      available,
      turned,
      locked: timeline.wishes.locks.get(id) ?? null,
      packingMm: lies,
      cure,
      readAgain: readAgain?.checks ?? [],
    };
  });
}

function plusOf({ kind, moves }: Adjuster): string {
  if (kind !== "add" || moves === null) return "";
  return `${moves.words} ${directionWord(moves.along)}`;
}
