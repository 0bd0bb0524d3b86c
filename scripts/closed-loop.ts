import { loadSolver } from "../src/solver/highs.ts";
import { closedLoop, type LoopResult, wilsonInterval } from "../tests/simulation/closed-loop.ts";

/**
 * The closed-loop trial: 300 random machines a layout are measured, planned for and moved, three rounds long, beside a
 * planner that knows the truth. `--shard 1/4` takes a quarter of the machines, `--layout` one layout.
 *
 * Passed when the upper end of the share's 95 % interval (Wilson) is not below the bar: gantry 75 %; bridge 90 % or nine
 * tenths of the clairvoyant's share; regret mean ≤ 0.05, 90th percentile ≤ 0.20. The bars are meant for all 300.
 */
const MACHINES = 300;
const SEED = 2_000_000;

const shardText = /^(\d+)\/(\d+)$/.exec(wordAfter("--shard") ?? "");
const [shard, shards] = shardText ? [Number(shardText[1]), Number(shardText[2])] : [1, 1];
const from = Math.floor(((shard - 1) * MACHINES) / shards);
const to = Math.floor((shard * MACHINES) / shards);
const only = wordAfter("--layout");

const solve = await loadSolver();
let allPassed = true;
for (const layout of ["moving-gantry", "fixed-bridge"] as const) {
  if (only !== undefined && only !== layout) continue;
  const results: LoopResult[] = [];
  for (let i = from; i < to; i++) {
    results.push(closedLoop(layout, SEED + i, solve));
    if (process.argv.includes("--each"))
      console.log(JSON.stringify({ layout, machine: i, ...results[results.length - 1] }));
  }
  allPassed = report(layout, results) && allPassed;
}
process.exitCode = allPassed ? 0 : 1;

function report(layout: string, results: readonly LoopResult[]): boolean {
  const n = results.length;
  const cured = results.filter(({ after }) => after <= 1).length;
  const clear = results.filter(({ clairvoyant }) => clairvoyant <= 1 + 1e-3).length;
  const [low, high] = wilsonInterval(cured, n);
  const [clearLow, clearHigh] = wilsonInterval(clear, n);
  const regret = results.map(({ after, clairvoyant }) => Math.max(after, 1) - Math.max(clairvoyant, 1)).sort(ascending);
  const mean = regret.reduce((sum, r) => sum + r, 0) / n;
  const most = regret[Math.min(n - 1, Math.floor(0.9 * n))];
  const bar = layout === "moving-gantry" ? 0.75 : Math.min(0.9, (0.9 * clear) / n);
  const passed = high >= bar && mean <= 0.05 && most <= 0.2;
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
  console.log(`${layout}, machines ${from} to ${to - 1}`);
  console.log(
    `  worst ratio at most 1: ${percent(cured / n)} of ${n} (${percent(low)} to ${percent(high)}), bar ${percent(bar)}`,
  );
  console.log(`  clairvoyant:           ${percent(clear / n)} (${percent(clearLow)} to ${percent(clearHigh)})`);
  console.log(`  in a fresh homing:     ${percent(results.filter(({ afterFresh }) => afterFresh <= 1).length / n)}`);
  console.log(
    `  median ratio ${median(results.map(({ after }) => after)).toFixed(2)} (before ${median(results.map(({ before }) => before)).toFixed(1)})`,
  );
  console.log(`  regret: mean ${mean.toFixed(3)} (bar 0.05), 90th percentile ${most.toFixed(3)} (bar 0.20)`);
  const averages = (["moves", "clairvoyantMoves", "minutes", "clairvoyantMinutes"] as const).map((key) =>
    (results.reduce((sum, result) => sum + result[key], 0) / n).toFixed(1),
  );
  console.log(
    `  moves ${averages[0]} (clairvoyant ${averages[1]}), minutes ${averages[2]} (clairvoyant ${averages[3]})`,
  );
  console.log(passed ? "  passed" : "  not passed");
  return passed;
}

function median(values: readonly number[]): number {
  return [...values].sort(ascending)[Math.floor(values.length / 2)];
}

function ascending(a: number, b: number): number {
  return a - b;
}

function wordAfter(name: string): string | undefined {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
}
