import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { shippedCatalogue } from "../../tests/logbook/catalogue.ts";
import { jsonFromTimeline } from "../../tests/logbook/timeline-json.ts";
import { eventKinds } from "./events.ts";
import { readLogbook } from "./read.ts";
import { replay } from "./replay.ts";
import { formatVersion } from "./schema/envelope.ts";
import { type Upcaster, upcast, upcasters } from "./upcast.ts";
import { textFromEvents } from "./write.ts";

const corpus = fileURLToPath(new URL("../../tests/corpus/logbooks/", import.meta.url));
const versions = Array.from({ length: formatVersion }, (_, index) => index + 1);
/** Kept logbooks of each version: what could be said only later within a version stands in one of its own. */
const kept: readonly (readonly [version: number, names: readonly string[]])[] = [[1, ["v1", "v1-wishes-and-moves"]]];
const logbooks = kept.flatMap(([version, names]) => names.map((name) => [name, version] as const));

describe("upcasting", () => {
  test("leads from every released version to the next, without a gap", () => {
    expect(upcasters.map(({ from }) => from)).toEqual(versions.slice(0, -1));
  });

  test("goes one version at a time and says where it has arrived", () => {
    const chain: readonly Upcaster[] = [
      { from: 1, lift: ({ kind, ...rest }) => ({ kind: kind === "bumped" ? "knocked" : kind, ...rest }) },
      { from: 2, lift: ({ where, ...rest }) => (where === undefined ? rest : { ...rest, members: [where] }) },
    ];
    const old = { v: 1, kind: "bumped", where: "slide" };
    expect(upcast(old, 1, chain)).toEqual({ v: 3, kind: "knocked", members: ["slide"] });
    expect(upcast({ ...old, v: 2 }, 2, chain)).toEqual({ v: 3, kind: "bumped", members: ["slide"] });
    expect(upcast({ ...old, v: 3 }, 3, chain)).toEqual({ ...old, v: 3 });
    expect(old).toEqual({ v: 1, kind: "bumped", where: "slide" });
  });
});

describe("logbooks of every released version", () => {
  test("are kept, each with what it comes to", () => {
    expect(kept.map(([version]) => version)).toEqual(versions);
    const files = logbooks.flatMap(([name]) => [`${name}.jsonl`, `${name}.timeline.json`]);
    expect(readdirSync(corpus).filter((name) => !name.includes("-changed"))).toEqual(files.sort());
  });

  test.each(logbooks)("%s is read, and comes to what it always came to", (name, version) => {
    const text = readFileSync(`${corpus}${name}.jsonl`, "utf8");
    for (const line of text.trim().split("\n")) expect(JSON.parse(line)).toMatchObject({ v: version });
    const logbook = readLogbook(text, `${name}.jsonl`);
    if (!logbook.ok) throw new Error(JSON.stringify(logbook.diagnostics));
    const timeline = replay(logbook.value.events, shippedCatalogue);
    if (!timeline.ok) throw new Error(JSON.stringify(timeline.diagnostics));
    const path = `${corpus}${name}.timeline.json`;
    const fresh = jsonFromTimeline(timeline.value);
    const stored = existsSync(path) ? readFileSync(path, "utf8") : "";
    if (fresh !== stored && !process.env.CI) writeFileSync(path.replace(/\.json$/, "-changed.json"), fresh);
    expect(fresh).toBe(stored);
  });

  test("those of the present version hold every kind of event, written as this program writes it", () => {
    const kinds = logbooks.flatMap(([name, version]) => {
      if (version !== formatVersion) return [];
      const text = readFileSync(`${corpus}${name}.jsonl`, "utf8");
      const logbook = readLogbook(text, "");
      if (!logbook.ok) throw new Error(JSON.stringify(logbook.diagnostics));
      expect(textFromEvents(logbook.value.events)).toBe(text);
      return logbook.value.events.map(({ kind }) => kind);
    });
    expect(new Set(kinds)).toEqual(new Set(eventKinds));
  });
});
