import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const bundle = fileURLToPath(new URL("../../dist/cli/kilter.js", import.meta.url));
const source = fileURLToPath(new URL("../../src/cli/main.ts", import.meta.url));

export interface Answer {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** The words that start the command line; the built one where it has been built, else from its sources. */
export function kilterCommand(args: readonly string[]): readonly [program: string, ...args: string[]] {
  const isBuilt = existsSync(bundle) && process.env.KILTER_FROM_SOURCE === undefined;
  return [process.execPath, ...(isBuilt ? [bundle] : ["--import", "tsx", source]), ...args];
}

/** Runs the command line as a person would. */
export function kilter(args: readonly string[], input?: string): Answer {
  const [program, ...words] = kilterCommand(args);
  const ran = spawnSync(program, words, {
    input: input ?? "",
    encoding: "utf8",
    env: { ...process.env, NO_COLOR: "1" },
  });
  return { status: ran.status, out: ran.stdout, err: ran.stderr };
}

/** The same, where anything but success fails the test with what the command said. */
export function done(args: readonly string[], input?: string): string {
  const { status, out, err } = kilter(args, input);
  if (status !== 0) throw new Error(`kilter ${args.join(" ")} ended with ${status}\n${out}\n${err}`);
  return out;
}

export function json<T>(args: readonly string[]): T {
  return JSON.parse(done([...args, "--json"])) as T;
}

/** A new logbook in a folder of its own. */
export function newLogbook(name = "machine.jsonl"): string {
  return join(mkdtempSync(join(tmpdir(), "kilter-")), name);
}

export interface JsonFinding {
  readonly id: string;
  readonly value: number;
  readonly expandedUncertainty: number;
  readonly low: number;
  readonly high: number;
  readonly verdict: string | null;
  readonly heldBack: boolean;
  readonly probabilityWithin: number | null;
}

export interface JsonFindings {
  readonly fitToMeasure: { readonly passed: boolean };
  readonly fit: { readonly probability: number };
  readonly findings: readonly JsonFinding[];
  readonly oddReadings: readonly {
    readonly check: string;
    readonly station: string;
    readonly ids: readonly string[];
    readonly without: readonly string[];
  }[];
  readonly runs: readonly {
    readonly run: string;
    readonly check: string;
    readonly misread: { readonly factor: number } | null;
    readonly improbable: boolean;
  }[];
}

export function findingsOf(file: string): JsonFindings {
  return json<JsonFindings>(["findings", file]);
}

export function findingIn(all: JsonFindings, id: string): JsonFinding {
  const found = all.findings.find((finding) => finding.id === id);
  if (!found) throw new Error(`no finding ${id}`);
  return found;
}

export const layouts = [
  {
    layout: "moving-gantry",
    travel: "600x500x70",
    options: ["--rails=-90x690", "--wheelbase", "140", "--beam-height", "105"],
  },
  {
    layout: "fixed-bridge",
    travel: "400x350x80",
    options: ["--rails=-60x460", "--wheelbase", "200", "--beam-height", "125"],
  },
] as const;

const tools = [
  "feeler-leaves",
  "dial-indicator",
  "test-indicator",
  "calipers-300",
  "touch-plate",
  "line-by-eye-with-loupe",
  "steel-rule-with-loupe",
  "look",
  "tuner",
  "steel-rule",
  "square",
  "block",
  "cutter",
  "straightedge",
];

/** A machine with the tools of a workshop. */
export function createMachine(file: string, { layout, travel, options }: (typeof layouts)[number]): void {
  done([
    "create",
    file,
    "--name",
    "story",
    "--layout",
    layout,
    "--travel",
    travel,
    ...options,
    ...tools.flatMap((tool) => ["--tool", tool]),
  ]);
}

/** Passes the fit-to-measure round, as far as the machine has it. */
export function passFitToMeasure(file: string, layout: string): void {
  done(["read", file, "feet-rock", "0.05/0.10", "<0.05", "<0.05", "<0.05", "--with", "feeler-leaves"]);
  done(["read", file, "grub-screws", "yes", "yes", "yes"]);
  const notes = layout === "moving-gantry" ? ["61", "60"] : ["61"];
  done(["read", file, "belt-note", ...notes, "--with", "tuner"]);
  done(["read", file, "wheel-preload", "yes", "yes", "yes", "yes"]);
  done(["read", file, "push-and-release", "0.4", "0.01", "0.4", "0.01", "0.2", "0.01", "--with", "dial-indicator"]);
  if (layout === "moving-gantry") done(["read", file, "side-push", "0.5", "0.03", "--with", "dial-indicator"]);
  for (const axis of ["X", "Y"]) {
    done(["read", file, "there-and-back", "0.01", "--with", "dial-indicator", "--set", `axis=${axis}`]);
  }
  done(["read", file, "gross-scale", "100", "100", "--with", "steel-rule"]);
}
