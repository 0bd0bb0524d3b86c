/** Thrown for a mistake in this program, never for a mistake in the input. Caught at the edge of the process. */
export class InvariantError extends Error {
  override readonly name = "InvariantError";
}

export function invariant(condition: unknown, message: string): asserts condition {
  if (!condition) throw new InvariantError(message);
}
