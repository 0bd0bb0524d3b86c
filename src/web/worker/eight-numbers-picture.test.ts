import { describe, expect, it } from "vitest";
import { usualMachine } from "../../app/usual-machine.ts";
import { machineFromDescription } from "../../core/machine/machine.ts";
import { eightNumbersPicture } from "./eight-numbers-picture.ts";

describe("the picture of the eight numbers", () => {
  it.each(["moving-gantry", "fixed-bridge"] as const)("has every letter once on a %s", (layout) => {
    const picture = eightNumbersPicture(machineFromDescription({ ...usualMachine, layout }));
    const letters = [...picture.matchAll(/>([A-Z])<\/text>/g)].map(([, letter]) => letter);
    expect(letters.sort()).toEqual(["A", "B", "C", "D", "E", "F", "G", "H"]);
    expect(picture).not.toContain("NaN");
  });
});
