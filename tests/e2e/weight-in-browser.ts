import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { expect, test } from "@playwright/test";

const web = fileURLToPath(new URL("../../dist/web/", import.meta.url));

/** A script with everything that it imports before it runs. */
function withImports(file: string, seen: Set<string>): Set<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  const text = readFileSync(join(web, "assets", file), "utf8");
  for (const [, name] of text.matchAll(/(?:from|import)\s*["'`]\.\/([\w-]+\.js)["'`]/g)) withImports(name, seen);
  return seen;
}

test("before anything optional the page loads at most 180 kB of script, packed", () => {
  const [, entry] = /src="\/assets\/([\w-]+\.js)"/.exec(readFileSync(join(web, "index.html"), "utf8")) ?? [];
  const worker = readdirSync(join(web, "assets")).find((name) => /^worker-[\w-]+\.js$/.test(name));
  const scripts = new Set([...withImports(entry, new Set()), ...withImports(worker ?? "", new Set())]);
  const packed = [...scripts].reduce(
    (sum, name) => sum + gzipSync(readFileSync(join(web, "assets", name)), { level: 9 }).length,
    0,
  );
  console.log(`${Math.round(packed / 1000)} kB of script before anything optional`);
  expect(packed / 1000).toBeLessThanOrEqual(180);
});
