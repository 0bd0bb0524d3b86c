import { describe, expect, it } from "vitest";
import type { EntryForm } from "../../worker/protocol.ts";
import { entryText, fieldsOf, nextField } from "./entry-text.ts";

const form = (some: Partial<EntryForm>): EntryForm => ({
  kind: "number",
  parts: [""],
  unit: "mm",
  units: [],
  signed: false,
  quantity: "length",
  range: "",
  instrument: "",
  order: (some.parts ?? [""]).map((_, i) => i),
  ...some,
});

describe("the fields of a station", () => {
  it("are one for a number, and two for leaves", () => {
    expect(fieldsOf(form({})).map(({ label }) => label)).toEqual(["reading"]);
    expect(fieldsOf(form({ kind: "leaves" })).map(({ label }) => label)).toEqual(["goes", "does not go"]);
  });

  it("are asked twice where a station takes two entries, and Enter passes over what does not go", () => {
    const fields = fieldsOf(form({ kind: "leaves", parts: ["top gap", "bottom gap"] }));
    expect(fields.map(({ label }) => label)).toEqual([
      "top gap, goes",
      "top gap, does not go",
      "bottom gap, goes",
      "bottom gap, does not go",
    ]);
    expect(nextField(fields, 0)).toBe(2);
    expect(nextField(fields, 1)).toBe(2);
    expect(nextField(fields, 2)).toBeNull();
  });

  it("stand in the order in which they are asked, and make the text in the order of the logbook", () => {
    const gaps = form({ kind: "leaves", parts: ["right gap", "left gap"], order: [1, 0] });
    const fields = fieldsOf(gaps);
    expect(fields.map(({ label }) => label)).toEqual([
      "left gap, goes",
      "left gap, does not go",
      "right gap, goes",
      "right gap, does not go",
    ]);
    expect(nextField(fields, 0)).toBe(2);
    expect(nextField(fields, 3)).toBeNull();
    expect(entryText(gaps, ["0", "", "0.90", "0.95"])).toBe("0.90/0.95:0");
  });

  it("make the text that a table's cell would hold", () => {
    const leaves = form({ kind: "leaves" });
    expect(entryText(leaves, ["0.35", "0.40"])).toBe("0.35/0.40");
    expect(entryText(leaves, ["0.20+0.15", ""])).toBe("0.20+0.15");
    expect(entryText(leaves, ["", "0.05"])).toBe("<0.05");
    expect(entryText(leaves, ["1", "2"])).toBe("1.0/2");
    expect(entryText(leaves, ["0", "0.05"])).toBe("0");
    expect(entryText(form({ kind: "leaves", unit: "thou" }), ["13", "15"])).toBe("13/15");
    expect(entryText(form({ kind: "leaves", parts: ["top gap", "bottom gap"] }), ["0.10", "0.15", "0", ""])).toBe(
      "0.10/0.15:0",
    );
    expect(entryText(form({ parts: ["first", "second"] }), ["98.2", "97.9"])).toBe("98.2:97.9");
  });
});
