import { describe, expect, it } from "vitest";
import { adjustersOf } from "../machine/adjusters/catalogue.ts";
import type { MachineDescription } from "../machine/description.ts";
import { machineFromDescription } from "../machine/machine.ts";
import { type MachineSheet, machineSheet } from "./machine-sheet.ts";

const gantry: MachineDescription = {
  name: "router in the shed",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 500, z: 70 },
  railPlanesMm: { left: -90, right: 690 },
  wheelbaseMm: 140,
  beamCentreMm: 105,
  toolFromBeamMm: -75,
};
const bridge: MachineDescription = { ...gantry, layout: "fixed-bridge" };

function sheetOf(description: MachineDescription, with_: Partial<MachineSheet> = {}): string {
  const machine = machineFromDescription(description);
  return machineSheet({ machine, state: null, readings: "none yet", date: "2026-03-14", ...with_ });
}

describe("the letters of the adjusters on the sheet", () => {
  it.each([gantry, bridge])("stand once for each joint whose screws are seen, on a $layout", (description) => {
    const adjusters = adjustersOf(machineFromDescription(description));
    for (const projection of ["third", "first"] as const) {
      const sheet = sheetOf(description, { adjusters, projection });
      for (const { letter, fasteners, words } of adjusters) {
        const marks = sheet.match(new RegExp(`>${letter}</text>`, "g")) ?? [];
        expect(marks, `${letter}, ${words}`).toHaveLength(fasteners.places.length > 0 ? 1 : 0);
      }
    }
  });

  it("are not there where nobody asks for them", () => {
    expect(sheetOf(gantry)).not.toContain("letters: where it can be changed");
  });
});
