import { createRandom } from "../src/core/numerics/random.ts";
import {
  type Brought,
  broughtExactly,
  broughtLinearly,
  learntMachine,
} from "../tests/simulation/expected-information.ts";

/**
 * Whether what a check is expected to bring is what its readings then bring: random machines with random pasts, every run
 * that is possible with what their workshops have, every mode and linear finding.
 *
 *   node --import tsx scripts/expected-information.ts --machines 40 --shard 1/4
 *
 * Where everything is linear the two are equal to 10⁻⁹. On the exact model (a truth drawn, readings made, all fitted until
 * it converges) the standard deviations are within a tenth, but for one in ten thousand: a run that moves the estimate by
 * many times what was known before is linearised far from where it ends. A past in which a gap is only known to be wider or
 * narrower than a leaf is told apart: what such a bound is worth afterwards hangs on what is read beside it.
 */
const argument = (name: string) => process.argv[process.argv.indexOf(`--${name}`) + 1];
const machines = process.argv.includes("--machines") ? Number(argument("machines")) : 20;
const [shard, shards] = process.argv.includes("--shard") ? argument("shard").split("/").map(Number) : [1, 1];
const from = Math.floor(((shard - 1) * machines) / shards);
const to = Math.floor((shard * machines) / shards);

const TENTH = 0.1;
let isAsExpected = true;
for (const layout of ["moving-gantry", "fixed-bridge"] as const) {
  const linear = newTally();
  const exact = newTally();
  const bounded = newTally();
  const worstOfCheck = new Map<string, Named>();
  for (let seed = from + 1; seed <= to; seed++) {
    const learnt = learntMachine(layout, seed);
    const hasBound = learnt.estimate.problem.observations.some(({ bounds }) => bounds.length > 0);
    const random = createRandom(1_000_000 + seed);
    for (const run of learnt.runs) {
      if (!hasBound) for (const brought of broughtLinearly(learnt, run)) count(linear, brought, seed);
      for (const brought of broughtExactly(learnt, run, random)) {
        const named = count(hasBound ? bounded : exact, brought, seed);
        if (!hasBound && named.away > (worstOfCheck.get(run.check.id)?.away ?? 0))
          worstOfCheck.set(run.check.id, named);
      }
    }
  }
  console.log(`${layout}, machines ${from + 1} to ${to}`);
  show("  where everything is linear", linear);
  show("  on the exact model", exact);
  show("  the same, after a bound", bounded);
  console.log("  farthest of each check on the exact model:");
  for (const [check, { away, words }] of [...worstOfCheck].sort(([, a], [, b]) => b.away - a.away))
    console.log(`    ${check.padEnd(20)} ${(100 * away).toFixed(2).padStart(6)} %  ${words}`);
  const within = (tally: Tally) => 1 - tally.outside / Math.max(1, tally.asked);
  isAsExpected &&= (linear.worst?.away ?? 0) < 1e-9 && within(exact) >= 0.9999 && within(bounded) >= 0.99;
}
console.log(isAsExpected ? "as expected" : "not as expected");
process.exitCode = isAsExpected ? 0 : 1;

interface Named {
  /** |expected/left − 1| of the standard deviations. */
  readonly away: number;
  readonly words: string;
}

interface Tally {
  asked: number;
  outside: number;
  worst: Named | null;
}

function newTally(): Tally {
  return { asked: 0, outside: 0, worst: null };
}

function count(tally: Tally, { run, about, before, expected, left }: Brought, seed: number): Named {
  const away = Math.abs(expected / left - 1);
  const options = Object.values(run.setup.options).join(", ");
  const named = {
    away,
    words: `${about} by ${run.check.id}${options && ` (${options})`} with ${run.setup.instrument.name}, machine ${seed}: ${before.toPrecision(3)} to ${expected.toPrecision(3)}, came to ${left.toPrecision(3)}`,
  };
  tally.asked += 1;
  if (!(away <= TENTH)) tally.outside += 1;
  if (tally.worst === null || away > tally.worst.away) tally.worst = named;
  return named;
}

function show(title: string, { asked, outside, worst }: Tally): void {
  const farthest = worst === null ? "nothing asked" : `farthest ${worst.away.toExponential(1)}, ${worst.words}`;
  console.log(`${title}: ${asked} asked, ${outside} beyond a tenth; ${farthest}`);
}
