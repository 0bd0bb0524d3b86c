import { invariant } from "../base/invariant.ts";

/**
 * A stream of pseudo-random numbers that is the same for the same seed, on every engine. Only integer steps, + − × /,
 * √ and Math.log are used; Math.log may differ in its last bit between engines, and with it the last bit of a normal
 * draw. Not for secrets.
 */
export interface Random {
  /** Evenly over [0, 1), all 53 bits used. */
  uniform(): number;
  /** From the normal distribution with mean 0 and standard deviation 1. */
  normal(): number;
  /** The size of a normal draw: never negative, mean √(2/π). */
  halfNormal(): number;
  /** A whole number from 0 to n − 1, all equally likely. */
  integer(n: number): number;
  /** One of the items, all equally likely; there must be at least one. */
  pick<T>(items: readonly T[]): T;
  /**
   * An independent stream named by the label. It depends on this stream's seed and the label alone, not on how many
   * numbers were drawn, so that adding a draw in one place does not change another.
   */
  fork(label: string): Random;
}

/**
 * Starts a stream from a seed, any safe integer.
 *
 * Generator: xoshiro128** as its authors define it [Blackman Vigna]; its state is filled by a counter put through a
 * 32-bit avalanche mixer. Normal draws by the polar method [Marsaglia Bray].
 */
export function createRandom(seed: number): Random {
  invariant(Number.isSafeInteger(seed), "a seed is a whole number");
  return streamFromKey(seed >>> 0, Math.floor(seed / 2 ** 32) >>> 0);
}

/** The bare generator: 32-bit whole numbers from four words of state, not all 0. */
export function xoshiro128StarStar(state: readonly [number, number, number, number]): () => number {
  let [s0, s1, s2, s3] = state;
  invariant((s0 | s1 | s2 | s3) !== 0, "the state of the generator is all 0");
  return () => {
    const result = Math.imul(rotateLeft(Math.imul(s1, 5), 7), 9) >>> 0;
    const t = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= t;
    s3 = rotateLeft(s3, 11);
    return result;
  };
}

function rotateLeft(x: number, k: number): number {
  return (x << k) | (x >>> (32 - k));
}

function streamFromKey(low: number, high: number): Random {
  const word = (index: number) => avalanche(avalanche(low + Math.imul(index, goldenRatio)) ^ high);
  // The last bit keeps the state off all zeros.
  const next = xoshiro128StarStar([word(1), word(2), word(3), word(4) | 1]);
  let spare: number | undefined;

  const uniform = () => ((next() >>> 5) * 2 ** 26 + (next() >>> 6)) / 2 ** 53;

  const normal = () => {
    if (spare !== undefined) {
      const value = spare;
      spare = undefined;
      return value;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * factor;
      return x * factor;
    }
  };

  const integer = (n: number) => {
    invariant(Number.isInteger(n) && n > 0 && n <= 2 ** 32, "the range of a whole number is 1 to 2³²");
    // Draws beyond the last whole multiple of n are thrown away, so that no remainder is favoured.
    const limit = 2 ** 32 - (2 ** 32 % n);
    for (;;) {
      const draw = next();
      if (draw < limit) return draw % n;
    }
  };

  return {
    uniform,
    normal,
    halfNormal: () => Math.abs(normal()),
    integer,
    pick: (items) => {
      invariant(items.length > 0, "there is nothing to pick from");
      return items[integer(items.length)]!;
    },
    fork: (label) => {
      // Two independent 32-bit digests of the label, started from this stream's key.
      let a = avalanche(low ^ 0x811c9dc5);
      let b = avalanche(high ^ 0x9e3779b9);
      for (let i = 0; i < label.length; i++) {
        const unit = label.charCodeAt(i);
        a = Math.imul(a ^ unit, 0x01000193);
        b = avalanche((b + unit) ^ a);
      }
      return streamFromKey(avalanche(a ^ label.length), b);
    },
  };
}

/** 2³² over the golden ratio: an odd step that spreads a counter over all 32 bits. */
const goldenRatio = 0x9e3779b9;

/** The finishing mix of a well-known public-domain 32-bit hash: every bit of the input reaches every bit of the output. */
function avalanche(value: number): number {
  let h = value | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
