import type { Place } from "../../../core/drawing/machine-parts.ts";

/** A line from one point to another of an upright sheet: across and up, across and up. */
type Stroke = readonly [number, number, number, number];

const head: readonly Stroke[] = Array.from({ length: 12 }, (_, i) => {
  const [from, to] = [i, i + 1].map((k) => (k * Math.PI) / 6);
  return [0.16 * Math.cos(from), 1.5 + 0.16 * Math.sin(from), 0.16 * Math.cos(to), 1.5 + 0.16 * Math.sin(to)];
});
const body: readonly Stroke[] = [
  [0, 1.34, 0, 0.7],
  [-0.35, 1.2, 0.35, 1.2],
  [0, 0.7, -0.2, 0],
  [0, 0.7, 0.2, 0],
];

/** Each letter in a box 0.6 wide and 1 high. */
const letters: readonly (readonly Stroke[])[] = [
  [
    [0, 0, 0, 1],
    [0, 1, 0.6, 1],
    [0, 0.55, 0.45, 0.55],
  ],
  [
    [0, 0, 0, 1],
    [0, 1, 0.45, 1],
    [0.45, 1, 0.6, 0.88],
    [0.6, 0.88, 0.6, 0.62],
    [0.6, 0.62, 0.45, 0.5],
    [0.45, 0.5, 0, 0.5],
    [0.3, 0.5, 0.6, 0],
  ],
  [
    [0.15, 0, 0.45, 0],
    [0.45, 0, 0.6, 0.2],
    [0.6, 0.2, 0.6, 0.8],
    [0.6, 0.8, 0.45, 1],
    [0.45, 1, 0.15, 1],
    [0.15, 1, 0, 0.8],
    [0, 0.8, 0, 0.2],
    [0, 0.2, 0.15, 0],
  ],
  [
    [0, 0, 0, 1],
    [0, 1, 0.6, 0],
    [0.6, 0, 0.6, 1],
  ],
  [
    [0, 1, 0.6, 1],
    [0.3, 1, 0.3, 0],
  ],
];
const LETTER = 0.34;
const PITCH = 0.9;

/** FRONT, written at the figure's feet on the right. */
const word: readonly Stroke[] = letters.flatMap((strokes, i) =>
  strokes.map(([a, b, c, d]): Stroke => {
    const across = (value: number) => 0.45 + LETTER * (i * PITCH + value);
    return [across(a), LETTER * b, across(c), LETTER * d];
  }),
);

/**
 * Somebody who stands in front of the machine, with the word beside the feet: corners of lines, three numbers each, mm.
 * Both stand upright and face the machine's front, so that from behind the word is read from behind.
 *
 * @param [x, front, floor] middle of the machine, its foremost place, and the height of the feet
 * @param size about two thirds of the figure's height
 */
export function standingInFront([x, front, floor]: Place, size: number): readonly number[] {
  const y = front - 1.2 * size;
  return [...head, ...body, ...word].flatMap(([a, b, c, d]) => [
    x + a * size,
    y,
    floor + b * size,
    x + c * size,
    y,
    floor + d * size,
  ]);
}
