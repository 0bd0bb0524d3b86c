import { createRandom, type Random } from "./random.ts";

interface Stream {
  readonly random: Random;
  readonly drawn: Float64Array;
}

/** What was drawn last, the latest at the end, so that whoever asks for the same again need not wait. */
const streams = new Map<number, Stream>();
/** As many as there are findings that are drawn, and some for the work. */
const MOST_STREAMS = 24;

/** The first `count` normal draws of a seed's stream; not to be written to. */
export function normalsFrom(seed: number, count: number): Float64Array {
  const stream = lengthened(streams.get(seed) ?? { random: createRandom(seed), drawn: new Float64Array(0) }, count);
  streams.delete(seed);
  streams.set(seed, stream);
  const [oldest] = streams.keys();
  if (streams.size > MOST_STREAMS) streams.delete(oldest);
  return stream.drawn.subarray(0, count);
}

function lengthened({ random, drawn }: Stream, count: number): Stream {
  if (drawn.length >= count) return { random, drawn };
  const longer = new Float64Array(count);
  longer.set(drawn);
  for (let i = drawn.length; i < count; i++) longer[i] = random.normal();
  return { random, drawn: longer };
}
