import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { anyEvent } from "../../tests/logbook/event-arbitraries.ts";
import { isValid } from "../../tests/logbook/json-schema-check.ts";
import { logbookEventJsonSchema } from "./json-schema.ts";
import { eventFromJson } from "./read-event.ts";

const path = fileURLToPath(new URL("../../catalog/schema/logbook-event.schema.json", import.meta.url));
const schema = logbookEventJsonSchema() as Readonly<Record<string, unknown>>;

// Values that stand in the wrong place now and then, as a person or another program writes them.
const strange = fc.constantFrom<unknown>(null, "", " ", "mm", 0, -1, 1.5, 1e9, true, [], {}, ["bed"], { x: 1 });

/** One field somewhere in an event taken away, added, or given another value. */
const damagedEvent = fc
  .tuple(anyEvent, fc.nat(), fc.constantFrom("remove", "add", "replace"), strange)
  .map(([event, pick, change, value]) => {
    const copy = JSON.parse(JSON.stringify(event)) as Record<string, unknown>;
    const places: { within: Record<string, unknown>; name: string }[] = [];
    const visit = (within: Record<string, unknown>): void => {
      for (const name of Object.keys(within)) {
        places.push({ within, name });
        const inner = within[name];
        if (typeof inner === "object" && inner !== null) visit(inner as Record<string, unknown>);
      }
    };
    visit(copy);
    const { within, name } = places[pick % places.length]!;
    // An element of a list can be replaced; a hole in a list is nothing that JSON has.
    if (change === "remove" && !Array.isArray(within)) delete within[name];
    else if (change === "add" && !Array.isArray(within)) within[`${name}s`] = value;
    else within[name] = value;
    return copy;
  });

describe("the JSON Schema of an event", () => {
  // A stale file gets a sibling `…-changed.json`: look at the difference, then put it in the place of the old one.
  test("stands in the catalogue as the program has it", () => {
    const fresh = `${JSON.stringify(schema, undefined, 2)}\n`;
    const committed = existsSync(path) ? readFileSync(path, "utf8") : "";
    if (fresh !== committed && !process.env.CI) writeFileSync(path.replace(/\.json$/, "-changed.json"), fresh);
    expect(committed === fresh, "logbook-event.schema.json is stale; a …-changed.json stands beside it").toBe(true);
  });

  test("lets pass every event that the program reads", () => {
    fc.assert(
      fc.property(anyEvent, (event) => {
        const json = JSON.parse(JSON.stringify(event)) as unknown;
        expect(eventFromJson(json, {}).ok).toBe(true);
        expect(isValid(schema, json)).toBe(true);
      }),
      { seed: 21, numRuns: 1500 },
    );
  });

  test("refuses what the program refuses, but for dates that do not exist and leaves that are exchanged", () => {
    let refused = 0;
    fc.assert(
      fc.property(damagedEvent, (json) => {
        const outcome = eventFromJson(json, {});
        if (!outcome.ok) refused += 1;
        const beyondJsonSchema = outcome.diagnostics.every(
          ({ code, data }) => code === "reading-leaves-crossed" || data.form === "event-time",
        );
        if (outcome.ok || !beyondJsonSchema) expect(isValid(schema, json)).toBe(outcome.ok);
      }),
      { seed: 22, numRuns: 4000 },
    );
    expect(refused).toBeGreaterThan(2000);
  });
});
