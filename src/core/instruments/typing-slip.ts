/** What fingers do to a number: two digits change places, or the decimal mark slips. */
export type Slip = "digits swapped" | "mark moved";

/**
 * The number that was probably meant by one that cannot be: the first that is possible among those one slip away.
 * Slips are tried in the order given; of one sort, those that end nearest to what was typed come first. Null if none is.
 */
export function likelyMeant(
  typed: number,
  isPossible: (candidate: number) => boolean,
  order: readonly Slip[],
): number | null {
  for (const slip of order) {
    const candidates = slip === "mark moved" ? withMarkMoved(typed) : withDigitsSwapped(typed);
    const nearestFirst = candidates.sort((a, b) => Math.abs(a - typed) - Math.abs(b - typed));
    const meant = nearestFirst.find((candidate) => candidate !== typed && isPossible(candidate));
    if (meant !== undefined) return meant;
  }
  return null;
}

function withMarkMoved(typed: number): number[] {
  return [typed / 10, typed * 10, typed / 100, typed * 100].map(asTyped);
}

function withDigitsSwapped(typed: number): number[] {
  const sign = typed < 0 ? "-" : "";
  const text = String(asTyped(Math.abs(typed)));
  const digits = [...text.replace(".", "")];
  const markAfter = text.includes(".") ? text.indexOf(".") : digits.length;
  return digits.slice(1).map((_, index) => {
    const swapped = [...digits];
    [swapped[index], swapped[index + 1]] = [swapped[index + 1]!, swapped[index]!];
    return Number(`${sign}${swapped.slice(0, markAfter).join("")}.${swapped.slice(markAfter).join("")}`);
  });
}

/** Six decimals: more than anybody types, and never an exponent when written out. */
function asTyped(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}
