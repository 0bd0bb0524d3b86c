import { chmodSync, existsSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openSession } from "../../src/app/session.ts";
import { wordsForDiagnostic } from "../../src/core/base/diagnostic-words.ts";
import { type EventKind, eventKinds, type LogEvent } from "../../src/logbook/events.ts";
import { textFromEvents } from "../../src/logbook/write.ts";
import { soundLogbook } from "../logbook/sample-events.ts";
import { kilter } from "./kilter.ts";

const folder = mkdtempSync(join(tmpdir(), "kilter-bad-"));
const sound = soundLogbook();

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const soundText = textFromEvents(sound);
const soundFile = file("sound.jsonl", soundText);

/** Every command that reads a logbook, with whatever else it needs. */
const commands: readonly (readonly [verb: string, args: (path: string) => readonly string[]])[] = [
  ["inspect", (path) => ["inspect", path]],
  ["checks", (path) => ["checks", path]],
  ["check", (path) => ["check", "gap-under-beam", path]],
  ["tools", (path) => ["tools", path]],
  ["tool", (path) => ["tool", path, "square"]],
  ["put-away", (path) => ["put-away", path, "leaves"]],
  ["read", (path) => ["read", path, "gap-under-beam", "0.35/0.40", "--with", "leaves"]],
  ["findings", (path) => ["findings", path]],
  ["explain", (path) => ["explain", path, "squareness"]],
  ["readings", (path) => ["readings", path]],
  ["withdraw", (path) => ["withdraw", path, "x", "--because", "slip"]],
  ["restore", (path) => ["restore", path, "x"]],
  ["reinterpret", (path) => ["reinterpret", path, "x", "2", "--because", "slip"]],
  ["happened", (path) => ["happened", path, "homed"]],
  ["demands", (path) => ["demands", path]],
  ["adjusters", (path) => ["adjusters", path]],
  ["done", (path) => ["done", path, "beam.right", "--amount", "0.1"]],
  ["undo", (path) => ["undo", path]],
  ["lock", (path) => ["lock", path, "beam.right", "--because", "glued"]],
  ["unlock", (path) => ["unlock", path, "beam.right"]],
  ["stock", (path) => ["stock", path]],
  ["skim", (path) => ["skim", path, "yes"]],
  ["limit", (path) => ["limit", path, "squareness", "0.5"]],
  ["coordinates", (path) => ["coordinates", path, "x=X+0", "y=Y+0", "z=Z+0"]],
  ["export", (path) => ["export", path, "--to", join(folder, "out")]],
];

function mustRefuse(args: readonly string[], path?: string, line?: number): string {
  const before = path === undefined ? null : readFileSync(path);
  const { status, out, err } = kilter(args);
  expect(status, `${args.join(" ")}\n${out}${err}`).toBe(2);
  expect(err).toMatch(/\[[a-z][a-z-]+\]/);
  expect(err).toMatch(/expected: /);
  expect(err).toMatch(/to do: /);
  expect(err).not.toMatch(/\n\s+at .*:\d+:\d+/);
  if (path !== undefined) {
    expect(readFileSync(path)).toEqual(before);
    if (line !== undefined) expect(err).toContain(`${path}:${line}`);
  }
  return err.replaceAll(/\s+/g, " ");
}

