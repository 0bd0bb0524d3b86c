import { createRandom, type Random } from "./random.ts";

/** What was drawn last, so that whoever asks for the same again need not wait: a before and an after share their draws. */
let latest: { readonly seed: number; readonly random: Random; readonly drawn: Float64Array } | null = null;

/** The first `count` normal draws of a seed's stream; not to be written to. */
export function normalsFrom(seed: number, count: number): Float64Array {
  if (latest === null || latest.seed !== seed)
    latest = { seed, random: createRandom(seed), drawn: new Float64Array(0) };
  const { random, drawn } = latest;
  if (drawn.length < count) {
    const longer = new Float64Array(count);
    longer.set(drawn);
    for (let i = drawn.length; i < count; i++) longer[i] = random.normal();
    latest = { seed, random, drawn: longer };
  }
  return latest.drawn.subarray(0, count);
}
