// What to measure next on the demonstration, for all that any two kinds of work ask at once, in a process that has done
// nothing else than read and fit it: node --import tsx bench/next-check.ts
import { readFileSync } from "node:fs";
import { instrumentKinds } from "../src/app/catalog.ts";
import { demandsOfKind, kindsOfWork } from "../src/app/kinds-of-work.ts";
import { openSession } from "../src/app/session.ts";
import { estimateTimeline } from "../src/core/fit/estimate.ts";
import { rankRuns } from "../src/core/planning/next-check.ts";
import { decisionOf, standingOf } from "../src/core/planning/next-check-deciding.ts";
import { possibleRuns } from "../src/core/planning/possible-runs.ts";
import { judgeDemands } from "../src/core/work/judge.ts";
import { print, tell } from "./measure.ts";

const { mostMs } = JSON.parse(readFileSync(new URL("budgets.json", import.meta.url), "utf8")).nextCheck;

const file = new URL("../catalog/demonstration/shared-workshop.jsonl", import.meta.url);
const session = openSession(readFileSync(file, "utf8"), "demonstration");
if (!session.ok) throw new Error(JSON.stringify(session.diagnostics.slice(0, 3)));
const { timeline, machine } = session.value;
const estimate = estimateTimeline(machine, timeline);
const standing = standingOf(estimate, false);
const [most, second] = [...kindsOfWork.keys()]
  .map((kind) => demandsOfKind(kind, machine))
  .sort((a, b) => b.length - a.length);
const demands = [...most, ...second];
const { results } = judgeDemands(standing.state, demands);

const started = performance.now();
const { own } = possibleRuns(machine, timeline, { kinds: [...instrumentKinds.values()] });
// Every demand counts as undecided, which on this machine they are not: all their samples are asked about.
const decisions = results.map((result) => ({ ...decisionOf(standing, { ...result, probability: 0.5 }), undecided: 1 }));
const ranked = rankRuns(estimate, decisions, own);
const took = performance.now() - started;
const functions = decisions.reduce((sum, decision) => sum + decision.functions.length, 0);
tell(
  `${own.length} runs of the whole catalogue, ${demands.length} demands by ${functions} samples, ${ranked.length} worth it`,
);
print({ name: "what to measure next, over the whole catalogue", value: took, unit: "ms", budget: mostMs });
