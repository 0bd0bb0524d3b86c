import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { UnitId } from "../../src/core/base/units.ts";
import { findingsOf } from "../../src/core/findings/catalogue.ts";
import { findingUnitOf } from "../../src/core/findings/finding.ts";
import type { InstrumentKind } from "../../src/core/instruments/instrument.ts";
import type { ObjectKind } from "../../src/core/instruments/object.ts";
import type { Machine } from "../../src/core/machine/machine.ts";
import { catalogueFromEntries } from "../../src/logbook/known-from-catalogue.ts";
import { instrumentKindSchema } from "../../src/logbook/schema/instrument.ts";
import { kindOfWorkSchema } from "../../src/logbook/schema/kind-of-work.ts";
import { objectKindSchema } from "../../src/logbook/schema/object.ts";

const folder = fileURLToPath(new URL("../../catalog/", import.meta.url));

function filesIn(name: string): readonly unknown[] {
  return readdirSync(folder + name)
    .filter((file) => file.endsWith(".json"))
    .map((file) => JSON.parse(readFileSync(`${folder}${name}/${file}`, "utf8")));
}

const instruments: readonly InstrumentKind[] = filesIn("instruments").map((file) => instrumentKindSchema.parse(file));
const objects: readonly ObjectKind[] = filesIn("objects").map((file) => objectKindSchema.parse(file));

const kindsOfWork = filesIn("kinds-of-work").map((file) => kindOfWorkSchema.parse(file).id);

/** The catalogue that ships, as replay asks it. */
export const shippedCatalogue = catalogueFromEntries({ instruments, objects, kindsOfWork, findings: unitsOfFindings });

function unitsOfFindings(machine: Machine): ReadonlyMap<string, UnitId> {
  return new Map(findingsOf(machine).map((finding) => [finding.id, findingUnitOf(finding)]));
}
