import { copyFileSync, existsSync, mkdtempSync, readdirSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { JsonPlan } from "./hidden-machine.ts";
import { createMachine, done, json, kilter, layouts, newLogbook } from "./kilter.ts";

const demonstration = fileURLToPath(new URL("../../catalog/demonstration/shared-workshop.jsonl", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "kilter-plan-"));
let count = 0;

function logbook(): string {
  count += 1;
  const path = join(folder, `${count}.jsonl`);
  copyFileSync(demonstration, path);
  return path;
}

/** Words as a person reads them: in 80 columns, without colour, nothing left unsaid. */
function told(args: readonly string[], status = 0): string {
  const { status: ended, out, err } = kilter(args);
  expect(ended, `${args.join(" ")}\n${out}${err}`).toBe(status);
  expect(out).not.toMatch(/undefined|NaN|Infinity|null/);
  expect(out.includes("\u001b")).toBe(false);
  for (const line of out.split("\n")) if (!line.includes("kilter")) expect(line.length, line).toBeLessThanOrEqual(80);
  return out.replaceAll(/\s+/g, " ");
}

describe("a plan of the demonstration machine", () => {
  it("says minutes and chances before any move, then each move with its stop, and ends with the demands", () => {
    const out = told(["plan", demonstration]);
    expect(out).toMatch(/\d moves?, about \d+ minutes .* Chance that all demands are within: now under 1 %, after/);
    expect(out).toMatch(/What the maker of the machine says about this joint.* 1 /);
    expect(out).toMatch(/stop when .* Brings: /);
    expect(out).toMatch(/kilter done/);
  });

  it("leaves the machine alone where nothing is asked but what it does", () => {
    const path = logbook();
    const { demands } = json<{ demands: { id: string; kind: string }[] }>(["demands", path]);
    for (const { id, kind } of demands) if (kind !== "runout") done(["demands", path, "drop", id]);
    expect(told(["plan", path])).toMatch(/Leave it alone: .* now over 99 %/);
    expect(told(["plan", path, "--gate"])).toMatch(/Leave it alone/);
    expect(told(["next", path])).toMatch(/You know enough/);
    expect(told(["work", path, "--gate", "--after"])).toMatch(/The plan moves nothing/);
  });

  it("draws each move and what they bring", () => {
    const to = join(folder, "pictures");
    const { moves } = json<JsonPlan>(["plan", demonstration, "--out", to]);
    expect(readdirSync(to)).toHaveLength(moves.length + 1);
    expect(existsSync(join(to, "before-and-after.svg"))).toBe(true);
  });

  it("moves only what may be moved, and names what was in the way", () => {
    const locked = json<JsonPlan>(["plan", demonstration, "--lock", "play.x", "--lock", "J"]);
    for (const { adjuster } of locked.moves) expect(["play.x", "gantry.offset"]).not.toContain(adjuster);
    const only = json<JsonPlan>(["plan", demonstration, "--only", "play.x"]);
    expect(only.moves.map(({ adjuster }) => adjuster)).toEqual(["play.x"]);
    const out = told(["plan", demonstration, "--only", "play.x", "--skim", "no"]);
    expect(out).toMatch(
      /Difference of diagonals of 300 square: It would come in if this did not have to stay as it is/,
    );
    expect(out).toMatch(/Cutter’s axis to the bed over 200: (It would come in if this did not have to stay|Skimming)/);
  });
});

describe("a plan that is asked for oddly", () => {
  it("has words for a machine on which everything is locked", () => {
    const out = told(["plan", demonstration, "--only", "play.x", "--lock", "play.x"]);
    expect(out).toMatch(/Everything is locked, so there is nothing to move/);
    expect(out).toMatch(/Out of reach/);
  });

  it("packs nothing where no leaf is at hand", () => {
    for (const stock of ["none", "0.05"]) {
      const { moves } = json<{ moves: { leaves: { layMm: number[] }[] }[] }>(["plan", demonstration, "--stock", stock]);
      const laid = moves.flatMap(({ leaves }) => leaves.flatMap(({ layMm }) => layMm));
      expect(laid.length).toBeLessThanOrEqual(stock === "none" ? 0 : 1);
    }
  });

  it("says of a limit that no machine can meet that it is out of reach and how near it comes", () => {
    const path = logbook();
    done(["demands", path, "set", "runout", "--limit", "0.001"]);
    done(["demands", path, "set", "circle", "--limit", "0.002"]);
    done(["demands", path, "limit", "depth-spread", "0.001"]);
    const out = told(["plan", path]);
    expect(out).toMatch(/Runout: The machine reaches 0\.\d+ mm here; a limit of that much would hold/);
    expect(out).toMatch(/Circular deviation .*: No joint brings it in; a program/);
    expect(kilter(["plan", path, "--gate"]).status).toBe(1);
    expect(kilter(["work", path, "--gate"]).status).toBe(1);
  });

  it.each(layouts)("asks for readings first where there are none, on a $layout", (machine) => {
    const file = newLogbook();
    createMachine(file, machine);
    expect(told(["plan", file])).toMatch(/Measure first: .*fit-to-measure round.*Measure this first/);
    expect(told(["next", file])).toMatch(/The short round comes first/);
    expect(told(["work", file])).toMatch(/not known yet/);
    expect(json<JsonPlan>(["plan", file]).moves).toEqual([]);
    done(["read", file, "feet-rock", "0.05/0.10", "<0.05", "<0.05", "<0.05", "--with", "feeler-leaves"]);
    expect(told(["next", file])).toMatch(/The fit-to-measure round comes first\. .*kilter check grub-screws/);
  });

  it.each([
    ["a lock on nothing", ["plan", demonstration, "--lock", "roof"], /adjuster-not-named/],
    ["only one of two", ["plan", demonstration, "--only", "beam"], /beam\.left, beam\.right/],
    ["leaves that are none", ["plan", demonstration, "--stock", "thin"], /word-form/],
    ["leaves below nothing", ["plan", demonstration, "--stock", "-0.1"], /word-form/],
    ["an empty word for leaves", ["plan", demonstration, "--stock", ""], /word-form/],
    ["a skim that is neither", ["plan", demonstration, "--skim", "perhaps"], /yes, no/],
    ["work that nobody knows", ["plan", demonstration, "--work", "letering"], /was lettering meant/],
    ["the same of what it comes out like", ["work", demonstration, "--kind", "letering"], /was lettering meant/],
    ["the same of what to measure", ["next", demonstration, "--work", "letering"], /was lettering meant/],
    ["a folder that is a file", ["plan", demonstration, "--out", demonstration], /file-unwritable/],
    ["a logbook that is not there", ["next", join(folder, "none.jsonl")], /file-unreadable/],
  ])("%s is refused in words", (_, args, code) => {
    const { status, out, err } = kilter(args);
    expect(status, `${out}${err}`).toBe(2);
    expect(err).toMatch(code);
    expect(err).toMatch(/expected: /);
    expect(err).not.toMatch(/\n\s+at .*:\d+:\d+|undefined|NaN/);
  });

  it.each(["general", "lettering", "inlay", "sheet-joinery", "parts-from-sheet", "engraved-plates", "surfacing"])(
    "has an answer for %s",
    (kind) => {
      expect(told(["plan", demonstration, "--work", kind])).toMatch(/Chance that all demands are within/);
    },
  );
});
