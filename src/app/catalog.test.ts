import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { geometricChecks } from "../core/checks/catalogue.ts";
import { type InstrumentFamily, instrumentFamilies } from "../core/instruments/instrument.ts";
import { type ObjectFamily, unknownsOfFamily } from "../core/instruments/object.ts";
import { machineFromDescription } from "../core/machine/machine.ts";
import { instrumentKindSchema } from "../logbook/schema/instrument.ts";
import { objectKindSchema } from "../logbook/schema/object.ts";
import { instrumentKinds, kindForFamily, kindsOfFamily, objectKinds } from "./catalog.ts";
import { usualMachine } from "./usual-machine.ts";

const catalog = fileURLToPath(new URL("../../catalog/", import.meta.url));

function filesIn(folder: string): readonly { readonly id: string }[] {
  return readdirSync(catalog + folder)
    .filter((file) => file.endsWith(".json"))
    .map((file) => JSON.parse(readFileSync(`${catalog}${folder}/${file}`, "utf8")));
}

describe("the catalogue as the program loads it", () => {
  test("holds every file of the two folders, and nothing else", () => {
    const byId = (entries: Iterable<{ readonly id: string }>) =>
      [...entries].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
    expect(byId(instrumentKinds.values())).toEqual(byId(filesIn("instruments")));
    expect(byId(objectKinds.values())).toEqual(byId(filesIn("objects")));
  });

  test("holds only what the schemas allow", () => {
    for (const kind of instrumentKinds.values())
      expect(instrumentKindSchema.safeParse(kind).success, kind.id).toBe(true);
    for (const kind of objectKinds.values()) expect(objectKindSchema.safeParse(kind).success, kind.id).toBe(true);
  });
});

describe("the usual kind of a family", () => {
  test("is of the family, and the first of its kinds", () => {
    for (const family of instrumentFamilies) {
      expect(kindForFamily(family).family).toBe(family);
      expect(kindsOfFamily(family)[0]).toBe(kindForFamily(family));
      expect(kindsOfFamily(family)).toHaveLength(
        [...instrumentKinds.values()].filter((kind) => kind.family === family).length,
      );
    }
  });

  test.each([
    ["feeler", "feeler-leaves"],
    ["level", "level-0.5"],
    ["calipers", "calipers-150"],
    ["rule", "steel-rule-with-loupe"],
    ["line by eye", "line-by-eye-with-loupe"],
  ] satisfies [InstrumentFamily, string][])("%s: %s", (family, id) => {
    expect(kindForFamily(family).id).toBe(id);
  });

  test("is left to no alphabet: the families with several kinds are those above", () => {
    const several = instrumentFamilies.filter((family) => kindsOfFamily(family).length > 1);
    expect([...several].sort()).toEqual(["calipers", "feeler", "level", "line by eye", "rule"]);
  });
});

test("what a check does not know of an object is something that its family is known to carry", () => {
  const machine = machineFromDescription(usualMachine);
  for (const check of geometricChecks) {
    const setup = { machine, options: {}, instrument: null };
    for (const station of check.stations(setup)) {
      for (const { key, role } of check.unknowns(setup, station)) {
        if (role === undefined) continue;
        expect(unknownsOfFamily[role as ObjectFamily], `${check.id}: ${key} of ${role}`).toContain(key);
      }
    }
  }
});