describe("a logbook that cannot be read", () => {
  const cut = `${soundText.slice(0, 200)}\n${soundText}`;
  const newer = soundText.replace('"v":1', '"v":99');
  const spoilt = [
    ["empty", file("empty.jsonl", ""), undefined],
    [
      "binary",
      file(
        "binary.jsonl",
        Uint8Array.from({ length: 400 }, (_, i) => (i * 37) % 256),
      ),
      undefined,
    ],
    ["broken in the middle", file("cut.jsonl", cut), 1],
    ["from a newer version", file("newer.jsonl", newer), 1],
    [
      "of one id with two contents",
      file("twice.jsonl", `${soundText + soundText.replace('"goes":0.6', '"goes":0.55').split("\n")[3]}\n`),
      6,
    ],
  ] as const;

  it.each(spoilt)("is refused where it is %s, with place, reason and remedy", (_, path, line) => {
    mustRefuse(["inspect", path], path, line);
  });

  // All verbs open a logbook in one way, so each is tried with one of the spoilt files.
  it.each(commands.map(([verb, args], i) => [verb, args, spoilt[i % spoilt.length]] as const))(
    "is refused by %s, and nothing is written",
    (_, args, [, path, line]) => {
      mustRefuse(args(path), path, line);
    },
  );

  it("is refused when it is a folder or not there", () => {
    expect(mustRefuse(["findings", folder])).toMatch(/it is a folder/);
    expect(mustRefuse(["findings", join(folder, "nowhere.jsonl")])).toMatch(/there is no such file/);
  });

  it("is refused when its torn end cannot be told from the rest", () => {
    mustRefuse(["inspect", file("torn-first.jsonl", soundText.slice(0, 90).replace("{", ""))]);
  });

  it("is read with a warning when only its last line is torn, and adding to it loses nothing", () => {
    const torn = file("torn.jsonl", soundText + soundText.slice(0, 90));
    const { status, err } = kilter(["inspect", torn]);
    expect(status).toBe(0);
    expect(err).toMatch(/logbook-line-torn/);
    expect(kilter(["happened", torn, "homed"]).status).toBe(0);
    expect(kilter(["inspect", torn]).err).toBe("");
    expect(readFileSync(`${torn}.torn`, "utf8").trim()).toBe(soundText.slice(0, 90));
  });

  it("keeps every whole line where its torn end is half a character", () => {
    const half = Buffer.concat([Buffer.from(`${soundText}{"v":1,"by":"J`), Uint8Array.of(0xc3)]);
    const torn = file("half.jsonl", half);
    expect(kilter(["happened", torn, "homed"]).status).toBe(0);
    const text = readFileSync(torn, "utf8");
    expect(text.startsWith(soundText)).toBe(true);
    expect(text.slice(soundText.length)).toMatch(/^\{"v":1,"id":"[0-9a-f-]+".*"kind":"homed"\}\n$/);
  });

  it("is read from standard input, and nothing is added to that", () => {
    expect(kilter(["inspect", "-"], soundText).status).toBe(0);
    const { status, err } = kilter(["happened", "-", "homed"], soundText);
    expect(status).toBe(2);
    expect(err).toMatch(/standard-input-only-read/);
    expect(existsSync("-")).toBe(false);
  });
});

