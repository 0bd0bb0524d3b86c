import { formatTrimmed } from "../../base/number-format.ts";
import type { DriveDescription } from "../description.ts";
import { stepsPerMmFromDescription } from "../drives.ts";
import type { Adjuster, Turned } from "./adjuster.ts";
import { handWayMm } from "./direction.ts";

/** By what one side of an axis with two sides is set ahead of the other, as far as its drive is described. */
export function turnedOfSide(drive: DriveDescription, side: "left" | "right", motors: 1 | 2): readonly Turned[] {
  const { kind, travelPerTurnMm, beltPitchMm } = drive;
  const steps = stepsPerMmFromDescription(drive);
  const screw = kind === "screw" && travelPerTurnMm !== undefined;
  const tooth = kind === "belt" && beltPitchMm !== undefined;
  // Where each side has its motor a homing sets it: whatever is turned at its drive by hand is lost again there.
  if (motors === 2) return steps === null ? [] : [{ by: "step", words: `the ${side} motor`, wayMm: 1 / steps }];
  return [
    ...(screw ? [{ by: "turn", words: `the ${side} screw`, wayMm: travelPerTurnMm } as const] : []),
    ...(tooth ? [{ by: "tooth", words: `the ${side} belt`, wayMm: beltPitchMm } as const] : []),
  ];
}

/** An amount in turns, teeth and steps, a sentence each; null where the description does not tell what is turned. */
export function turnedInWords(
  { turned = [], moves }: Pick<Adjuster, "turned" | "moves">,
  amount: number,
): string | null {
  if (moves === null || turned.length === 0 || amount === 0) return null;
  const way = handWayMm(moves, amount);
  return turned.map((one) => sentences[one.by](one, way)).join(" ");
}

const sentences: Readonly<Record<Turned["by"], (turned: Turned, wayMm: number) => string>> = {
  turn: ({ words, wayMm }, way) => {
    const eighths = Math.round((8 * way) / wayMm);
    const far = eighths === 0 ? "less than an eighth of a turn" : `about ${turnsText(eighths)}`;
    return `By hand that is ${far} of ${words}, ${mm(wayMm)} a turn.`;
  },
  tooth: ({ words, wayMm }, way) => {
    const teeth = Math.round(way / wayMm);
    const rest = way - teeth * wayMm;
    const each = `${mm(wayMm)} a tooth`;
    if (teeth === 0) return `That is less than half a tooth of ${words}, ${each}: shift it in its clamp.`;
    const left = mm(Math.abs(rest));
    const clamp = Number.parseFloat(left) === 0 ? "" : `, and ${left} ${rest > 0 ? "more" : "back"} in its clamp`;
    return `That is ${teeth === 1 ? "1 tooth" : `${teeth} teeth`} of ${words}, ${each}${clamp}.`;
  },
  step: ({ words, wayMm }, way) =>
    `As a home offset in the controller that is ${mm(way)}, or ${formatTrimmed(way / wayMm, 0)} steps of ${words}.`,
};

/** "a quarter turn", "3/8 of a turn", "1 1/2 turns". */
function turnsText(eighths: number): string {
  const whole = Math.floor(eighths / 8);
  const rest = eighths % 8;
  const fraction = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"][rest];
  if (whole === 0)
    return ({ 2: "a quarter turn", 4: "half a turn" } as Record<number, string>)[rest] ?? `${fraction} of a turn`;
  if (rest === 0) return whole === 1 ? "1 turn" : `${whole} turns`;
  return `${whole} ${fraction} turns`;
}

function mm(length: number): string {
  return formatTrimmed(length, 2);
}
