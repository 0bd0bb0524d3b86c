import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import { adjustersOf } from "../machine/adjusters/catalogue.ts";
import type { Machine } from "../machine/machine.ts";
import { lettersInView } from "./adjuster-letters.ts";
import { hexagonRadius } from "./adjuster-marks.ts";
import { type FigureUse, figure } from "./figure.ts";
import { lettering } from "./lettering.ts";
import { line, type Point } from "./lines.ts";
import { type Part, partsOfMachine } from "./machine-parts.ts";
import { sheetPose } from "./machine-sheet.ts";
import { machineView } from "./machine-view.ts";
import { adjusterHexagon, frontOfMachine } from "./marks.ts";
import { extentOf, type Frame } from "./projection.ts";
import type { Svg } from "./svg.ts";

/** The machine with its adjusters by letter, for a list of them. */
export interface AdjusterPlan {
  readonly machine: Machine;
  /** The machine's own where absent; those that are not available are left out. */
  readonly adjusters?: readonly Adjuster[];
  /** Name of the adjuster that is at hand. */
  readonly now?: string | null;
}

export const adjusterPlanWidth = 390;

const ROOM = { wide: 330, deep: 300 } as const;
const ROW = 27;

/** Plan over front view, every joint with its letter where its screws are; numbers and cuts in a list beneath. */
export function adjusterPlan({ machine, adjusters, now = null }: AdjusterPlan, use: FigureUse = "file"): Svg {
  const shown = (adjusters ?? adjustersOf(machine)).filter(({ available }) => available);
  const pose = sheetPose(machine);
  const parts = partsOfMachine(machine.dimensions, pose);
  const { plan, front, planBottom, frontBottom } = framesOf(parts);
  const joints = { machine, adjusters: shown, pose, now };
  const listTop = frontBottom + 34;
  const rows = rowsOf(shown.filter(({ fasteners }) => fasteners.places.length === 0));
  const [left, right] = [2, adjusterPlanWidth - 2];
  const body = [
    machineView(plan, parts, { estimate: null }),
    frontOfMachine([adjusterPlanWidth / 2, planBottom + 8]),
    lettersInView(plan, joints, { left, right, top: 2, bottom: planBottom + 6 }),
    machineView(front, parts, { estimate: null }),
    lettering("left", [12, frontBottom + 17], { second: true }),
    lettering("from the front", [adjusterPlanWidth / 2, frontBottom + 17], { second: true, anchor: "middle" }),
    lettering("right", [adjusterPlanWidth - 12, frontBottom + 17], { second: true, anchor: "end" }),
    lettersInView(front, joints, { left, right, top: planBottom + 44, bottom: frontBottom + 2 }),
    rows.length > 0 ? line("hair", [12, listTop - 6], [adjusterPlanWidth - 12, listTop - 6]) : "",
    rows.map((row, i) => listed(row, [12, listTop + i * ROW + ROW / 2], now)).join(""),
  ].join("");
  const height = listTop + rows.length * ROW + 4;
  return figure(adjusterPlanWidth, height, wordsFor(machine, shown), body, use);
}

function framesOf(parts: readonly Part[]) {
  const seenFromAbove = extentOf("plan", parts);
  const seenFromFront = extentOf("front", parts);
  const scale = Math.min(
    ROOM.wide / (seenFromAbove.high[0] - seenFromAbove.low[0]),
    ROOM.deep / (seenFromAbove.high[1] - seenFromAbove.low[1]),
  );
  const left = (adjusterPlanWidth - scale * (seenFromAbove.high[0] - seenFromAbove.low[0])) / 2;
  const x = left - scale * seenFromAbove.low[0];
  const planTop = 18;
  const planBottom = planTop + scale * (seenFromAbove.high[1] - seenFromAbove.low[1]);
  // Room over the front view for the letters of what stands close together at the tool.
  const frontTop = planBottom + 84;
  const plan: Frame = { view: "plan", scale, origin: [x, planTop + scale * seenFromAbove.high[1]] };
  const front: Frame = { view: "front", scale, origin: [x, frontTop + scale * seenFromFront.high[1]] };
  return { plan, front, planBottom, frontBottom: frontTop + scale * (seenFromFront.high[1] - seenFromFront.low[1]) };
}

/** Adjusters without a joint, those of one kind in a row. */
function rowsOf(adjusters: readonly Adjuster[]): readonly (readonly Adjuster[])[] {
  const kinds = new Map<string, Adjuster[]>();
  for (const adjuster of adjusters) {
    const kind = adjuster.id.split(".")[0]!;
    kinds.set(kind, [...(kinds.get(kind) ?? []), adjuster]);
  }
  return [...kinds.values()];
}

function listed(row: readonly Adjuster[], [left, middle]: Point, now: string | null): Svg {
  const marks = row.map((adjuster, i) =>
    adjusterHexagon(
      [left + 12 + i * 25, middle],
      adjuster.letter,
      adjuster.id === now ? "now" : "open",
      hexagonRadius(adjuster.letter),
    ),
  );
  const [first, ...others] = row;
  const axes = others.map(({ id }) => `, ${id.slice(-1).toUpperCase()}`).join("");
  return marks.join("") + lettering(`${first!.words}${axes}`, [left + 90, middle + 4.5]);
}

function wordsFor(machine: Machine, adjusters: readonly Adjuster[]) {
  return {
    title: `${machine.description.name}, where it can be adjusted`,
    description: `Plan over front view. ${adjusters.map(({ letter, words }) => `${letter}: ${words}.`).join(" ")}`,
  };
}