describe("something typed that cannot be", () => {
  const leaves = ["--with", "leaves"];
  const slips: readonly (readonly [what: string, args: readonly string[], code: RegExp])[] = [
    ["an unknown check", ["read", soundFile, "gap-under-the-beam", "0.35"], /check-unknown/],
    ["a wrong unit", ["read", soundFile, "gap-under-beam", "0.35mm/m", ...leaves], /\[[a-z-]+\]/],
    ["an impossible value", ["read", soundFile, "gap-under-beam", "900", ...leaves], /leaves|stack|range/],
    ["letters", ["read", soundFile, "gap-under-beam", "abc", ...leaves], /number-not-readable/],
    [
      "a station off the bed",
      ["read", soundFile, "gap-under-beam", "x=5000 y=100=0.35/0.40", ...leaves],
      /station-off-the-bed|station-outside-travel/,
    ],
    ["an unknown station", ["read", soundFile, "gap-under-beam", "nowhere=0.35/0.40", ...leaves], /station-unknown/],
    [
      "an unknown instrument",
      ["read", soundFile, "gap-under-beam", "0.35/0.40", "--with", "laser"],
      /instrument-not-there/,
    ],
    [
      "too many readings",
      ["read", soundFile, "stop-gaps", "0.1:0.1", "0.1:0.1", "0.1:0.1", "0.1:0.1", ...leaves],
      /readings-too-many/,
    ],
    [
      "a word for a unit",
      ["read", soundFile, "gap-under-beam", "0.35", "--unit", "parsec", ...leaves],
      /unit-not-known/,
    ],
    [
      "a unit of a force",
      ["read", soundFile, "gap-under-beam", "3", "--unit", "N", ...leaves],
      /unit-of-other-quantity/,
    ],
    ["three parts", ["read", soundFile, "stop-gaps", "0.1:0.2:0.3", ...leaves], /reading-parts-too-many/],
    ["only stations left out", ["read", soundFile, "gap-under-beam", "-", ...leaves], /nothing-given/],
    [
      "a table with a unit that is none",
      ["read", soundFile, "gap-under-beam", "--csv", file("bad3.csv", "reading;unit\n\n0,35;furlong\n"), ...leaves],
      /bad3\.csv:3.*unit-not-known/,
    ],
    [
      "a table with a line too long",
      ["read", soundFile, "gap-under-beam", "--csv", file("bad4.csv", "station,reading\nfront left,0,35\n"), ...leaves],
      /bad4\.csv:2/,
    ],
    [
      "a table of heads",
      ["read", soundFile, "gap-under-beam", "--csv", file("bad5.csv", "reading\n"), ...leaves],
      /nothing-given/,
    ],
    ["a time that is to come", ["happened", soundFile, "homed", "--at", "2999-01-01"], /time-ahead/],
    ["a time that is none", ["happened", soundFile, "homed", "--at", "5"], /word-form/],
    ["a move by nobody knows how much", ["happened", soundFile, "beam.right"], /amount-missing/],
    ["a part replaced, and nobody says which", ["happened", soundFile, "part-replaced"], /command-misused/],
    ["a number that is empty", ["read", soundFile, "gap-under-beam", "0.35", "--parked", "", ...leaves], /word-form/],
    ["two axes of three", ["coordinates", soundFile, "x=X+0", "y=Y+0"], /word-form/],
    ["a choice that a check has not", ["check", "turnaround", soundFile, "--set", "axis=Q"], /option-not-possible/],
    ["an instrument nobody has", ["check", "turnaround", soundFile, "--with", "wand"], /instrument-not-there/],
    ["an option left out", ["create", join(folder, "new.jsonl")], /command-misused/],
    ["an option nobody knows", ["findings", soundFile, "--colour"], /command-misused/],
    ["a verb nobody knows", ["finding", soundFile], /“findings” may be meant/],
    ["no readings", ["read", soundFile, "gap-under-beam", ...leaves], /nothing-given/],
    [
      "a table without its column",
      ["read", soundFile, "gap-under-beam", "--csv", file("bad.csv", "station,value\nfront left,0.35\n"), ...leaves],
      /table-column-missing/,
    ],
    [
      "a table with a bad line",
      [
        "read",
        soundFile,
        "gap-under-beam",
        "--csv",
        file("bad2.csv", "station,reading\nfront left,0.35/0.40\nfront right,oops\n"),
        ...leaves,
      ],
      /bad2\.csv:3/,
    ],
    [
      "an option that is no answer",
      ["read", soundFile, "turnaround", "0.1", "--with", "leaves", "--set", "axis=Q"],
      /option-not-possible/,
    ],
    ["an unknown finding", ["explain", soundFile, "beauty"], /finding-unknown-here/],
    ["a day that is none", ["compare", soundFile, "--from", "2026-13-40"], /not written as --from/],
    ["a name that two findings share", ["limit", soundFile, "tram", "1"], /one of: tram\.side, tram\.fore/],
    ["a limit below nothing", ["limit", soundFile, "squareness", "-1"], /word-form/],
    ["an unknown happening", ["happened", soundFile, "exploded"], /word-unknown/],
    ["an adjuster moved by letters", ["happened", soundFile, "beam.right", "--amount", "much"], /word-form/],
    ["an unknown reading", ["withdraw", soundFile, "zzzzzz", "--because", "slip"], /reading-not-there/],
    ["a factor of nothing", ["reinterpret", soundFile, "gap-1", "0", "--because", "slip"], /factor-zero|\[[a-z-]+\]/],
    ["an unknown kind of tool", ["tool", soundFile, "laser-tracker"], /word-unknown/],
    ["a figure that a tool has not", ["tool", soundFile, "dial-indicator", "--set", "weight=3"], /\[[a-z-]+\]/],
    ["an axis that is no axis", ["coordinates", soundFile, "x=X*0", "y=Y+0", "z=Z+0"], /word-form/],
    [
      "an impossible travel",
      ["create", join(folder, "new.jsonl"), "--name", "n", "--travel", "-5x0x70"],
      /\[[a-z-]+\]/,
    ],
    [
      "a travel that is no travel",
      ["create", join(folder, "new.jsonl"), "--name", "n", "--travel", "large"],
      /word-form/,
    ],
    ["a logbook that is there already", ["create", soundFile, "--name", "n", "--travel", "600x500x70"], /file-exists/],
    ["a shell that is none", ["completion", "abacus"], /word-unknown/],
    ["a folder that cannot be made", ["export", soundFile, "--to", join(soundFile, "sheet")], /file-unwritable/],
  ];

  it.each(slips)("%s is refused with a code, what was expected and what to do; nothing is written", (_, args, code) => {
    expect(mustRefuse(args, soundFile)).toMatch(code);
  });

  it("a skim is no move, by whichever name it is noted", () => {
    const skimmed = file("skimmed.jsonl", soundText);
    expect(kilter(["happened", skimmed, "bed.skim"]).status).toBe(0);
    expect(readFileSync(skimmed, "utf8")).toMatch(/"kind":"skimmed"/);
  });

  // The one who runs the tests may be somebody whom no file refuses.
  it.skipIf(process.getuid?.() === 0)("a logbook that may not be written is left as it is", () => {
    const locked = file("locked.jsonl", soundText);
    chmodSync(locked, 0o444);
    expect(mustRefuse(["happened", locked, "homed"], locked)).toMatch(/file-unwritable/);
  });

  it.skipIf(!existsSync("/dev/full"))("a disk that is full is told in words", () => {
    const drawing = ["check", "turnaround", "--drawing", "/dev/full"];
    expect(mustRefuse(drawing)).toMatch(/the disk is full \[file-unwritable\]/);
  });

  it("wrong use is status 2, help and version are not", () => {
    expect(kilter(["findings"]).status).toBe(2);
    expect(kilter(["--help"]).status).toBe(0);
    expect(kilter(["read", "--help"]).out).toMatch(/Example:/);
  });
});

