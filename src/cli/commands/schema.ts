import schema from "../../../catalog/schema/logbook-event.schema.json" with { type: "json" };
import { sayJson } from "../terminal.ts";

export function printSchema(): number {
  sayJson(schema);
  return 0;
}
