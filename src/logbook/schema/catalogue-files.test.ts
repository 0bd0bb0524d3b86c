import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import { unitOf } from "../../core/base/units.ts";
import { type InstrumentKind, instrumentFamilies, quantityOf } from "../../core/instruments/instrument.ts";
import { type ObjectKind, objectFamilies, unknownsOfFamily } from "../../core/instruments/object.ts";
import type { KindOfWork } from "../../core/work/kind-of-work.ts";
import { instrumentKindSchema, ownInstrumentSchema } from "./instrument.ts";
import { kindOfWorkSchema } from "./kind-of-work.ts";
import { objectKindSchema, ownObjectSchema } from "./object.ts";

const catalog = fileURLToPath(new URL("../../../catalog/", import.meta.url));

function entriesOf<Kind>(folder: string, schema: z.ZodType<Kind>): readonly { file: string; entry: Kind }[] {
  return readdirSync(catalog + folder)
    .filter((file) => file.endsWith(".json"))
    .map((file) => {
      const parsed = schema.safeParse(JSON.parse(readFileSync(`${catalog}${folder}/${file}`, "utf8")));
      if (!parsed.success) throw new Error(`${folder}/${file}: ${z.prettifyError(parsed.error)}`);
      return { file, entry: parsed.data };
    });
}

const instruments = entriesOf<InstrumentKind>("instruments", instrumentKindSchema);
const objects = entriesOf<ObjectKind>("objects", objectKindSchema);
const kindsOfWork = entriesOf<KindOfWork>("kinds-of-work", kindOfWorkSchema);

describe("the catalogue of instruments and objects", () => {
  test("every file is named after the entry in it", () => {
    for (const { file, entry } of [...instruments, ...objects, ...kindsOfWork]) expect(file).toBe(`${entry.id}.json`);
  });

  test("every instrument is marked in a unit of what it measures, and a look in none", () => {
    for (const { entry } of instruments) {
      const quantity = entry.markedIn === undefined ? null : unitOf(entry.markedIn).quantity;
      expect(quantity, entry.id).toBe(quantityOf(entry));
    }
  });

  test("an error that grows with the length has a range to grow over, one that lasts has an amount", () => {
    for (const { entry } of instruments) {
      if (entry.measures !== "length") continue;
      if (entry.lasts === "scale") expect(entry.rangeMm?.to, entry.id).toBeGreaterThan(0);
      expect(entry.maxPermissibleError === undefined, entry.id).toBe(entry.lasts === "none");
    }
  });

  test("every range runs upwards, every set of leaves too", () => {
    for (const { entry } of instruments) {
      for (const [name, figure] of Object.entries(entry)) {
        if (name.startsWith("range")) expect(figure.from, entry.id).toBeLessThan(figure.to);
      }
      const leaves = entry.measures === "length" ? (entry.leaves?.leavesMm ?? []) : [];
      expect([...leaves].sort((a, b) => a - b)).toEqual(leaves);
    }
  });

  test("every family of instruments and of objects has at least one entry", () => {
    expect(new Set(instruments.map(({ entry }) => entry.family))).toEqual(new Set(instrumentFamilies));
    expect(new Set(objects.map(({ entry }) => entry.family))).toEqual(new Set(objectFamilies));
  });

  test("an object has priors only for unknowns of its family", () => {
    const unknowns = {
      squareSdMmPer100: "square",
      bowSdMm: "bow",
      overhangSdMmPer100: "overhang side",
      diameterSdMm: "cutter",
      angleSdDeg: "angle",
    };
    for (const { entry } of objects) {
      for (const name of Object.keys(entry.priors)) {
        expect(unknownsOfFamily[entry.family]).toContain(unknowns[name as keyof typeof unknowns]);
      }
    }
  });

  test("every entry names where its figures come from: a key of the references, or that there is none", () => {
    const references = readFileSync(fileURLToPath(new URL("../../../docs/references.md", import.meta.url)), "utf8");
    for (const { entry } of [...instruments, ...objects, ...kindsOfWork]) {
      const keys = [...entry.source.matchAll(/\[([^\]]+)\]/g)].map(([, key]) => key!);
      for (const key of keys) {
        const listed = [...references.matchAll(/^- \*\*\[([^\]]+)\]\*\*/gm)].some(([, known]) =>
          key.startsWith(known!),
        );
        expect(listed, `${entry.id}: [${key}]`).toBe(true);
      }
      if (keys.length === 0) expect(entry.source).toBe("common practice, no source");
    }
  });
});

describe("what a schema refuses", () => {
  const dial = { id: "d1", kind: "dial-indicator" };

  test("a figure without its unit in its name, and a bare accuracy", () => {
    for (const figures of [{ resolution: 0.01 }, { accuracy: 0.02 }, { error: 0.02 }, { settingInches: 0.001 }]) {
      expect(ownInstrumentSchema.safeParse({ ...dial, figures }).success).toBe(false);
    }
    expect(ownInstrumentSchema.safeParse({ ...dial, figures: { resolutionMm: 0.002 } }).success).toBe(true);
  });

  test("a certificate without its coverage factor", () => {
    const square = { id: "s1", kind: "square" };
    const stated = { squareMmPer100: { value: 0.02, expandedUncertainty: 0.01 } };
    expect(ownObjectSchema.safeParse({ ...square, stated }).success).toBe(false);
    const whole = { squareMmPer100: { value: 0.02, expandedUncertainty: 0.01, coverageFactor: 2 } };
    expect(ownObjectSchema.safeParse({ ...square, stated: whole }).success).toBe(true);
  });

  test("an entry of the catalogue without a source", () => {
    const { source: _source, ...entry } = instruments[0]!.entry;
    expect(instrumentKindSchema.safeParse(entry).success).toBe(false);
  });
});

describe("the published JSON Schemas", () => {
  const published = {
    instrument: instrumentKindSchema,
    "own-instrument": ownInstrumentSchema,
    object: objectKindSchema,
    "own-object": ownObjectSchema,
    "kind-of-work": kindOfWorkSchema,
  };

  // A stale file gets a sibling `…-changed.json`: look at the difference, then put it in the place of the old one.
  test.each(Object.entries(published))("catalog/schema/%s.schema.json says what the program checks", (name, schema) => {
    const path = `${catalog}schema/${name}.schema.json`;
    const fresh = `${JSON.stringify(z.toJSONSchema(schema), undefined, 2)}\n`;
    const committed = existsSync(path) ? readFileSync(path, "utf8") : "";
    if (fresh !== committed && !process.env.CI) writeFileSync(path.replace(/\.json$/, "-changed.json"), fresh);
    expect(committed === fresh, `${name}.schema.json is stale; a …-changed.json stands beside it`).toBe(true);
  });
});
