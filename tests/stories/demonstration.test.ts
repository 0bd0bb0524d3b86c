import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { truth } from "../../scripts/demonstration/truth.ts";
import { assess } from "../../src/app/assess.ts";
import { openSession } from "../../src/app/session.ts";
import { done, findingIn, findingsOf } from "./kilter.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const logbook = join(root, "catalog/demonstration/shared-workshop.jsonl");
const golden = join(root, "tests/golden/demonstration.findings.json");

describe("the demonstration machine", () => {
  it("has the logbook that its script makes from the stated truth", () => {
    const { stdout, stderr } = spawnSync(
      process.execPath,
      ["--import", "tsx", join(root, "scripts/make-demonstration.ts"), "--print"],
      { cwd: root, encoding: "utf8", maxBuffer: 1e8 },
    );
    expect(stderr).toBe("");
    expect(stdout).toBe(readFileSync(logbook, "utf8"));
  });

  it("keeps its truth out of its logbook", () => {
    expect(readFileSync(logbook, "utf8")).not.toMatch(/truth|gantry\.rack|slide\.lean|grid\.yaw/);
  });

  it("has the findings that were looked at", () => {
    const session = openSession(readFileSync(logbook), "demonstration");
    if (!session.ok) throw new Error("the demonstration logbook cannot be read");
    const now = assess(session.value.timeline).findings.map(({ finding, value, expandedUncertainty, verdict }) => ({
      id: finding.id,
      value: rounded(value),
      expandedUncertainty: rounded(expandedUncertainty),
      verdict,
    }));
    const text = `${JSON.stringify(now, null, 2)}\n`;
    if (!existsSync(golden) && !process.env.CI) writeFileSync(golden, text);
    const kept = readFileSync(golden, "utf8");
    if (kept !== text && !process.env.CI) writeFileSync(golden.replace(".json", "-changed.json"), text);
    expect(text).toBe(kept);
  });

  it("finds the lying square, the skewed grid and the slip, and covers what is out", () => {
    const all = findingsOf(logbook);
    const covers = (id: string, value: number) => {
      const { low, high } = findingIn(all, id);
      const slack = (high - low) / 2;
      expect(low - slack, id).toBeLessThan(value);
      expect(high + slack, id).toBeGreaterThan(value);
    };
    // Within twice the interval: one draw of the noise, not a trial of many.
    covers("squareness", -truth["gantry.rack"]);
    covers("lost-motion.x", truth["backlash.x"]);
    covers("scale.y", truth["scale.y"]);
    covers("grid-skew", truth["grid.skew"]);
    expect(findingIn(all, "squareness").verdict).toBe("out");
    expect(all.oddReadings.map(({ check, station }) => `${check} ${station}`)).toEqual([
      "gap-under-beam block at the rear, middle",
    ]);
    const tools = JSON.parse(done(["tools", logbook, "--json"])) as {
      learnt: { id: string; value: number; expandedUncertainty: number }[];
    };
    const square = tools.learnt.find(({ id }) => id === "object school-square: square");
    expect(square?.value).toBeGreaterThan(0.1);
    expect(Math.abs((square?.value ?? 0) - 0.2)).toBeLessThan(2 * (square?.expandedUncertainty ?? 0));
  });

  it("runs as a whole job: findings, sheet, drawings, tables", () => {
    const folder = join(mkdtempSync(join(tmpdir(), "kilter-")), "demo");
    expect(done(["demonstration", "--to", folder])).toMatch(/are out: squareness/);
    expect(readdirSync(folder).sort()).toEqual([
      "checks",
      "findings",
      "findings.json",
      "machine.svg",
      "readings.csv",
      "residuals",
      "sheet.html",
    ]);
    const sheet = readFileSync(join(folder, "sheet.html"), "utf8");
    expect(sheet).toMatch(/<svg[^>]*class="dwg"/);
    expect(sheet).not.toMatch(/https?:\/\/(?!www\.w3\.org)/);
  });
});

/** To a millionth: what rounding leaves of a nothing is nothing, and no minus sign stands before it. */
function rounded(value: number): number {
  return Number(value.toFixed(6)) + 0;
}
