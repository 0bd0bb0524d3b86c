/**
 * The known word that a mistyped one was most likely meant to be, or null where none is near: at most a third of its
 * letters wrong. Letters are compared without regard to case; a swap of neighbours counts once (optimal string
 * alignment).
 */
export function nearestWord(word: string, known: Iterable<string>): string | null {
  let best: string | null = null;
  let bestDistance = Number.POSITIVE_INFINITY;
  // Nobody mistypes a long word into another; this also keeps hostile input cheap.
  if (word.length > 60) return null;
  for (const candidate of known) {
    const allowed = Math.floor(Math.max(word.length, candidate.length) / 3);
    if (Math.abs(word.length - candidate.length) > allowed) continue;
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (distance <= allowed && distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1];
      let cost = Math.min(last[column]! + 1, current[column - 1]! + 1, last[column - 1]! + (same ? 0 : 1));
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (swapped) cost = Math.min(cost, beforeLast[column - 2]! + 1);
      current.push(cost);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length]!;
}
