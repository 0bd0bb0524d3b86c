import { formatNumber, formatTrimmed } from "../core/base/number-format.ts";
import { adjustersOf } from "../core/machine/adjusters/catalogue.ts";
import { handWayMm } from "../core/machine/adjusters/direction.ts";
import { directionOf } from "../core/machine/adjusters/sentence.ts";
import type { NotedMove } from "./note-move.ts";

/** What is said of a move that has been noted; each part may have nothing to say. */
export interface NotedWords {
  readonly noted: string;
  /** What a hand has moved and which way: "the beam's right end 0.29 mm up"; where there is no such way, as before. */
  readonly byHand: string;
  readonly lies: readonly string[];
  /** What the user's hands have taught. */
  readonly hands: readonly string[];
  readonly open: readonly string[];
}

/** @param isRead whether the gauge has been read once more after the joint was made fast */
export function notedInWords({ adjuster, amount, packingMm, session }: NotedMove, isRead: boolean): NotedWords {
  const { words, kind, sd } = adjuster;
  const unit = adjuster.unit === "" ? "" : ` ${adjuster.unit}`;
  const by = kind === "assign" ? "" : ` by ${withSign(amount)}${unit}`;
  const way = kind === "add" && adjuster.packing === "none" && adjuster.sd > 0 ? adjuster.moves : null;
  const usual = adjustersOf(session.machine, session.timeline.adjusterChanges).find(({ id }) => id === adjuster.id);
  const hands =
    usual === undefined || usual.sd === sd
      ? []
      : [
          `What nipping up leaves to chance here, by what your gauge has read: ${formatNumber(sd, 3)}${unit}; usual is ${formatNumber(usual.sd, 3)}.`,
        ];
  const byHand =
    way === null
      ? `${words}${by}`
      : `${way.words} ${formatTrimmed(handWayMm(way, amount), 2)}\u00a0mm ${directionOf(adjuster, amount)}`;
  return {
    noted: `Noted: ${words}${by}.`,
    byHand: `Noted: ${byHand}.`,
    lies: packingMm === null ? [] : [`${placeInWords(packingMm)} there now.`],
    hands,
    open: !isRead && kind === "assign" ? ["What this has left is not known until it is read again."] : [],
  };
}

/** "+0.3" and "−0.1". */
function withSign(value: number): string {
  return `${value > 0 ? "+" : ""}${formatTrimmed(value, 3)}`;
}

/** "0.35 mm lie": below nothing it lies behind the bottom screws of a place that has both. */
function placeInWords(packingMm: number): string {
  if (packingMm === 0) return "Nothing lies";
  const where = packingMm < 0 ? " behind the bottom screws" : "";
  return `${formatTrimmed(Math.abs(packingMm), 3)} mm lie${where}`;
}
