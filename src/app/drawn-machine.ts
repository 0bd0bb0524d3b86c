import { machineSheet } from "../core/drawing/machine-sheet.ts";
import type { ProjectionAngle } from "../core/drawing/marks.ts";
import { showFinding } from "../core/findings/shown.ts";
import type { Adjuster } from "../core/machine/adjusters/adjuster.ts";
import type { Assessment } from "./assess.ts";

/** What the sheet's table lists: the findings that make the shape. */
const listed = [
  "squareness",
  "over-bed.x",
  "over-bed.y",
  "over-bed.twist",
  "beam-over-bed.front",
  "beam-over-bed.rear",
  "plunge-to-motion.side",
  "plunge-to-motion.fore",
  "tram.side",
  "tram.fore",
  "grid-to-motion",
];

/** One finding in numbers, as a sheet or a page shows it. */
export interface ShapeNumber {
  readonly words: string;
  readonly value: string;
  readonly uncertainty: string;
  readonly unit: string;
}

/** What the drawing shows, in numbers. */
export function shapeNumbers({ findings }: Assessment): readonly ShapeNumber[] {
  return listed.flatMap((id) => {
    const result = findings.find(({ finding }) => finding.id === id);
    if (!result) return [];
    const { value, uncertainty, unit } = showFinding(result);
    return [{ words: result.finding.title, value, uncertainty, unit }];
  });
}

/** The machine as estimated, over the machine as it should be. */
export function drawnMachine(
  assessment: Assessment,
  use: "file" | "page",
  projection: ProjectionAngle = "third",
  adjusters: readonly Adjuster[] = [],
): string {
  const { machine, estimate } = assessment;
  const shown = shapeNumbers(assessment).map(({ words, value, uncertainty, unit }) => ({
    words: `${words}, ${unit}`,
    value,
    U: uncertainty,
  }));
  const told = { readings: readingsInWords(assessment), date: dateOf(assessment) };
  return machineSheet({ machine, state: estimate.state, projection, shown, adjusters, ...told }, use);
}

export function readingsInWords({ timeline }: Assessment): string {
  const runs = new Set(timeline.readings.map(({ run }) => run)).size;
  return `${timeline.readings.length} in ${runs} runs`;
}

/** The date of the last reading: a sheet shows the machine as it was measured, not as it was printed. */
export function dateOf({ timeline }: Assessment): string {
  const last = timeline.readings.reduce((latest, { at }) => Math.max(latest, at), 0);
  return last === 0 ? "not measured yet" : new Date(last).toISOString().slice(0, 10);
}
