import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addressOf, machineAddress, placeFrom, routeFrom } from "./router.ts";

const machine = "0123456789abcdef0123456789abcdef";
const at = (address: string) => routeFrom(placeFrom(address));

describe("an address of the page", () => {
  it("leads to the view it names", () => {
    expect(at("/")).toEqual({ view: "machines" });
    expect(at("/new?copy=abc")).toEqual({ view: "new", copyOf: "abc" });
    expect(at("/settings")).toEqual({ view: "settings" });
    expect(at("/take-in")).toEqual({ view: "take-in" });
    expect(at(machineAddress(machine))).toMatchObject({ view: "machine", machine, stage: "overview", rest: [] });
    expect(at(machineAddress(machine, "measure", "bed-touch", "take"))).toMatchObject({
      stage: "measure",
      rest: ["bed-touch", "take"],
    });
  });

  it("leads to a machine that came by the command line as well", () => {
    const imported = "07db9c4a-715b-4f58-bf78-8147efaa2232";
    expect(at(machineAddress(imported, "findings"))).toMatchObject({ view: "machine", machine: imported });
  });

  it("leads nowhere where it names nothing", () => {
    for (const address of ["/somewhere", "/machine", "/machine/12", "/settings/more"])
      expect(at(address).view).toBe("nowhere");
  });

  it("gives back whatever parts it was made of, and never looks like the name of a file", () => {
    const part = fc.string({ minLength: 1, maxLength: 20, unit: "grapheme" }).filter((text) => !/~|^\s*$/.test(text));
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 4 }), (parts) => {
        const address = addressOf(...parts);
        expect(address).not.toContain(".");
        expect(placeFrom(address).path).toEqual(parts);
      }),
      { seed: 4712 },
    );
  });

  it("survives what is no text", () => {
    expect(placeFrom("/a%zz").path).toEqual(["a%zz"]);
  });
});
