import { expect, test } from "vitest";
import knife from "../../catalog/objects/knife-straightedge.json" with { type: "json" };
import { sdWithin } from "../../src/core/instruments/lasting-error.ts";
import { generalToleranceMm } from "../../src/core/standards/general-tolerance.ts";
import { squareLimitMm } from "../../src/core/standards/square-tolerance.ts";
import { knifeStraightedgeLimitMm } from "../../src/core/standards/straightedge-tolerance.ts";
import { tapePermissibleErrorMm } from "../../src/core/standards/tape-tolerance.ts";
import { openReference } from "./reference.ts";

test("squares: the formula, rounded up, gives the printed rows", () => {
  const square = openReference("[DIN 875-1]");
  const rows = [
    [75, 3, 7, 14, 28],
    [100, 3, 7, 15, 30],
    [150, 4, 8, 18, 35],
    [200, 4, 9, 20, 40],
    [500, 7, 15, 35, 70],
  ] as const;
  for (const [length, ...limits] of rows) {
    (["00", "0", "1", "2"] as const).forEach((grade, i) => {
      const what = `square of ${length} mm, grade ${grade}, µm`;
      square.number({
        what,
        expected: String(limits[i]),
        got: 1000 * squareLimitMm(grade, length),
        status: "published",
      });
    });
  }
});

test("knife straightedges: the formula gives the printed rows, and the catalogue's prior follows from it", () => {
  const straightedge = openReference("[DIN 874-2]");
  for (const [length, limit] of [
    [75, 2],
    [300, 3],
    [500, 4],
    [1000, 6],
  ] as const) {
    const what = `knife straightedge of ${length} mm, µm`;
    straightedge.number({
      what,
      expected: String(limit),
      got: 1000 * knifeStraightedgeLimitMm(length),
      status: "published",
    });
  }
  // All that a limit says is that the bow is no larger: standard deviation t/√3.
  expect(knife.priors.bowSdMm).toBeCloseTo(sdWithin(knifeStraightedgeLimitMm(300)), 4);
});

test("tapes and rules", () => {
  const tape = openReference("[MID MI-008 Chapter I]");
  const rows = [
    ["I", 1000, "0.2"],
    ["I", 1500, "0.3"],
    ["II", 1000, "0.5"],
    ["II", 2000, "0.7"],
    ["II", 5000, "1.3"],
    ["III", 2000, "1.4"],
  ] as const;
  for (const [tapeClass, length, expected] of rows) {
    const what = `tape of class ${tapeClass} over ${length} mm, ± mm`;
    tape.number({ what, expected, got: tapePermissibleErrorMm(tapeClass, length), status: "published" });
  }
  tape.number({
    what: "tape of class II over 2000 mm from its hook, ± mm",
    expected: "0.9",
    got: tapePermissibleErrorMm("II", 2000, true),
    status: "published",
  });
});

test("lengths without a tolerance of their own", () => {
  const general = openReference("[ISO 2768-1 Table 1]");
  const rows = [
    [3, "0.05", "0.1"],
    [25, "0.1", "0.2"],
    [120, "0.15", "0.3"],
    [121, "0.2", "0.5"],
    [1000, "0.3", "0.8"],
    [1500, "0.5", "1.2"],
  ] as const;
  for (const [length, fine, medium] of rows) {
    general.number({
      what: `${length} mm, fine, ± mm`,
      expected: fine,
      got: generalToleranceMm("fine", length)!,
      status: "published",
    });
    general.number({
      what: `${length} mm, medium, ± mm`,
      expected: medium,
      got: generalToleranceMm("medium", length)!,
      status: "published",
    });
  }
});