// One sound event of every kind; each is damaged below.
const reading = sound[3].id;
const one: Readonly<Record<EventKind, Record<string, unknown>>> = {
  "machine-described": { ...(sound[0] as unknown as Record<string, unknown>) },
  "machine-renamed": { name: "shed" },
  "machine-set-aside": { because: "moving house" },
  "machine-brought-back": {},
  "coordinates-set": {
    axes: Object.fromEntries(
      ["x", "y", "z"].map((axis) => [axis, { named: axis.toUpperCase(), direction: 1, zeroMm: 0 }]),
    ),
    tried: true,
  },
  "instrument-added": { instrument: { id: "dial", kind: "dial-indicator" } },
  "object-added": { object: { id: "oak", kind: "block" } },
  "run-begun": { run: "r", check: "bed-touch", instrument: "leaves" },
  "reading-taken": { run: "gap-1", station: "rear left", unit: "mm", goes: 0.5, doesNotGo: 0.55 },
  "reading-withdrawn": { reading, because: "slip" },
  "reading-restored": { reading },
  "run-withdrawn": { run: "gap-1", because: "slip" },
  "run-restored": { run: "gap-1" },
  "run-reinterpreted": { run: "gap-1", factor: 25.4, because: "inches" },
  homed: {},
  "powered-on": {},
  knocked: { members: ["beam"] },
  transported: {},
  "part-replaced": { members: ["spindle"] },
  "move-made": { adjuster: "beam.right", amount: 0.2 },
  "move-undone": { move: reading },
  "happening-withdrawn": { happening: reading, because: "slip" },
  skimmed: {},
  "work-chosen": { kindOfWork: "lettering" },
  "demand-set": { name: "plate", demand: { kind: "depth-spread", sizes: {}, limit: 0.2, unit: "mm" } },
  "demand-limit-set": { demand: "depth-spread", limit: 0.2, unit: "mm" },
  "skim-decided": { will: true },
  "stock-set": { leavesMm: [0.1, 0.1, 0.2] },
  "adjuster-locked": { adjuster: "beam.right", because: "cannot be reached" },
  "adjuster-unlocked": { adjuster: "beam.right" },
  "adjuster-changed": { adjuster: "beam.right", minutes: 10 },
  "limit-set": { finding: "squareness", limit: 0.5, unit: "mm/m" },
  "prior-set": { mode: "gantry.rack", standardUncertainty: 2 },
  "note-added": { text: "note" },
  "photograph-added": { name: "a.jpg", sha256: "a".repeat(64), mediaType: "image/jpeg", bytes: 1000 },
};

