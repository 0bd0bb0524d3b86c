import type { Chronicle } from "../../src/core/planning/wishes.ts";

/**
 * A timeline as JSON to be compared with a stored one. Of instruments and objects only which they are: what is usual for a
 * kind may be known better one day, and a stored result is for ever.
 */
export function jsonFromTimeline(timeline: Chronicle): string {
  const { instruments, objects, limits, priors, wishes: _, ...rest } = timeline;
  const named = (things: ReadonlyMap<string, { readonly kind: string; readonly name: string }>) =>
    Object.fromEntries(Array.from(things, ([id, { kind, name }]) => [id, { kind, name }]));
  const json = {
    ...rest,
    instruments: named(instruments),
    objects: named(objects),
    limits: Object.fromEntries(limits),
    priors: Object.fromEntries(priors),
  };
  return `${JSON.stringify(json, undefined, 2)}\n`;
}
