import { invariant } from "../core/base/invariant.ts";
import { formatVersion } from "./schema/envelope.ts";

/** An event as JSON gives it, before anything is known of it. */
export type JsonObject = Readonly<Record<string, unknown>>;

/**
 * Lifts one event of version `from` to the version after it. Pure and total: it sees lines that no schema has looked at
 * yet, so it changes what it recognises and hands on what it does not. Once released it is never changed again, because
 * logbooks were read through it.
 */
export interface Upcaster {
  readonly from: number;
  readonly lift: (event: JsonObject) => JsonObject;
}

/** One for each version that was ever released before this one, oldest first and without a gap. */
export const upcasters: readonly Upcaster[] = [];

invariant(upcasters.length === formatVersion - 1, "every released version has an upcaster to the next");

/** The event in the present version: one step for each version between, `v` set to where it arrives. */
export function upcast(event: JsonObject, version: number, chain: readonly Upcaster[] = upcasters): JsonObject {
  let lifted = event;
  for (const step of chain.slice(version - 1)) lifted = { ...step.lift(lifted), v: step.from + 1 };
  return lifted;
}
