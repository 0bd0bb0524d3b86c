import { findingsOf } from "../core/findings/catalogue.ts";
import { findingUnitOf } from "../core/findings/finding.ts";
import type { Catalogue } from "../logbook/known.ts";
import { catalogueFromEntries } from "../logbook/known-from-catalogue.ts";
import { instrumentKinds, objectKinds } from "./catalog.ts";

/** Kinds of work by their ids. */
export const kindsOfWork: readonly string[] = [
  "general",
  "lettering",
  "inlay",
  "sheet-joinery",
  "parts-from-sheet",
  "engraved-plates",
  "surfacing",
];

/** Everything that ships, as the replay of a logbook asks it: checks, kinds, adjusters, findings, modes, stations. */
export const knownCatalogue: Catalogue = catalogueFromEntries({
  instruments: [...instrumentKinds.values()],
  objects: [...objectKinds.values()],
  kindsOfWork,
  findings: (machine) => new Map(findingsOf(machine).map((finding) => [finding.id, findingUnitOf(finding)])),
});
