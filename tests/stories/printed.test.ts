import { spawnSync } from "node:child_process";
import { copyFileSync, mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { createMachine, done, kilter, kilterCommand, layouts } from "./kilter.ts";

const folder = mkdtempSync(join(tmpdir(), "kilter-printed-"));
const demonstration = join(folder, "workshop.jsonl");
copyFileSync(
  fileURLToPath(new URL("../../catalog/demonstration/shared-workshop.jsonl", import.meta.url)),
  demonstration,
);
const bridge = join(folder, "bridge.jsonl");
createMachine(bridge, layouts[1]);

const verbs =
  "demonstration create inspect checks check tools tool read findings explain readings withdraw restore reinterpret happened limit coordinates export schema completion".split(
    " ",
  );

function widest(text: string): number {
  return Math.max(...text.split("\n").map((line) => line.length));
}

describe("what is printed", () => {
  it.each(verbs)("help of %s has an example and fits 80 columns", (verb) => {
    const out = done([verb, "--help"]);
    expect(out).toMatch(/\nExample: kilter /);
    expect(widest(out)).toBeLessThanOrEqual(80);
  });

  const printed = [
    ["findings", demonstration, "--all"],
    ["explain", demonstration, "squareness"],
    ["explain", demonstration, "scale.y"],
    ["demands", demonstration],
    ["demands", demonstration, "explain", "diagonals"],
    ["checks", demonstration, "--all"],
    ["check", "hole-field", demonstration],
    ["check", "tram-sweep", bridge],
    ["tools", demonstration],
    ["tools"],
    ["readings", demonstration],
    ["inspect", demonstration],
    ["findings", bridge],
    ["checks", bridge],
  ];

  it.each(printed.map((args) => [args.slice(0, 2).join(" ").replace(`${folder}/`, ""), args] as const))(
    "%s fits 80 columns, has no colour and only the verdicts' own words",
    (_, args) => {
      const out = done(args);
      expect(widest(out)).toBeLessThanOrEqual(80);
      expect(out).not.toContain("\u001b");
      expect(out).not.toMatch(/\b(?:undefined|NaN|null|Infinity|\[object)\b/);
      expect(out).not.toMatch(/\b(?:error|please|successfully|OK)\b|!/i);
    },
  );

  const forMachines = [
    ["inspect", demonstration],
    ["checks", demonstration],
    ["check", "turnaround", demonstration, "--drawing", join(folder, "turnaround.svg")],
    ["tools", demonstration],
    ["tools"],
    ["read", demonstration, "belt-note", "61", "60", "--with", "tuner", "--try"],
    ["findings", demonstration],
    ["explain", demonstration, "squareness"],
    ["demands", demonstration, "explain", "diagonals"],
    ["readings", demonstration],
  ];

  it.each(forMachines.map((args) => [args[0], args] as const))("%s --json is JSON and nothing else", (_, args) => {
    expect(JSON.parse(done([...args, "--json"]))).toBeTypeOf("object");
  });

  it("the status is 1 where a gate is asked for and something is not within", () => {
    expect(kilter(["findings", demonstration, "--gate"]).status).toBe(1);
    expect(kilter(["findings", demonstration]).status).toBe(0);
  });

  it("a reader that stops early is no mistake", () => {
    const [program, ...args] = kilterCommand(["schema"]);
    const quoted = [program, ...args].map((word) => `'${word}'`).join(" ");
    const { stdout, stderr, status } = spawnSync("bash", ["-o", "pipefail", "-c", `${quoted} | head -1`], {
      encoding: "utf8",
    });
    expect(stdout).toBe("{\n");
    expect(stderr).toBe("");
    expect(status).toBe(0);
  });
});

describe("numbers as people type them", () => {
  const typed = [
    ["a decimal comma", ["0,12"], 0.12],
    ["a true minus sign", ["−0.1"], -0.1],
    ["a plain minus sign", ["-0.1"], -0.1],
    ["thousandths of an inch", ["4 thou"], 4],
    ["inches by an option", ["0.004", "--unit", "in"], 0.004],
    ["inches behind the number", ["0.004in"], 0.004],
    ["a fraction of an inch", ["1/64in"], 1 / 64],
  ] as const;

  it.each(typed)("%s", (_, words, value) => {
    const file = join(mkdtempSync(join(tmpdir(), "kilter-typed-")), "machine.jsonl");
    copyFileSync(bridge, file);
    done(["read", file, "turnaround", ...words, "--with", "dial-indicator"]);
    const last = lastLine(file);
    expect(last.value).toBeCloseTo(value, 6);
  });

  it("tables with semicolons and decimal commas, at places of the user's own", () => {
    const file = join(mkdtempSync(join(tmpdir(), "kilter-table-")), "machine.jsonl");
    copyFileSync(bridge, file);
    const text = "\uFEFFX;Y;Reading;Unit\r\n100;120,5;0,35/0,40;mm\r\n300;120;0,45/0,50;\r\n";
    done(["read", file, "gap-under-beam", "--csv", "-", "--with", "feeler-leaves"], text);
    expect(lastLine(file, 1)).toMatchObject({ station: "x=100 y=120.5", unit: "mm", goes: 0.35, doesNotGo: 0.4 });
    expect(lastLine(file)).toMatchObject({ station: "x=300 y=120", unit: "mm", goes: 0.45, doesNotGo: 0.5 });
  });
});

function lastLine(path: string, before = 0): Record<string, unknown> {
  return JSON.parse(
    readFileSync(path, "utf8")
      .trimEnd()
      .split("\n")
      .at(-1 - before) as string,
  );
}
