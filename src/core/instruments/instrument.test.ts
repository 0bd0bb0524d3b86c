import { describe, expect, test } from "vitest";
import {
  type InstrumentId,
  type InstrumentKind,
  type InstrumentKindId,
  instrumentFromKind,
  longestReadingMm,
  quantityOf,
  usualInstrument,
} from "./instrument.ts";

const calipers: InstrumentKind = {
  id: "some-calipers" as InstrumentKindId,
  name: "calipers",
  family: "calipers",
  markedIn: "mm",
  measures: "length",
  rangeMm: { from: 0, to: 150 },
  resolutionMm: 0.01,
  settingMm: 0.03,
  maxPermissibleError: { constantMm: 0.03 },
  lasts: "scale",
  source: "for tests",
};
const look: InstrumentKind = {
  id: "some-look" as InstrumentKindId,
  name: "look",
  family: "look",
  measures: "eye",
  source: "for tests",
};
const own = { id: "mine" as InstrumentId, kind: calipers.id };

describe("an owner's instrument", () => {
  test("is as usual where nothing is stated, under its own id", () => {
    const outcome = instrumentFromKind(calipers, own);
    const { source: _source, ...usual } = calipers;
    expect(outcome).toMatchObject({ ok: true, value: { ...usual, id: "mine", kind: "some-calipers" } });
    expect(usualInstrument(calipers)).toEqual({ ...usual, kind: "some-calipers" });
  });

  test("has the figures and the name that are stated, and the rest as usual", () => {
    const outcome = instrumentFromKind(calipers, {
      ...own,
      name: "the old ones",
      markedIn: "in",
      figures: { settingMm: 0.05, maxPermissibleError: { constantMm: 0.05 } },
    });
    expect(outcome).toMatchObject({
      ok: true,
      value: {
        name: "the old ones",
        markedIn: "in",
        settingMm: 0.05,
        maxPermissibleError: { constantMm: 0.05 },
        resolutionMm: 0.01,
      },
    });
  });

  test("does not take the figures of another quantity", () => {
    const where = { field: "instrument" };
    expect(instrumentFromKind(calipers, { ...own, figures: { settingMmPerM: 0.1 } }, where)).toMatchObject({
      ok: false,
      diagnostics: [{ code: "figure-of-other-instrument", where, data: { figure: "settingMmPerM" } }],
    });
    expect(instrumentFromKind(look, { ...own, kind: look.id, figures: { settingMm: 0.1 } }).ok).toBe(false);
  });

  test("says what it reads and how far", () => {
    expect(quantityOf(calipers)).toBe("length");
    expect(quantityOf(look)).toBeNull();
    expect(longestReadingMm(calipers)).toBe(150);
    expect(longestReadingMm(look)).toBeNull();
  });
});