describe("an event that cannot be", () => {
  const damages: readonly (readonly [
    what: string,
    damage: (event: Record<string, unknown>) => Record<string, unknown>,
  ])[] = [
    ["an unknown field", (event) => ({ ...event, colour: "red" })],
    ["a time that is none", (event) => ({ ...event, at: "yesterday" })],
    ["an id that is none", (event) => ({ ...event, id: "1" })],
    ["a newer version", (event) => ({ ...event, v: 2 })],
    ["a kind that is none", (event) => ({ ...event, kind: "exploded" })],
    ["a field of the wrong sort", (event) => withWrongField(event)],
  ];

  it.each(eventKinds)("%s is refused in every one of these ways, with file, line and words", (kind) => {
    const events = soundLogbook({ kind, ...one[kind] });
    const last = JSON.parse(textFromEvents([events[events.length - 1] as LogEvent])) as Record<string, unknown>;
    for (const [what, damage] of damages) {
      const text = `${soundText}${JSON.stringify(damage(last))}\n`;
      const outcome = openSession(text, "damaged.jsonl");
      expect(outcome.ok, `${kind}: ${what}`).toBe(false);
      const [first] = outcome.diagnostics;
      expect(first.where.file, `${kind}: ${what}`).toBe("damaged.jsonl");
      expect(first.where.line, `${kind}: ${what}`).toBe(sound.length + 1);
      const words = wordsForDiagnostic(first.code, first.data);
      for (const text of [words.what, words.expected, words.remedy]) expect(text.length).toBeGreaterThan(3);
    }
  });

  const meanings: readonly (readonly [what: string, body: Record<string, unknown>])[] = [
    ["a reading of an unknown run", { ...one["reading-taken"], kind: "reading-taken", run: "nowhere" }],
    ["a reading in a unit of another quantity", { ...one["reading-taken"], kind: "reading-taken", unit: "mm/m" }],
    ["a reading at an unknown station", { ...one["reading-taken"], kind: "reading-taken", station: "roof" }],
    ["a reading off the bed", { ...one["reading-taken"], kind: "reading-taken", station: "x=9000 y=10" }],
    ["a stack that no leaves make", { ...one["reading-taken"], kind: "reading-taken", goes: 13.5, doesNotGo: 14 }],
    ["a run of an unknown check", { ...one["run-begun"], kind: "run-begun", check: "magic" }],
    ["a run with an unknown instrument", { ...one["run-begun"], kind: "run-begun", instrument: "wand" }],
    ["a second run of one name", { ...one["run-begun"], kind: "run-begun", run: "gap-1" }],
    ["a withdrawal of no reading", { kind: "reading-withdrawn", reading: sound[0].id, because: "slip" }],
    ["a move at no adjuster", { kind: "move-made", adjuster: "roof", amount: 1 }],
    ["a limit for no finding", { kind: "limit-set", finding: "beauty", limit: 1, unit: "mm" }],
    ["a prior of no mode", { kind: "prior-set", mode: "beauty", standardUncertainty: 1 }],
    ["an instrument of no kind", { kind: "instrument-added", instrument: { id: "w", kind: "wand" } }],
  ];

  it.each(meanings)("%s is refused at its line", (_, body) => {
    const outcome = openSession(textFromEvents(soundLogbook(body)), "meant.jsonl");
    expect(outcome.ok).toBe(false);
    const refusals = outcome.diagnostics.filter(({ severity }) => severity === "refusal");
    expect(refusals.some(({ where }) => where.file === "meant.jsonl" && where.line === sound.length + 1)).toBe(true);
  });
});

/** The first field of the kind's own, turned into something it cannot be; an event without fields gets a wrong envelope. */
function withWrongField(event: Record<string, unknown>): Record<string, unknown> {
  const own = Object.keys(event).find((name) => !["v", "id", "at", "by", "kind"].includes(name));
  return own === undefined
    ? { ...event, by: 7 }
    : { ...event, [own]: typeof event[own] === "object" ? 7 : { strange: true } };
}
