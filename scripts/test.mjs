// Everything that must hold before a change is done, step by step: all steps run even where one fails.
// The last line is the count of all of them: each test is one, each other step is one.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const count = { passed: 0, failed: 0, skipped: 0 };
const failedSteps = [];

mkdirSync(`${root}.cache`, { recursive: true });
step("Types", ["node_modules/typescript/bin/tsc", "-b"]);
step("Lint and format", ["node_modules/@biomejs/biome/bin/biome", "check", "."]);
step("Build", ["scripts/build.mjs"]);
// Rows of an earlier run would stand in for tests that no longer ran.
rmSync(`${root}.cache/references`, { recursive: true, force: true });
tests("Tests", `${root}.cache/tests.json`, countOfVitest, (report) => {
  return ["node_modules/vitest/vitest.mjs", "run", "--reporter=dot", "--reporter=json", `--outputFile.json=${report}`];
});
tests("Tests in a browser", `${root}.cache/e2e/report.json`, countOfPlaywright, () => ["scripts/page-tests.mjs"]);
step("Reference numbers", ["scripts/print-references.mjs"]);

console.log(failedSteps.length === 0 ? "\nAll steps passed.\n" : `\nFailed: ${failedSteps.join(", ")}.\n`);
console.log(`${count.passed} passed, ${count.failed} failed, ${count.skipped} skipped`);
process.exitCode = count.failed === 0 ? 0 : 1;

function step(name, args) {
  if (run(name, args) === 0) count.passed++;
  else fail(name, 1);
}

/** A step that is many tests, counted from the report that it writes. */
function tests(name, report, countOf, argsFor) {
  rmSync(report, { force: true });
  const status = run(name, argsFor(report));
  if (!existsSync(report)) return fail(name, 1);
  const { passed, failed, skipped } = countOf(JSON.parse(readFileSync(report, "utf8")));
  count.passed += passed;
  count.skipped += skipped;
  if (failed > 0 || status !== 0) fail(name, Math.max(1, failed));
}

function countOfVitest({ numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults }) {
  // A file that cannot even be loaded has no tests that could fail.
  const unloaded = testResults.filter((file) => file.status === "failed" && file.assertionResults.length === 0).length;
  return { passed: numPassedTests, failed: numFailedTests + unloaded, skipped: numPendingTests + numTodoTests };
}

function countOfPlaywright({ stats: { expected, unexpected, flaky, skipped }, errors }) {
  return { passed: expected, failed: unexpected + flaky + errors.length, skipped };
}

function fail(name, many) {
  count.failed += many;
  failedSteps.push(name.toLowerCase());
}

/** The exit status of a step, which writes what it has to say itself. */
function run(name, args) {
  console.log(`\n── ${name}`);
  const started = performance.now();
  const { status, error } = spawnSync(process.execPath, args, { cwd: root, stdio: "inherit" });
  if (error) console.error(error.message);
  console.log(`${status === 0 ? "passed" : "failed"} in ${((performance.now() - started) / 1000).toFixed(1)} s`);
  return status ?? 1;
}
