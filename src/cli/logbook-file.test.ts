import { appendFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { sampleEvent, soundLogbook } from "../../tests/logbook/sample-events.ts";
import type { LogEvent } from "../logbook/events.ts";
import { textFromEvents } from "../logbook/write.ts";
import { appendEvents, openLogbook } from "./logbook-file.ts";
import { BadInput } from "./report.ts";

let file: string;
let said: string;
beforeEach(() => {
  file = join(mkdtempSync(join(tmpdir(), "kilter-logbook-")), "machine.jsonl");
  writeFileSync(file, textFromEvents(soundLogbook()));
  said = "";
  vi.spyOn(process.stderr, "write").mockImplementation((text) => {
    said += text;
    return true;
  });
});
afterEach(() => vi.restoreAllMocks());

const codesOf = (doing: () => void): readonly string[] => {
  try {
    doing();
  } catch (problem) {
    if (problem instanceof BadInput) return problem.diagnostics.map(({ code }) => code);
    throw problem;
  }
  return [];
};

const extra = (n: number): LogEvent => sampleEvent(n, { kind: "note-added", text: `note ${n}` });

describe("adding to a logbook that was read a while ago", () => {
  it("adds whole lines and says nothing where nobody else has written", () => {
    const before = readFileSync(file, "utf8");
    const session = openLogbook(file);
    appendEvents(file, session, [extra(10)]);
    appendEvents(file, session, [extra(11)]);
    expect(readFileSync(file, "utf8")).toBe(before + textFromEvents([extra(10), extra(11)]));
    expect(said).toBe("");
  });

  it("keeps what another has added meanwhile, and says so", () => {
    const session = openLogbook(file);
    appendFileSync(file, textFromEvents([extra(10), extra(11)]));
    appendEvents(file, session, [extra(12)]);
    expect(openLogbook(file).logbook.events.slice(-3)).toEqual([extra(10), extra(11), extra(12)]);
    expect(said.replaceAll(/\s+/g, " ")).toMatch(/has added 2 events .*\[logbook-grew\]/);
  });

  it("sets aside half a line that another left when it was killed", () => {
    const before = readFileSync(file, "utf8");
    const session = openLogbook(file);
    appendFileSync(file, '{"v":1,"id":"0');
    appendEvents(file, session, [extra(12)]);
    expect(readFileSync(file, "utf8")).toBe(before + textFromEvents([extra(12)]));
    expect(readFileSync(`${file}.torn`, "utf8")).toBe('{"v":1,"id":"0\n');
  });

  it("adds nothing that does not fit behind what another has added", () => {
    const session = openLogbook(file);
    const run = (n: number) =>
      sampleEvent(n, { kind: "run-begun", run: "gap-2", check: "gap-under-beam", instrument: "leaves" });
    appendFileSync(file, textFromEvents([run(10)]));
    const now = readFileSync(file, "utf8");
    expect(codesOf(() => appendEvents(file, session, [run(11)]))).toEqual(["run-begun-twice"]);
    expect(readFileSync(file, "utf8")).toBe(now);
    expect(existsSync(`${file}.lock`)).toBe(false);
  });

  it.each([
    ["edited by hand", (text: string) => text.replace("0.65", "0.70")],
    ["cut short", (text: string) => text.slice(0, text.lastIndexOf("\n", text.length - 2) + 1)],
  ])("adds nothing to one that was %s meanwhile", (_, change) => {
    const session = openLogbook(file);
    const changed = change(readFileSync(file, "utf8"));
    writeFileSync(file, changed);
    expect(codesOf(() => appendEvents(file, session, [extra(10)]))).toEqual(["file-changed"]);
    expect(readFileSync(file, "utf8")).toBe(changed);
  });

  it("does not begin one anew that was taken away meanwhile", () => {
    const session = openLogbook(file);
    rmSync(file);
    expect(codesOf(() => appendEvents(file, session, [extra(10)]))).toEqual(["file-unreadable"]);
    expect(existsSync(file)).toBe(false);
  });

  it("waits for no longer than a while for one that is always written to", () => {
    const session = openLogbook(file);
    const now = readFileSync(file, "utf8");
    const otherHost = JSON.stringify({ token: "t", process: 4170, computer: "the bench" });
    writeFileSync(`${file}.lock`, otherHost);
    expect(codesOf(() => appendEvents(file, session, [extra(10)]))).toEqual(["logbook-being-written"]);
    expect(readFileSync(file, "utf8")).toBe(now);
  });
});
