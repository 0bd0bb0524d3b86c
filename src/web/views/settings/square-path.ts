/** The dark squares of a code as one path, in a drawing of `size` by `size`. */
export interface SquarePath {
  readonly size: number;
  readonly path: string;
}

/** @param rows true for dark, row by row, the light border included */
export function squarePath(rows: readonly (readonly boolean[])[]): SquarePath {
  let path = "";
  rows.forEach((row, y) => {
    for (let x = 0; x < row.length; x++) {
      const from = x;
      while (row[x]) x++;
      if (x > from) path += `M${from} ${y}h${x - from}v1h${from - x}z`;
    }
  });
  return { size: rows.length, path };
}
