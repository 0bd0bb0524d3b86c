import type { Machine } from "../machine/machine.ts";
import { angleFindings } from "./angles.ts";
import { lostMotionFindings, runoutFinding, scaleFindings } from "./axes.ts";
import { beamOverBed } from "./beam-over-bed.ts";
import type { Finding } from "./finding.ts";
import { depthSpread, overBed } from "./over-bed.ts";
import { axisFindings, plungeFindings } from "./plunge.ts";
import { printedGrid } from "./printed-grid.ts";
import { railFindings } from "./rails.ts";
import { squareness } from "./squareness.ts";
import { straightnessFindings } from "./straightness.ts";
import { tramFindings } from "./tram.ts";

/** Everything that a person may want to know of a machine, what matters most to work first. */
export const findings: readonly Finding[] = [
  squareness,
  depthSpread,
  ...overBed,
  ...beamOverBed,
  ...tramFindings,
  ...plungeFindings,
  ...axisFindings,
  ...lostMotionFindings,
  ...scaleFindings,
  runoutFinding,
  ...straightnessFindings,
  ...angleFindings,
  ...printedGrid,
  ...railFindings,
];

export function findingsOf(machine: Machine): readonly Finding[] {
  return findings.filter((finding) => finding.layouts.includes(machine.layout.id));
}
