/** Heights on a grid of equal steps, row by row from the front, each row from left to right. */
export interface HeightGrid {
  readonly columns: number;
  readonly rows: number;
  readonly values: ArrayLike<number>;
}

/** A place on the grid, in its steps from the front left. */
export type GridPlace = readonly [column: number, row: number];

/** All that lies at a level or above it, and the line where it begins. */
export interface Contour {
  readonly level: number;
  /** Closed outlines of the region, counter-clockwise about what is in it; the edge of the grid closes them. */
  readonly regions: readonly (readonly GridPlace[])[];
  /** The level's own lines; one that ends at the edge of the grid is open, another comes back to where it began. */
  readonly lines: readonly (readonly GridPlace[])[];
}

/**
 * Marching squares: every square of the grid gives the part of it that is at or above the level, cut straight between
 * its corners; sides that two squares share fall away, and what is left is joined to outlines. Where two opposite
 * corners of a square are in and two out, the two that are in belong together.
 */
export function contourAt(grid: HeightGrid, level: number): Contour {
  const sides = sidesOfRegion(grid, level);
  const regions = joinedSides(sides);
  return { level, regions, lines: regions.flatMap((region) => linesInside(grid, region)) };
}

/** Share of the grid's area between one level and the next: `levels` rising, one more share than levels, 1 in all. */
export function sharesBetween({ columns, rows, values }: HeightGrid, levels: readonly number[]): readonly number[] {
  const shares = new Array<number>(levels.length + 1).fill(0);
  // A value on the edge stands for half a square, one at a corner for a quarter.
  const weight = (i: number, count: number) => (i === 0 || i === count - 1 ? 0.5 : 1);
  const whole = (columns - 1) * (rows - 1);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const value = values[row * columns + column];
      const band = levels.filter((level) => value >= level).length;
      shares[band] += (weight(row, rows) * weight(column, columns)) / whole;
    }
  }
  return shares;
}

interface Side {
  readonly from: GridPlace;
  readonly to: GridPlace;
}

function sidesOfRegion({ columns, rows, values }: HeightGrid, level: number): readonly Side[] {
  const sides = new Map<string, Side>();
  const at = (column: number, row: number) => values[row * columns + column];
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const square: readonly GridPlace[] = [
        [column, row],
        [column + 1, row],
        [column + 1, row + 1],
        [column, row + 1],
      ];
      const part = square.flatMap((corner, i): readonly GridPlace[] => {
        const next = square[(i + 1) % 4];
        const isIn = at(...corner) >= level;
        const crossing =
          isIn === at(...next) >= level ? [] : [crossingOf(corner, next, at(...corner), at(...next), level)];
        return isIn ? [corner, ...crossing] : crossing;
      });
      part.forEach((from, i) => {
        const to = part[(i + 1) % part.length];
        const [there, back] = [keyOf(from), keyOf(to)];
        if (there === back) return;
        if (!sides.delete(`${back} ${there}`)) sides.set(`${there} ${back}`, { from, to });
      });
    }
  }
  return [...sides.values()];
}

/** Always reckoned from the corner nearer to the front left, so that both squares find the very same place. */
function crossingOf(a: GridPlace, b: GridPlace, heightA: number, heightB: number, level: number): GridPlace {
  if (a[0] + a[1] > b[0] + b[1]) return crossingOf(b, a, heightB, heightA, level);
  const t = (level - heightA) / (heightB - heightA);
  return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
}

function joinedSides(sides: readonly Side[]): readonly (readonly GridPlace[])[] {
  const leaving = new Map<string, Side[]>();
  for (const side of sides) {
    const key = keyOf(side.from);
    leaving.set(key, [...(leaving.get(key) ?? []), side]);
  }
  const rings: GridPlace[][] = [];
  for (const first of sides) {
    const ring: GridPlace[] = [];
    let side = take(leaving, keyOf(first.from));
    while (side) {
      ring.push(side.from);
      side = take(leaving, keyOf(side.to));
    }
    if (ring.length > 0) rings.push(ring);
  }
  return rings;
}

function take(leaving: Map<string, Side[]>, key: string): Side | undefined {
  return leaving.get(key)?.pop();
}

/** The runs of an outline that are not on the edge of the grid. */
function linesInside({ columns, rows }: HeightGrid, ring: readonly GridPlace[]): readonly (readonly GridPlace[])[] {
  const onEdge = (from: GridPlace, to: GridPlace) =>
    [
      [0, 0],
      [0, columns - 1],
      [1, 0],
      [1, rows - 1],
    ].some(([axis, end]) => from[axis] === end && to[axis] === end);
  const steps = ring.map((from, i) => ({ from, to: ring[(i + 1) % ring.length] }));
  const start = steps.findIndex(({ from, to }) => onEdge(from, to));
  if (start < 0) return [[...ring, ring[0]]];
  const lines: GridPlace[][] = [];
  let isOpen = false;
  for (let k = 1; k <= steps.length; k++) {
    const { from, to } = steps[(start + k) % steps.length];
    if (onEdge(from, to)) {
      isOpen = false;
    } else if (isOpen) {
      lines[lines.length - 1].push(to);
    } else {
      lines.push([from, to]);
      isOpen = true;
    }
  }
  return lines;
}

function keyOf([column, row]: GridPlace): string {
  return `${column},${row}`;
}
