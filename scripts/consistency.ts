import { type Coverage, consistency } from "../tests/simulation/consistency.ts";
import { fullCatalogue, sixChecks } from "../tests/simulation/simulate.ts";

/**
 * The whole consistency trial: 300 machines a layout, the full catalogue and six checks, seeded. `--shard 1/4` takes a
 * quarter of the machines; the bounds are meant for all 300.
 *
 * Mean normalised error squared over its size within 0.96–1.06: sampling alone scatters it by √(2/(300·size)), 0.008 with
 * 116 unknowns and 0.011 with 58; curvature adds up to 0.02. The bounds are three to five of these away from 1.01.
 *
 * 95 % intervals hold 93.5–96.5 %. Normal value ± 2 standard deviations hold 95.45 %. The answers of one machine hang
 * together, so 300 machines with 46 modes or 30 findings each count for less than their number: the standard error, from
 * the scatter between machines, stands behind each share (0.2 to 0.5 %). The bounds are three of the largest wide.
 */
const MACHINES = 300;

const shardText = /^(\d+)\/(\d+)$/.exec(process.argv[process.argv.indexOf("--shard") + 1] ?? "");
const [shard, shards] = shardText ? [Number(shardText[1]), Number(shardText[2])] : [1, 1];
const from = Math.floor(((shard - 1) * MACHINES) / shards);
const to = Math.floor((shard * MACHINES) / shards);

let isConsistent = true;
console.log("layout         readings         size  error²/size          modes  linear findings  sampled findings");
for (const layout of ["moving-gantry", "fixed-bridge"] as const) {
  for (const [name, plan] of [
    ["full catalogue", fullCatalogue()],
    ["six checks", sixChecks()],
  ] as const) {
    const result = consistency(layout, plan, from, to, 1_000_000);
    const shares = [result.modes, result.linear, result.sampled].map(shareOf);
    const ok =
      0.96 <= result.normalisedErrorSquared &&
      result.normalisedErrorSquared <= 1.06 &&
      shares.every((share) => 0.935 <= share && share <= 0.965);
    isConsistent &&= ok;
    const percent = [result.modes, result.linear, result.sampled].map(
      (coverage) => `${(100 * shareOf(coverage)).toFixed(2)} ± ${(100 * coverage.standardError).toFixed(2)} %`,
    );
    console.log(
      `${layout.padEnd(14)} ${name.padEnd(15)} ${String(result.size).padStart(5)}  ${result.normalisedErrorSquared.toFixed(4).padStart(11)}  ${percent.map((text, i) => text.padStart([15, 17, 18][i])).join("")}  ${ok ? "" : "outside the bounds"}`,
    );
  }
}
console.log(
  `machines ${from} to ${to - 1} of each; ${isConsistent ? "all within the bounds" : "not all within the bounds"}`,
);
process.exitCode = isConsistent ? 0 : 1;

function shareOf({ inside, asked }: Coverage): number {
  return inside / asked;
}
