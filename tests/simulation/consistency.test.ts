import { expect, it } from "vitest";
import { consistency } from "./consistency.ts";
import { fullCatalogue, sixChecks } from "./simulate.ts";

/**
 * A small, seeded share of `npm run consistency`. The normalised error squared of one machine scatters by √(2/size), so
 * that of 16 machines with some 60 to 120 unknowns by 0.03 to 0.05; readings of one machine hang together, and coverage
 * of 600 answers scatters by about 1.5 %. The bounds are three to four of these wide: seeds are fixed, so the test does
 * not flake, and a factor of √2 in any standard deviation breaks it.
 */
const MACHINES = 16;

for (const layout of ["moving-gantry", "fixed-bridge"] as const) {
  for (const [name, plan] of [
    ["full catalogue", fullCatalogue()],
    ["six checks", sixChecks()],
  ] as const) {
    it(`errs by as much as it says on ${MACHINES} machines: ${layout}, ${name}`, () => {
      const { normalisedErrorSquared, modes, linear, sampled } = consistency(layout, plan, 0, MACHINES, 1);
      expect(normalisedErrorSquared).toBeGreaterThan(0.85);
      expect(normalisedErrorSquared).toBeLessThan(1.15);
      for (const { inside, asked } of [modes, linear, sampled]) {
        expect(inside / asked).toBeGreaterThan(0.9);
        expect(inside / asked).toBeLessThan(0.99);
      }
    });
  }
}
