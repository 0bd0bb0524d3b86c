/** A matrix as a product: `coordinates` (rows × rank) times `basis` (rank × columns), both row by row. */
export interface RowSpace {
  readonly rank: number;
  readonly coordinates: Float64Array;
  /** Rows of length 1, each at right angles to the others. */
  readonly basis: Float64Array;
}

/**
 * What a matrix's rows are made of, by the Gram–Schmidt process with the longest remainder first, made twice over so that
 * the basis stays orthogonal [Golub Van Loan §5.2].
 *
 * @param matrix rows × columns, row by row
 * @param tolerance remainders that are shorter than this share of the longest row are left out
 */
export function rowSpace(matrix: Float64Array, rows: number, columns: number, tolerance: number): RowSpace {
  const rest = Float64Array.from(matrix);
  const lengths = Float64Array.from({ length: rows }, (_, i) => lengthAt(rest, i * columns, columns));
  const least = tolerance * lengths.reduce((most, length) => Math.max(most, length), 0);
  const basis: Float64Array[] = [];
  while (basis.length < Math.min(rows, columns)) {
    const longest = lengths.reduce((best, length, i) => (length > lengths[best] ? i : best), 0);
    if (rows === 0 || lengths[longest] <= least) break;
    const next = rest.slice(longest * columns, (longest + 1) * columns);
    for (const known of basis) takeOut(next, 0, known);
    const length = lengthAt(next, 0, columns);
    for (let j = 0; j < columns; j++) next[j] /= length;
    basis.push(next);
    for (let i = 0; i < rows; i++) {
      takeOut(rest, i * columns, next);
      lengths[i] = lengthAt(rest, i * columns, columns);
    }
    lengths[longest] = 0;
  }
  const rank = basis.length;
  const coordinates = new Float64Array(rows * rank);
  for (let i = 0; i < rows; i++)
    for (let r = 0; r < rank; r++) coordinates[i * rank + r] = productAt(matrix, i * columns, basis[r]);
  return { rank, coordinates, basis: Float64Array.from(basis.flatMap((row) => [...row])) };
}

function takeOut(from: Float64Array, at: number, direction: Float64Array): void {
  const share = productAt(from, at, direction);
  for (let j = 0; j < direction.length; j++) from[at + j] -= share * direction[j];
}

function productAt(matrix: Float64Array, at: number, direction: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < direction.length; j++) sum += matrix[at + j] * direction[j];
  return sum;
}

function lengthAt(matrix: Float64Array, at: number, count: number): number {
  let sum = 0;
  for (let j = 0; j < count; j++) sum += matrix[at + j] ** 2;
  return Math.sqrt(sum);
}
