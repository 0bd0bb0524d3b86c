import { eventSchema } from "./envelope.ts";
import { ownInstrumentSchema } from "./instrument.ts";
import { ownObjectSchema } from "./object.ts";

/** What is measured with. Added again under the same id, a thing replaces what was known of it. */
export const measuringEvents = {
  "instrument-added": eventSchema("instrument-added", { instrument: ownInstrumentSchema }),
  "object-added": eventSchema("object-added", { object: ownObjectSchema }),
} as const;
