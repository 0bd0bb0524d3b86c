import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { textFromEvents } from "../../src/logbook/write.ts";
import { soundLogbook } from "../logbook/sample-events.ts";
import { demonstrationText } from "./demonstration-events.ts";
import { kilter } from "./kilter.ts";

const folder = mkdtempSync(join(tmpdir(), "kilter-moves-"));
const soundText = textFromEvents(soundLogbook());
let count = 0;

function logbook(text = soundText): string {
  count += 1;
  const path = join(folder, `${count}.jsonl`);
  writeFileSync(path, text);
  return path;
}

function told(args: readonly string[]): string {
  const { status, out, err } = kilter(args);
  expect(status, `${args.join(" ")}\n${out}${err}`).toBe(0);
  return out.replaceAll(/\s+/g, " ");
}

const json = (args: readonly string[]) => JSON.parse(kilter([...args, "--json"]).out);
const linesOf = (path: string) => readFileSync(path, "utf8").trim().split("\n").length;

/** The command must end with status 2, a code, what was expected and what to do, and leave the logbook as it was. */
function refused(path: string, args: readonly string[]): string {
  const before = readFileSync(path);
  const { status, out, err } = kilter(args);
  expect(status, `${args.join(" ")}\n${out}${err}`).toBe(2);
  expect(err).toMatch(/\[[a-z][a-z-]+\]/);
  expect(err).toMatch(/expected: /);
  expect(err).toMatch(/to do: /);
  expect(err).not.toMatch(/\n\s+at .*:\d+:\d+|undefined|NaN/);
  expect(readFileSync(path)).toEqual(before);
  return err.replaceAll(/\s+/g, " ");
}

