import { expect, it } from "vitest";
import { consistency } from "./consistency.ts";
import { fullCatalogue, sixChecks } from "./simulate.ts";

for (const layout of ["moving-gantry", "fixed-bridge"] as const) {
  for (const [name, plan] of [
    ["full catalogue", fullCatalogue()],
    ["six checks", sixChecks()],
  ] as const) {
    it(`errs by as much as it says: ${layout}, ${name}`, () => {
      const result = consistency(layout, plan, 40, 1);
      console.log(layout, name, result);
      expect(result.coverage).toBeGreaterThan(0.9);
    });
  }
}
