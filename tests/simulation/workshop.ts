import type { Instrument } from "../../src/core/instruments/instrument.ts";

const length = { measures: "length", settingMm: 0.03, lasts: "none" } as const;

/** Instruments of the simulated workshop; figures as in the catalogue (common practice, no source). */
export const simulatedInstruments: Readonly<Record<string, Instrument>> = Object.fromEntries(
  (
    [
      {
        ...length,
        id: "tape",
        family: "tape",
        rangeMm: { from: 0, to: 5000 },
        resolutionMm: 0.5,
        settingMm: 0.3,
        maxPermissibleError: { constantMm: 0.3, perWholeMetreMm: 0.2 },
        lasts: "scale",
      },
      {
        ...length,
        id: "feeler",
        family: "feeler",
        rangeMm: { from: 0.05, to: 2.85 },
        settingMm: 0.02,
        maxPermissibleError: { constantMm: 0.01 },
        lasts: "offset",
        leaves: { leavesMm: [], largestStack: 3 },
      },
      {
        ...length,
        id: "rule",
        family: "rule",
        rangeMm: { from: 0, to: 1000 },
        resolutionMm: 0.1,
        settingMm: 0.05,
        scaleStandardUncertaintyMmPerM: 0.2,
        lasts: "scale",
      },
      {
        ...length,
        id: "calipers",
        family: "calipers",
        rangeMm: { from: 0, to: 300 },
        resolutionMm: 0.01,
        settingMm: 0.03,
        maxPermissibleError: { constantMm: 0.04 },
        againstSameSize: { maxPermissibleErrorMm: 0.01 },
        lasts: "scale",
      },
      {
        ...length,
        id: "dial",
        family: "dial",
        rangeMm: { from: 0, to: 10 },
        resolutionMm: 0.01,
        settingMm: 0.01,
        maxPermissibleError: { constantMm: 0.02 },
        lasts: "offset",
      },
      {
        ...length,
        id: "test indicator",
        family: "test indicator",
        rangeMm: { from: -0.4, to: 0.4 },
        resolutionMm: 0.01,
        settingMm: 0.01,
        maxPermissibleError: { constantMm: 0.013 },
        lasts: "offset",
      },
      { ...length, id: "line by eye", family: "line by eye", settingMm: 0.12 },
      {
        ...length,
        id: "touch plate",
        family: "touch plate",
        resolutionMm: 0.005,
        settingMm: 0.02,
        maxPermissibleError: { constantMm: 0.01 },
        lasts: "offset",
      },
      { ...length, id: "loupe", family: "loupe", rangeMm: { from: 0, to: 10 }, resolutionMm: 0.1, settingMm: 0.05 },
      { measures: "slope", id: "level", family: "level", resolutionMmPerM: 0.02, settingMmPerM: 0.05 },
    ] as const
  ).map((instrument) => [
    instrument.family,
    { name: instrument.id, kind: instrument.id, ...instrument } as unknown as Instrument,
  ]),
);

/** The instrument that the simulated user takes for a check: the first of its families that the workshop has. */
export function instrumentForFamilies(families: readonly string[]): Instrument {
  for (const family of families) if (simulatedInstruments[family]) return simulatedInstruments[family];
  throw new Error(`the simulated workshop has none of ${families.join(", ")}`);
}