describe("a move that was made", () => {
  it("is noted with what the gauge read, the last reading goes on with its run, and hands are learnt from it", () => {
    const path = logbook();
    const gauge = ["--run", "gap-1", "--station", "front right", "--nipped", "0.60/0.65"];
    const said = told(["done", path, "beam.right", "--amount", "0.15", ...gauge, "--final", "0.75/0.80"]);
    expect(said).toMatch(/the right side-plate screws by \+0\.15 mm/);
    expect(said).toMatch(/by what your gauge has read: 0\.0\d+ mm; usual is 0\.030/);
    expect(said).toMatch(/read again after it: gap-under-beam/);
    const readings = json(["readings", path]);
    expect(readings).toHaveLength(3);
    expect(readings[2]).toMatchObject({ run: "gap-1", station: "front right" });
    const [row] = json(["adjusters", path]).filter(({ adjuster }: { adjuster: string }) => adjuster === "beam.right");
    expect(row.standardUncertainty).toBeGreaterThan(0.05);
  });

  it("begins a run of its own where the gauge was set up anew", () => {
    const path = logbook();
    const gauge = [
      "--check",
      "gap-under-beam",
      "--station",
      "front left",
      "--loose",
      "0.30/0.35",
      "--final",
      "0.30/0.35",
    ];
    const noted = json(["done", path, "beam.left", "--amount", "-0.3", "--planned", "-0.25", ...gauge]);
    expect(noted).toMatchObject({ adjuster: "beam.left", amount: -0.3, reading: { station: "front left" } });
    expect(linesOf(path)).toBe(8);
    expect(readFileSync(path, "utf8")).toMatch(/"kind":"run-begun".*\n.*"planned":-0\.25.*\n.*"kind":"reading-taken"/);
  });

  it("lays leaves from the stock, and the packing there is known", () => {
    const path = logbook();
    told(["stock", path, "0.2", "0,1x2"]);
    expect(told(["done", path, "rail.left.front", "--amount", "0.3", "--lay", "0.2 0.1"])).toMatch(
      /0\.3 mm lie there now/,
    );
    expect(json(["stock", path])).toEqual({ leavesMm: [0.1] });
    refused(path, ["done", path, "rail.left.front", "--amount", "-0.4"]);
    expect(told(["done", path, "rail.left.front", "--amount", "-0.3", "--take-out", "0.2+0.1"])).toMatch(
      /Nothing lies there/,
    );
    expect(json(["stock", path])).toEqual({ leavesMm: [0.2, 0.1, 0.1] });
  });

  it("needs no amount where something is taken up, and is then not known until it is read again", () => {
    expect(told(["done", logbook(), "play.x"])).toMatch(/not known until it is read again/);
  });

  it("is taken back, as is all else that happened, and never before it is named", () => {
    const path = logbook();
    told(["done", path, "slide.side", "--amount", "2"]);
    told(["happened", path, "knocked", "--member", "beam"]);
    told(["done", path, "bed.skim"]);
    const listed = json(["undo", path]);
    expect(listed.map(({ kind }: { kind: string }) => kind)).toEqual(["skimmed", "knocked", "moved"]);
    refused(path, ["undo", path, "zzz"]);
    refused(path, ["undo", path, ""]);
    for (const { id } of listed) told(["undo", path, id.slice(-6), "--because", "slip"]);
    expect(json(["undo", path])).toEqual([]);
    expect(told(["undo", path])).toMatch(/Nothing has happened/);
    refused(path, ["undo", path, listed[0].id]);
  });

  it("takes the reading that was noted with it along when it is taken back", () => {
    const path = logbook();
    const gauge = ["--run", "gap-1", "--station", "front right", "--final", "0.75/0.80"];
    told(["done", path, "beam.right", "--amount", "0.15", ...gauge]);
    const [{ id }] = json(["undo", path]);
    const said = told(["undo", path, id.slice(-6)]);
    expect(said).toMatch(/The reading that was noted with it, \w+, is withdrawn as well/);
    expect(readFileSync(path, "utf8")).toMatch(/"kind":"reading-withdrawn".*read for a move/);
  });

  it("takes the second reading that a proof in a new run needs, from before the move or from beside it", () => {
    const sweep = ["--check", "tram-sweep", "--station", "centre, right", "--final", "0.10/0.15"];
    for (const [word, pair, order] of [
      ["--before", "centre, right = 0.05/0.10", ["run-begun", "reading-taken", "move-made", "reading-taken"]],
      ["--beside", "centre, left = 0.05/0.10", ["run-begun", "move-made", "reading-taken", "reading-taken"]],
    ] as const) {
      const path = logbook();
      const before = readFileSync(path, "utf8").length;
      told(["done", path, "slide.side", "--amount=-0.24", ...sweep, word, pair]);
      const written = readFileSync(path, "utf8").slice(before).trim().split("\n");
      expect(written.map((line) => JSON.parse(line).kind)).toEqual(order);
    }
    const both = ["--before", "centre, right=0.05/0.10", "--beside", "centre, left=0.05/0.10"];
    const path = logbook();
    expect(refused(path, ["done", path, "slide.side", "--amount=-0.24", ...sweep, ...both])).toMatch(/two are given/);
  });

  const gap = ["--run", "gap-1", "--station", "front right"];
  it.each([
    ["further than it goes", ["beam.right", "--amount", "7"], /amount-out-of-reach/],
    ["below nothing under a rail", ["rail.left.front", "--amount", "-0.1"], /amount-out-of-reach/],
    ["by nobody knows how much", ["beam.right"], /amount-missing/],
    ["by letters", ["beam.right", "--amount", "lots"], /word-form/],
    ["at a place that is none", ["beam.rigth", "--amount", "0.1"], /adjuster-not-named.*was beam\.right meant/],
    ["at one of two places", ["beam", "--amount", "0.1"], /beam\.left, beam\.right/],
    ["with leaves that are none", ["rail.left.front", "--amount", "0.1", "--lay", "thin"], /word-form/],
    ["with a gauge nowhere", ["beam.right", "--amount", "0.1", "--final", "0.5"], /--station is missing/],
    ["with a gauge of no run", ["beam.right", "--amount", "0.1", "--station", "front right"], /--run or --check/],
    ["with a gauge that was not read", ["beam.right", "--amount", "0.1", ...gap], /gauge-unread/],
    ["with a run nobody began", ["beam.right", "--amount", "0.1", ...gap, "--run", "q", "--final", "0.5"], /not-there/],
    [
      "with a gauge that cannot show it",
      ["beam.right", "--amount", "0.1", ...gap, "--nipped", "abc", "--final", "77"],
      /number-not-readable.*leaves/,
    ],
    [
      "with a station nobody has",
      ["beam.right", "--amount", "0.1", "--run", "gap-1", "--station", "front rihgt", "--final", "0.5"],
      /“front right” may be meant/,
    ],
    [
      "with a check that tells nothing of it",
      ["beam.right", "--amount", "0.1", "--check", "wheel-preload", "--station", "carriage", "--final", "yes"],
      /gauge-without-geometry/,
    ],
    [
      "with a run of another check",
      ["beam.right", "--amount", "0.1", ...gap, "--check", "bed-touch", "--final", "0.5"],
      /not of bed-touch/,
    ],
  ])("%s is refused, and nothing of it is written", (_, words, code) => {
    const path = logbook();
    expect(refused(path, ["done", path, ...words])).toMatch(code);
  });
});

