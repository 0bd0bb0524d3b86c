import { formatTrimmed } from "../../core/base/number-format.ts";
import type { MachineDescription } from "../../core/machine/description.ts";
import { reachOf } from "../../core/machine/reach.ts";

/** What a newer description changes, in sentences: the numbers with what they were before. */
export function describedAnew(before: MachineDescription, now: MachineDescription): string {
  const changed = numbers.flatMap(([words, numberOf]) => {
    const [was, is] = [numberOf(before), numberOf(now)];
    return was === is ? [] : [`${words} ${shown(is)}, before ${shown(was)}`];
  });
  const others = before.layout !== now.layout || JSON.stringify(before.details) !== JSON.stringify(now.details);
  if (others) changed.push(changed.length === 0 ? "its details" : "details");
  if (changed.length === 0) return "The machine is described again, by the same numbers.";
  const keeps = JSON.stringify(reachOf(before)) !== JSON.stringify(reachOf(now));
  return `Its description is changed: ${changed.join("; ")}.${keeps ? " Earlier readings keep the places where they were taken." : ""}`;
}

const shown = (mm: number) => `${formatTrimmed(mm, 2)} mm`;

const numbers: readonly (readonly [words: string, numberOf: (machine: MachineDescription) => number])[] = [
  ["travel along X", ({ travelMm }) => travelMm.x],
  ["travel along Y", ({ travelMm }) => travelMm.y],
  ["travel along Z", ({ travelMm }) => travelMm.z],
  ["left plane", ({ railPlanesMm }) => railPlanesMm.left],
  ["right plane", ({ railPlanesMm }) => railPlanesMm.right],
  ["distance of the feet", ({ wheelbaseMm }) => wheelbaseMm],
  ["height of the beam's centre", ({ beamCentreMm }) => beamCentreMm],
  ["tool from the beam", ({ toolFromBeamMm }) => toolFromBeamMm],
];
