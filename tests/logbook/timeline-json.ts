import type { Chronicle } from "../../src/core/planning/wishes.ts";

/**
 * A timeline as JSON to be compared with a stored one. Of instruments and objects only which they are: what is usual for a
 * kind may be known better one day, and a stored result is for ever.
 */
export function jsonFromTimeline(timeline: Chronicle): string {
  const { instruments, objects, limits, priors, adjusterChanges, packingStatedAt, wishes, ...rest } = timeline;
  const named = (things: ReadonlyMap<string, { readonly kind: string; readonly name: string }>) =>
    Object.fromEntries(Array.from(things, ([id, { kind, name }]) => [id, { kind, name }]));
  const json = {
    ...rest,
    instruments: named(instruments),
    objects: named(objects),
    limits: Object.fromEntries(limits),
    priors: Object.fromEntries(priors),
    ...(isSaid(timeline) && {
      adjusterChanges: Object.fromEntries(adjusterChanges),
      packingStatedAt: Object.fromEntries(packingStatedAt),
      wishes: {
        ...wishes,
        demands: Object.fromEntries(wishes.demands),
        demandLimits: Object.fromEntries(wishes.demandLimits),
        locks: Object.fromEntries(wishes.locks),
      },
    }),
  };
  return `${JSON.stringify(json, undefined, 2)}\n`;
}

/** Whether anything is wished for or changed: the first stored results are from before that could be said. */
function isSaid({ adjusterChanges, wishes }: Chronicle): boolean {
  const { demands, demandLimits, locks, kindOfWork, willSkim, stockMm } = wishes;
  return (
    adjusterChanges.size + demands.size + demandLimits.size + locks.size > 0 ||
    kindOfWork !== null ||
    willSkim !== null ||
    stockMm !== null
  );
}
