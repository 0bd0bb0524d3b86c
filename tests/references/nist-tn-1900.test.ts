import { test } from "vitest";
import { propagate } from "../../src/core/uncertainty/propagation.ts";
import { openReference } from "./reference.ts";

const expansion = openReference("[NIST TN 1900 E13]");

test("NIST TN 1900 E13, thermal expansion of a bar", () => {
  // Each input is a mean with three degrees of freedom; the law takes the standard uncertainties as they are.
  const law = propagate(
    ([l0, l1, t0, t1]) => (l1! - l0!) / (l0! * (t1! - t0!)),
    [
      { value: 1.4999, standardUncertainty: 0.0001 },
      { value: 1.5021, standardUncertainty: 0.0002 },
      { value: 288.15, standardUncertainty: 0.02 },
      { value: 373.1, standardUncertainty: 0.05 },
    ],
  );
  expansion.number({ what: "α, 1/K", expected: "1.7266e-5", got: law.value, status: "published" });
  expansion.number({ what: "u(α), 1/K", expected: "1.76e-6", got: law.standardUncertainty, status: "published" });
  expansion.number({
    what: "u(α), 1/K, more digits",
    expected: "1.75548e-6",
    got: law.standardUncertainty,
    status: "independent program",
  });
});
