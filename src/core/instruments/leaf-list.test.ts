import { describe, expect, test } from "vitest";
import { acceptEntry } from "./accept-entry.ts";
import { type InstrumentId, type InstrumentKind, type InstrumentKindId, instrumentFromKind } from "./instrument.ts";
import { type LeafListQuestion, readLeafList } from "./leaf-list.ts";
import { leafListInWords } from "./marks.ts";

const question: LeafListQuestion = { usualUnit: "mm", largestStack: 3 };

function read(text: string, asked: Partial<LeafListQuestion> = {}) {
  const outcome = readLeafList(text, { ...question, ...asked });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

function codes(text: string, asked: Partial<LeafListQuestion> = {}) {
  return readLeafList(text, { ...question, ...asked }).diagnostics.map(({ code }) => code);
}

describe("a list of leaves", () => {
  test("is read however its leaves are parted, thin ones first", () => {
    const set = { leavesMm: [0.03, 0.05, 0.1], largestStack: 3 };
    for (const text of [
      "0.03 0.05 0.10",
      "0,10; 0,05; 0,03",
      "0.03,0.05,0.10",
      "0.03, 0.05, .1 mm",
      "0,03 0,05, 0,1",
    ]) {
      expect(read(text), text).toEqual({ set, markedIn: "mm" });
    }
  });

  test("takes a unit that stands once for every leaf, and the usual one where none stands", () => {
    const leavesMm = [0.0381, 0.0508, 0.0762];
    expect(read("1.5 2 3 thou")).toEqual({ set: { leavesMm, largestStack: 3 }, markedIn: "thou" });
    expect(read('.0015" .002" .003"').set.leavesMm).toEqual(leavesMm);
    expect(read("0.0015 0.002 0.003 in").markedIn).toBe("thou");
    expect(read("1.5 2 3", { usualUnit: "thou" }).set.leavesMm).toEqual(leavesMm);
    expect(read("1.5 thou 0.05 mm").set.leavesMm).toEqual([0.0381, 0.05]);
  });

  test("is refused with what is wrong in it", () => {
    expect(codes("")).toEqual(["leaves-missing"]);
    expect(codes("0.05 0.1O")).toEqual(["unit-not-known"]);
    expect(codes("0.05 0.10 0.05")).toEqual(["leaf-listed-twice"]);
    expect(codes("0.05 50")).toEqual(["leaf-not-possible"]);
    expect(codes("0.05 0")).toEqual(["leaf-not-possible"]);
    expect(codes("1/64in")).toEqual(["leaf-not-possible"]);
    expect(codes("2 thou 0.05 mm 0.10")).toEqual(["sum-with-unclear-units"]);
    const hundred = Array.from({ length: 100 }, (_, i) => (i + 1) / 100).join(" ");
    expect(codes(hundred)).toEqual([]);
    expect(codes(hundred, { largestStack: 4 })).toEqual(["leaves-too-many"]);
  });

  test("names the column of what cannot be read", () => {
    const refused = readLeafList("0.05 0.10 0..15", question);
    expect(refused.diagnostics[0]).toMatchObject({ code: "number-with-two-marks", where: { column: 13 } });
  });

  test("is the same list when it is read as it is told", () => {
    for (const text of ["0.03 0.05 0.10 mm", "1.5 2 2.5 3 thou"]) {
      const { set, markedIn } = read(text);
      expect(read(leafListInWords(set.leavesMm, markedIn))).toEqual({ set, markedIn });
    }
  });

  test("makes a set whose next leaf and whose sums are those of its owner", () => {
    const kind: InstrumentKind = {
      id: "leaves" as InstrumentKindId,
      name: "twenty leaves",
      family: "feeler",
      markedIn: "mm",
      measures: "length",
      settingMm: 0.02,
      lasts: "offset",
      leaves: { leavesMm: [0.05, 0.1], largestStack: 3 },
      source: "common practice, no source",
    };
    const { set } = read("0.03 0.07 0.20", { largestStack: 2 });
    const own = instrumentFromKind(kind, { id: "mine" as InstrumentId, kind: kind.id, figures: { leaves: set } });
    if (!own.ok) throw new Error("the set is one");
    expect(own.value.name).toBe("feeler leaves, 3 of 0.03 to 0.20 mm");
    const typed = (text: string) => acceptEntry(own.value, { form: "value", text });
    expect(typed("0.07")).toMatchObject({ value: { entry: { goes: 0.07, doesNotGo: 0.1 } } });
    expect(typed("0.03+0.07+0.20")).toMatchObject({ diagnostics: [{ code: "stack-not-allowed" }] });
    expect(typed("0.05")).toMatchObject({ diagnostics: [{ code: "leaves-cannot-make" }] });
  });
});
