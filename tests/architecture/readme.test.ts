import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { root, textOf } from "./project-files.ts";

const built = `${root}dist/cli/kilter.js`;
const commands = commandsIn(textOf("README.md"));
const folder = mkdtempSync(join(tmpdir(), "kilter-readme-"));

beforeAll(() => {
  if (existsSync(built)) return;
  const vite = `${root}node_modules/vite/bin/vite.js`;
  const { status, stderr } = spawnSync(process.execPath, [vite, "build", "--logLevel", "warn"], {
    cwd: root,
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(stderr);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("README.md", () => {
  it("shows every step of a session", () => {
    const verbs = new Set(commands.map(([verb]) => verb));
    const session = [
      "create",
      "checks",
      "check",
      "read",
      "findings",
      "explain",
      "plan",
      "next",
      "work",
      "withdraw",
      "happened",
      "limit",
    ];
    expect([...session, "export", "demonstration"].filter((verb) => !verbs.has(verb))).toEqual([]);
  });

  // One after the other in one folder, as a reader would type them.
  for (const args of commands) {
    it(`has a command that works: kilter ${args.join(" ")}`, () => {
      const { status, stderr } = run(args.map((arg) => (/^[0-9a-f]{6}$/.test(arg) ? idOfAReading(args[1]) : arg)));
      expect(stderr).toBe("");
      expect(status).toBe(0);
    });
  }

  it("has readings that hang together", () => {
    expect(JSON.parse(run(["readings", "router.jsonl", "--odd", "--json"]).stdout)).toEqual([]);
  });

  it("names files that the commands made", () => {
    const made = ["router.jsonl", "gap.svg", "router-sheet/sheet.html", "demonstration/sheet.html"];
    expect(made.filter((name) => !existsSync(join(folder, name)))).toEqual([]);
  });
});

/** Ids differ from logbook to logbook: the one in the text stands for the first that is listed. */
function idOfAReading(file: string): string {
  return JSON.parse(run(["readings", file, "--json"]).stdout)[0].id;
}

function run(args: readonly string[]) {
  return spawnSync(process.execPath, [built, ...args], { cwd: folder, encoding: "utf8" });
}

/** What stands behind `npx kilter` in the blocks marked sh, split as a shell would. */
function commandsIn(text: string): readonly (readonly string[])[] {
  const blocks = [...text.matchAll(/^```sh\n([\s\S]*?)^```/gm)].map(([, block]) => block);
  const lines = blocks.flatMap((block) => block.split("\n")).filter((line) => line.startsWith("npx kilter "));
  return lines.map((line) =>
    [...line.replace(/^npx kilter /, "").matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare),
  );
}
