// 10,000 draws over all demands of one kind of work, the one with the most to look at, in a process that has judged
// nothing before: node --import tsx bench/demands.ts
import { readFileSync } from "node:fs";
import { demandsOfKind, kindsOfWork } from "../src/app/kinds-of-work.ts";
import { estimateTimeline } from "../src/core/fit/estimate.ts";
import { nominalState } from "../src/core/machine/machine.ts";
import type { Demand } from "../src/core/work/demand.ts";
import { judgeDemands } from "../src/core/work/judge.ts";
import { workState } from "../src/core/work/work-state.ts";
import { plannedTimeline, sixChecks, workedMachine } from "../tests/simulation/simulate.ts";
import { median, print } from "./measure.ts";

const { draws, judgeMs } = JSON.parse(readFileSync(new URL("budgets.json", import.meta.url), "utf8")).demands;

const machine = workedMachine("moving-gantry");
const bare = { machine, state: nominalState(machine), size: 0, skim: null };
const samplesOf = (demands: readonly Demand[]) => demands.reduce((sum, { samples }) => sum + samples(bare).length, 0);
const [id, demands] = [...kindsOfWork.keys()]
  .map((kind) => [kind, demandsOfKind(kind, machine)] as const)
  .reduce((most, next) => (samplesOf(next[1]) > samplesOf(most[1]) ? next : most));
// The bed has been skimmed: the state of that moment comes along, and the draws are twice as wide.
const happenings = [{ kind: "skimmed", id: "skim", at: 3_600_000 }] as const;
const state = workState(estimateTimeline(machine, { ...plannedTimeline(machine, sixChecks()), happenings }));

const judged = () => {
  const started = performance.now();
  judgeDemands(state, demands, draws);
  return performance.now() - started;
};
const first = judged();
const further = median(Array.from({ length: 7 }, judged));
const name = `${draws} draws over ${samplesOf(demands)} samples of ${id}`;
print(
  { name, value: first, unit: "ms", budget: judgeMs },
  { name: "  once more", value: further, unit: "ms", budget: null },
);
