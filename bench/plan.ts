// The whole plan, judged before and after, on 50 random machines after one round of readings, 25 a layout; and how long
// native HiGHS takes for the first programme of each where Debian's python3-scipy is at hand:
// node --import tsx bench/plan.ts
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import type { IntegerProgramme, ProgrammeSolver } from "../src/core/planning/integer-programme.ts";
import { planMoves } from "../src/core/planning/planner.ts";
import { loadSolver } from "../src/solver/highs.ts";
import { questionAfterOneRound } from "../tests/simulation/closed-loop.ts";
import { median, print, tell } from "./measure.ts";

const { medianMs, worstMs } = JSON.parse(readFileSync(new URL("budgets.json", import.meta.url), "utf8")).plan;
const solve = await loadSolver();

const took: number[] = [];
const firstProgrammes: { readonly programme: IntegerProgramme; readonly ms: number }[] = [];
let unproven = 0;
for (let i = 0; i < 50; i++) {
  const question = questionAfterOneRound(i % 2 === 0 ? "moving-gantry" : "fixed-bridge", 4_000_000 + i);
  let isFirst = true;
  const watched: ProgrammeSolver = (programme, mostNodes) => {
    const started = performance.now();
    const solution = solve(programme, mostNodes);
    if (isFirst) firstProgrammes.push({ programme, ms: performance.now() - started });
    isFirst = false;
    return solution;
  };
  const started = performance.now();
  const plan = planMoves(question, watched);
  took.push(performance.now() - started);
  if (!plan.proven) unproven += 1;
}
tell(
  `50 plans, ${unproven} of them not proven to be the cheapest: stopped by nodes, or leaves too coarse for the bound`,
);
print(
  { name: "plan on a random machine, median of 50", value: median(took), unit: "ms", budget: medianMs },
  { name: "plan on a random machine, worst of 50", value: Math.max(...took), unit: "ms", budget: worstMs },
);
compareWithNative();

/** The ratio is stated where it can be had: a wall of another language is no budget of ours. */
function compareWithNative(): void {
  const native = `
import json, sys, time
try:
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
except ImportError:
    sys.exit(3)
times = []
for p in json.load(sys.stdin):
    n, m = len(p["cost"]), len(p["rows"])
    a = np.zeros((m, n))
    for i, row in enumerate(p["rows"]):
        a[i, row["columns"]] = row["coefficients"]
    inf = lambda xs: [float("inf") if x == "inf" else float("-inf") if x == "-inf" else x for x in xs]
    rows = LinearConstraint(a, inf(p["low"]), inf(p["high"]))
    start = time.perf_counter()
    milp(p["cost"], constraints=rows, integrality=p["whole"], bounds=Bounds(inf(p["from"]), inf(p["to"])),
         options={"mip_rel_gap": 1e-4})
    times.append(1000 * (time.perf_counter() - start))
print(json.dumps(times))
`;
  const text = (x: number) => (x === Number.POSITIVE_INFINITY ? "inf" : x === Number.NEGATIVE_INFINITY ? "-inf" : x);
  const input = firstProgrammes.slice(0, 10).map(({ programme: { columns, rows } }) => ({
    cost: columns.map(({ cost }) => cost),
    from: columns.map(({ from }) => text(from)),
    to: columns.map(({ to }) => text(to)),
    whole: columns.map(({ whole }) => (whole ? 1 : 0)),
    rows,
    low: rows.map(({ from }) => text(from)),
    high: rows.map(({ to }) => text(to)),
  }));
  const { status, stdout } = spawnSync("python3", ["-c", native], { input: JSON.stringify(input), encoding: "utf8" });
  if (status !== 0) {
    tell("native HiGHS through scipy is not at hand (Debian: python3-scipy), so there is no ratio to it");
    return;
  }
  const nativeMs: number[] = JSON.parse(stdout);
  const ratio = median(firstProgrammes.slice(0, 10).map(({ ms }, i) => ms / nativeMs[i]));
  tell(`first programme of a plan: ours takes ${ratio.toFixed(1)} times what native HiGHS takes, median of 10`);
}
