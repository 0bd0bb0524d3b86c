import { findingsOf } from "../core/findings/catalogue.ts";
import { findingUnitOf } from "../core/findings/finding.ts";
import type { Catalogue } from "../logbook/known.ts";
import { catalogueFromEntries } from "../logbook/known-from-catalogue.ts";
import { instrumentKinds, objectKinds } from "./catalog.ts";
import { kindsOfWork } from "./kinds-of-work.ts";

/** Everything that ships, as the replay of a logbook asks it: checks, kinds, adjusters, findings, modes, stations. */
export const knownCatalogue: Catalogue = catalogueFromEntries({
  instruments: [...instrumentKinds.values()],
  objects: [...objectKinds.values()],
  kindsOfWork: [...kindsOfWork.keys()],
  findings: (machine) => new Map(findingsOf(machine).map((finding) => [finding.id, findingUnitOf(finding)])),
});
