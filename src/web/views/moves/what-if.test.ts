import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { WhatIf } from "../../worker/protocol-moves.ts";
import { queryFromWhatIf, whatIfFromQuery } from "./what-if.ts";

const id = fc.constantFrom("beam.right", "slide.side", "steps.y");
const ids = fc.uniqueArray(id, { minLength: 1 });

describe("what is tried, in an address", () => {
  it("comes back as it was written", () => {
    const what: fc.Arbitrary<WhatIf> = fc.record(
      {
        locks: ids,
        only: ids,
        willSkim: fc.constantFrom(true, false, null),
        kindOfWork: fc.constantFrom("inlay", "lettering"),
        stockMm: fc.array(fc.constantFrom(0.05, 0.1, 0.5)),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(what, (tried) => {
        expect(whatIfFromQuery(new URLSearchParams(queryFromWhatIf(tried)))).toEqual(tried);
      }),
      { seed: 12, numRuns: 200 },
    );
  });

  it("counts leaves of one thickness", () => {
    const query = queryFromWhatIf({ stockMm: [0.05, 0.05, 0.05, 0.1] });
    expect(new URLSearchParams(query).get("stock")).toBe("0.05x3 0.1");
  });

  it("is nothing where an address says nothing, or what nobody understands", () => {
    expect(queryFromWhatIf({})).toBe("");
    for (const query of ["", "skim=perhaps", "stock=thin"])
      expect(whatIfFromQuery(new URLSearchParams(query))).toEqual({});
  });
});