interface ExplainedDemand {
  readonly demand: { readonly kind: string; readonly unit: string };
  readonly meaning: string;
  readonly doubtFrom: readonly { readonly what: string; readonly share: number }[];
}

describe("demands of the work", () => {
  const asked = (path: string): readonly { id: string; limit: number; name: string | null; dropped: boolean }[] =>
    json(["demands", path]).demands;
  const one = (path: string, id: string) => asked(path).find((demand) => demand.id === id);

  it("are those of the kind of work that was chosen, each with its limit", () => {
    const path = logbook();
    expect(json(["demands", path]).kindOfWork).toBe("general");
    told(["demands", path, "choose", "lettering"]);
    expect(json(["demands", path]).kindOfWork).toBe("lettering");
    expect(one(path, "depth-spread 400×150")).toMatchObject({ limit: 0.15, name: null });
    told(["demands", path, "choose", "usual"]);
    expect(json(["demands", path]).kindOfWork).toBe("general");
  });

  it("take limits of the user's own, are dropped, and asked again", () => {
    const path = logbook();
    told(["demands", path, "limit", "runout", "2", "--unit", "thou"]);
    expect(one(path, "runout")?.limit).toBeCloseTo(0.0508, 9);
    told(["demands", path, "drop", "runout"]);
    expect(one(path, "runout")?.dropped).toBe(true);
    told(["demands", path, "limit", "runout", "usual"]);
    expect(one(path, "runout")).toMatchObject({ limit: 0.1, dropped: false });
  });

  it("stand beside the user's own, by a name of theirs or by their sizes", () => {
    const path = logbook();
    told(["demands", path, "set", "depth-spread", "--limit", "0,2", "--size", "width=300", "--size", "depthMm=100"]);
    expect(one(path, "depth-spread 300×100")).toMatchObject({ name: "depth-spread 300×100", limit: 0.2 });
    told(["demands", path, "set", "circle", "--limit", "0.3", "--middle", "200x200", "--name", "clock face"]);
    told(["demands", path, "limit", "clock face", "0.4"]);
    expect(asked(path).find(({ name }) => name === "clock face")?.limit).toBe(0.4);
    told(["demands", path, "drop", "clock face"]);
    told(["demands", path, "drop", "depth-spread 300x100"]);
    expect(asked(path).every(({ name }) => name === null)).toBe(true);
  });

  it("say what they mean and where their doubt comes from, the weightiest first", () => {
    const path = logbook(demonstrationText);
    const words = ["demands", path, "explain", "diagonals"];
    const { demand, meaning, doubtFrom }: ExplainedDemand = json(words);
    expect(demand).toMatchObject({ kind: "diagonals", unit: "mm" });
    expect(meaning).toMatch(/diagonal/);
    const shares = doubtFrom.map(({ share }) => share);
    expect(shares.length).toBeGreaterThan(1);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    expect(told(words)).toMatch(/Where its doubt comes from \d+ % \S/);
    told(["demands", path, "drop", "diagonals"]);
    expect(refused(path, words)).toMatch(/demand-not-named/);
  });

  it("say so where nothing has been read that bears on one", () => {
    const path = logbook();
    expect(json(["demands", path, "explain", "diagonals"])).toMatchObject({ doubtFrom: [] });
    expect(told(["demands", path, "explain", "diagonals"])).toMatch(/Nothing has been read that bears on it/);
  });

  it.each([
    ["a verb nobody knows", ["dorp", "runout"], /was drop meant/],
    ["a kind of work nobody knows", ["choose", "letering"], /was lettering meant/],
    ["a kind of demand nobody knows", ["set", "depth-spred", "--limit", "1"], /was depth-spread meant/],
    ["a demand without a limit", ["set", "tram"], /command-misused/],
    ["a limit of nothing", ["set", "tram", "--limit", "0"], /word-form/],
    ["a limit below nothing", ["limit", "runout", "-0.1"], /word-form/],
    ["a limit that no hand can hold", ["set", "tram", "--limit", "0.0000001"], /event-field-beyond/],
    ["a limit in newtons", ["set", "tram", "--limit", "1", "--unit", "N"], /unit-not-known/],
    [
      "work larger than the machine",
      ["set", "sides", "--limit", "1", "--size", "width=900"],
      /demand-size-beyond-reach/,
    ],
    ["a size that it has not", ["set", "sides", "--limit", "1", "--size", "girth=9"], /demand-size-unknown/],
    ["work outside the travel", ["set", "circle", "--limit", "1", "--middle", "900x0"], /demand-place-outside/],
    ["an axis that is none", ["set", "play", "--limit", "1", "--size", "axis=q"], /demand-answer-unknown/],
    ["one of two", ["limit", "play", "0.2"], /one of: play x, play y/],
    ["nothing to drop", ["drop"], /command-misused/],
    ["nothing to explain", ["explain"], /command-misused/],
    ["a limit left out", ["limit", "runout"], /command-misused/],
  ])("%s is refused, and nothing is written", (_, words, code) => {
    const path = logbook();
    expect(refused(path, ["demands", path, ...words])).toMatch(code);
  });
});

