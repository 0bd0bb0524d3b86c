import * as z from "zod";
import { anyEventSchema } from "./events.ts";
import { formatVersion } from "./schema/envelope.ts";

/**
 * The JSON Schema (draft 2020-12) of one line of a logbook, made from the schemas that reading uses. It says everything
 * that one line can say about itself; what lines say about each other is for replay.
 */
export function logbookEventJsonSchema(): object {
  const { $schema, ...schema } = z.toJSONSchema(anyEventSchema);
  return {
    $schema,
    title: `One event of a Kilter logbook, version ${formatVersion}`,
    description: "One line of a logbook holds one such object. The guide to the logbook explains every kind and field.",
    ...schema,
  };
}
