import type { Station } from "../checks/check.ts";
import { sixLengths } from "../checks/grid-diagonals.ts";
import { roomAlongX, roomAlongY } from "./area.ts";
import { type Chosen, type NumberSize, show } from "./demand-kind.ts";

/** Width and height in plan of a rectangle; five sixths and four fifths of the travel when nothing is said. */
export const rectangleSizes: readonly NumberSize[] = [
  {
    key: "widthMm",
    words: "width, left to right,",
    unit: "mm",
    from: 5,
    to: 5000,
    usual: ({ machine }) => Math.floor((5 / 6) * machine.dimensions.Lx),
    most: roomAlongX,
  },
  {
    key: "heightMm",
    words: "height, front to rear,",
    unit: "mm",
    from: 5,
    to: 5000,
    usual: ({ machine }) => Math.floor(0.8 * machine.dimensions.Ly),
    most: roomAlongY,
  },
];

/** Front, rear, left and right side, then the diagonals rising and falling to the rear right. */
export function lengthsOfRectangle({ middle }: Chosen, width: number, height: number): readonly Station[] {
  return sixLengths(middle.x - width / 2, middle.y - height / 2, middle.x + width / 2, middle.y + height / 2);
}

/** "300 square" or "500 × 400". */
export function rectangleInWords(width: number, height: number): string {
  return width === height ? `${show(width)} square` : `${show(width)} × ${show(height)}`;
}