describe("what is wished for", () => {
  it("is shown as it was said, and open where nothing was", () => {
    const path = logbook();
    expect(told(["stock", path])).toMatch(/usual ones/);
    expect(told(["stock", path, "none"])).toMatch(/No shim is at hand/);
    expect(told(["stock", path, "usual"])).toMatch(/usual ones/);
    for (const answer of ["yes", "no", "ask"]) told(["skim", path, answer]);
  });

  it("locks adjusters, shows them as locked, and frees one again", () => {
    const path = logbook();
    const ids = json(["adjusters", path]).map(({ adjuster }: { adjuster: string }) => adjuster);
    for (const id of ids.slice(0, 4)) told(["lock", path, id, "--because", "glued"]);
    expect(told(["adjusters", path])).toMatch(/locked.*locked.*locked.*locked/);
    told(["unlock", path, "A"]);
    const rows = json(["adjusters", path]);
    expect(rows.filter(({ locked }: { locked: string | null }) => locked !== null)).toHaveLength(3);
    refused(path, ["unlock", path, "A"]);
  });

  it("takes own figures of an adjuster one by one, and forgets them", () => {
    const path = logbook();
    told(["adjusters", path, "beam.right", "--range", "-0.2:0.9", "--minutes", "12"]);
    told(["adjusters", path, "beam.right", "--uncertainty", "0.01"]);
    expect(told(["adjusters", path, "beam.right", "--pitch", "0.8"])).toMatch(
      /By the screw that sets it: 0\.8 mm a turn/,
    );
    const figures = { from: -0.2, to: 0.9, minutes: 12, standardUncertainty: 0.01 };
    expect(json(["adjusters", path, "beam.right"])).toMatchObject(figures);
    told(["done", path, "beam.right", "--amount", "0.8"]);
    expect(told(["adjusters", path, "beam.right", "--usual"])).toMatch(/from −0\.6 to \+0\.6 mm/);
  });

  it.each([
    ["a skim that is neither", (path: string) => ["skim", path, "perhaps"], /word-unknown/],
    ["leaves of nothing", (path: string) => ["stock", path, "0"], /word-form/],
    ["leaves as thick as a board", (path: string) => ["stock", path, "40"], /event-field-beyond/],
    ["an empty word for leaves", (path: string) => ["stock", path, ""], /word-form/],
    ["a lock on nothing", (path: string) => ["lock", path, "roof", "--because", "leaks"], /adjuster-not-named/],
    ["a lock without a reason", (path: string) => ["lock", path, "beam.left"], /command-misused/],
    [
      "a lock with a blank reason",
      (path: string) => ["lock", path, "beam.left", "--because", " "],
      /event-field-unfit/,
    ],
    ["figures of no adjuster", (path: string) => ["adjusters", path, "--minutes", "3"], /command-misused/],
    ["a range upside down", (path: string) => ["adjusters", path, "G", "--range", "0.5:-0.5"], /adjuster-range-unfit/],
    ["a range that is one number", (path: string) => ["adjusters", path, "G", "--range", "0.5"], /word-form/],
    ["a pitch of nothing", (path: string) => ["adjusters", path, "beam.left", "--pitch", "0"], /event-field-beyond/],
    [
      "a pitch where leaves are laid",
      (path: string) => ["adjusters", path, "rail.left.front", "--pitch", "0.8"],
      /adjuster-without-screw/,
    ],
    ["minutes below nothing", (path: string) => ["adjusters", path, "G", "--minutes", "-3"], /event-field-beyond/],
    ["a place that is perhaps there", (path: string) => ["adjusters", path, "G", "--available", "maybe"], /yes, no/],
  ])("%s is refused, and nothing is written", (_, args, code) => {
    const path = logbook();
    expect(refused(path, args(path))).toMatch(code);
  });
});
