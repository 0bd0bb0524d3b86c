import type { Assessment } from "../../app/assess.ts";
import { planFor, type WorkPlan } from "../../app/plan-for.ts";
import type { ProgrammeSolver } from "../../core/planning/integer-programme.ts";
import { versionOf } from "./held.ts";
import type { WhatIf } from "./protocol-moves.ts";

/** The plan that was worked out last for each machine: the moves and the work are asked for one after the other. */
const kept = new Map<string, { readonly version: number; readonly what: string; readonly plan: WorkPlan }>();

export function keptPlan(machine: string, assessment: Assessment, solve: ProgrammeSolver, what: WhatIf): WorkPlan {
  const version = versionOf(machine);
  const asked = JSON.stringify(what);
  const known = kept.get(machine);
  if (known?.version === version && known.what === asked) return known.plan;
  const plan = planFor(assessment, solve, what);
  kept.set(machine, { version, what: asked, plan });
  return plan;
}
