import { expect, it } from "vitest";
import { workedGantry } from "../../../tests/simulation/simulate.ts";
import { describedAnew } from "./described-anew.ts";

it("says which numbers of a description changed and what they were, and that readings keep their places", () => {
  const wider = { ...workedGantry, travelMm: { ...workedGantry.travelMm, x: 700 } };
  expect(describedAnew(workedGantry, wider)).toBe(
    "Its description is changed: travel along X 700 mm, before 600 mm. Earlier readings keep the places where they were taken.",
  );
  expect(describedAnew(workedGantry, { ...workedGantry, beamCentreMm: 110 })).toBe(
    "Its description is changed: height of the beam's centre 110 mm, before 105 mm.",
  );
  expect(describedAnew(workedGantry, { ...workedGantry, details: { plateScrewsMm: 80 } })).toBe(
    "Its description is changed: its details.",
  );
  expect(describedAnew(workedGantry, { ...workedGantry })).toMatch(/by the same numbers/);
});
