import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import { withFreshSections } from "../../scripts/guide-tables.ts";
import { shippedCatalogue } from "../../tests/logbook/catalogue.ts";
import { eventKinds, eventSchemas } from "./events.ts";
import { readLogbook } from "./read.ts";
import { replay } from "./replay.ts";
import { textFromEvents } from "./write.ts";

const path = fileURLToPath(new URL("../../docs/guides/logbook.md", import.meta.url));
const guide = readFileSync(path, "utf8");
const handWritten = guide.replace(/<!-- (\w+):begin -->[\s\S]*?<!-- \1:end -->/g, "");

/** Names of all fields of a schema, those of its parts included. */
function fieldNames(schema: unknown): readonly string[] {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable) return fieldNames(schema.unwrap());
  if (!(schema instanceof z.ZodObject)) return [];
  return Object.entries(schema.shape).flatMap(([name, field]) => [name, ...fieldNames(field)]);
}

describe("the guide to the logbook", () => {
  // Stale tables are made anew beside a person, who sees the difference, and are a fault where nobody would.
  test("has its tables as the catalogue is now, or gets them", () => {
    const fresh = withFreshSections(guide);
    if (fresh !== guide && !process.env.CI) writeFileSync(path, fresh);
    expect(process.env.CI === undefined || fresh === guide).toBe(true);
  });

  test.each(eventKinds)("explains %s and every field of it, outside the tables that are made", (kind) => {
    expect(handWritten).toContain(`\`${kind}\``);
    for (const name of fieldNames(eventSchemas[kind])) expect(handWritten, name).toContain(`\`${name}\``);
  });

  test("names nothing as a field or a kind that the format has not, in its headings and first columns", () => {
    const fields = new Set(Object.values(eventSchemas).flatMap(fieldNames));
    const headings = [...handWritten.matchAll(/^### (.*`)$/gm)].flatMap(([, heading]) => heading!.match(/`[^`]+`/g)!);
    for (const kind of headings) expect(eventKinds).toContain(kind.slice(1, -1));
    const firsts = [...handWritten.matchAll(/^\| ((?:`\w+`(?:, | and )?)+)/gm)].flatMap(
      ([, cell]) => cell!.match(/\w+/g)!,
    );
    for (const name of firsts.filter((word) => word !== "and" && word !== "alone")) {
      expect(fields.has(name) || (eventKinds as readonly string[]).includes(name), name).toBe(true);
    }
  });

  test("has an example that is read, canonically written, and comes to what it tells", () => {
    const example = /```jsonl\n([\s\S]*?)```/.exec(guide)![1]!;
    const logbook = readLogbook(example, "example.jsonl");
    if (!logbook.ok) throw new Error(JSON.stringify(logbook.diagnostics));
    expect(textFromEvents(logbook.value.events)).toBe(example);
    const timeline = replay(logbook.value.events, shippedCatalogue);
    expect(timeline.diagnostics).toEqual([]);
    if (!timeline.ok) return;
    expect(timeline.value.machine.name).toBe("router in the shed");
    expect(timeline.value.objects.get("oak")?.family).toBe("block");
    expect(timeline.value.runs).toMatchObject([{ id: "gap-1", conditions: { carriageParkedMm: 300 } }]);
    expect(timeline.value.readings.map(({ station, withdrawn }) => [station, withdrawn])).toEqual([
      ["front left", null],
      ["front right", null],
      ["rear left", "a chip lay under the block"],
      ["rear left", null],
    ]);
    expect(timeline.value.happenings).toMatchObject([{ kind: "moved", adjuster: "beam.right", amount: 0.25 }]);
  });
});
