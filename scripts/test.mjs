// Everything that must hold before a change is done, step by step: all steps run even where one fails.
// The last line is the count of all of them: each test is one, each other step is one.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { stripVTControlCharacters } from "node:util";

const root = fileURLToPath(new URL("..", import.meta.url));
const count = { passed: 0, failed: 0, skipped: 0 };
const failedSteps = [];
const failedTests = [];
const retriedTests = [];

mkdirSync(`${root}.cache`, { recursive: true });
step("Types", ["node_modules/typescript/bin/tsc", "-b"]);
step("Lint and format", ["node_modules/@biomejs/biome/bin/biome", "check", "."]);
step("Build", ["scripts/build.mjs"]);
// Rows of an earlier run would stand in for tests that no longer ran.
rmSync(`${root}.cache/references`, { recursive: true, force: true });
tests("Tests", `${root}.cache/tests.json`, ofVitest, (report) => {
  return ["node_modules/vitest/vitest.mjs", "run", "--reporter=dot", "--reporter=json", `--outputFile.json=${report}`];
});
tests("Tests in a browser", `${root}.cache/e2e/report.json`, ofPlaywright, () => ["scripts/page-tests.mjs"]);
step("Reference numbers", ["scripts/print-references.mjs"]);

// Said again here: in a log of many thousand lines, or of which only the end is kept, nobody finds what a test said.
for (const { name, message } of failedTests) console.log(`\n✗ ${name}\n${indented(message)}`);
// It counts as passed, and is to be looked into.
for (const { name, message } of retriedTests) console.log(`\nNeeded a second try: ${name}\n${indented(message)}`);
console.log(failedSteps.length === 0 ? "\nAll steps passed.\n" : `\nFailed: ${failedSteps.join(", ")}.\n`);
console.log(`${count.passed} passed, ${count.failed} failed, ${count.skipped} skipped`);
process.exitCode = count.failed === 0 ? 0 : 1;

function step(name, args) {
  if (run(name, args) === 0) count.passed++;
  else fail(name, 1);
}

/** A step that is many tests, counted and named from the report that it writes. */
function tests(name, report, readReport, argsFor) {
  rmSync(report, { force: true });
  const status = run(name, argsFor(report));
  if (!existsSync(report)) return fail(name, 1);
  const { passed, failed, skipped, failures, secondTries = [] } = readReport(JSON.parse(readFileSync(report, "utf8")));
  count.passed += passed;
  count.skipped += skipped;
  failedTests.push(...failures);
  retriedTests.push(...secondTries);
  if (failed > 0 || status !== 0) fail(name, Math.max(1, failed));
}

function ofVitest({ numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults }) {
  // A file that cannot even be loaded has no tests that could fail.
  const unloaded = testResults.filter((file) => file.status === "failed" && file.assertionResults.length === 0);
  const failures = testResults.flatMap((file) =>
    file.assertionResults
      .filter(({ status }) => status === "failed")
      .map(({ fullName, failureMessages }) => ({ name: `${file.name}: ${fullName}`, message: failureMessages[0] })),
  );
  return {
    passed: numPassedTests,
    failed: numFailedTests + unloaded.length,
    skipped: numPendingTests + numTodoTests,
    failures: [...failures, ...unloaded],
  };
}

function ofPlaywright({ stats: { expected, unexpected, flaky, skipped }, errors, suites }) {
  const told = (status) =>
    suites
      .flatMap(specsOf)
      .filter(({ tests }) => tests.some((test) => test.status === status))
      .map(({ file, line, title, tests }) => ({
        name: `${file}:${line}: ${title}`,
        message: tests.flatMap(({ results }) => results).find(({ error }) => error)?.error.message,
      }));
  return {
    passed: expected + flaky,
    failed: unexpected + errors.length,
    skipped,
    failures: [...told("unexpected"), ...errors.map(({ message }) => ({ name: "before any test", message }))],
    secondTries: told("flaky"),
  };
}

function specsOf({ specs, suites = [] }) {
  return [...specs, ...suites.flatMap(specsOf)];
}

/** The first lines of what a test said: the rest stands in the log above. */
function indented(message = "") {
  return stripVTControlCharacters(message)
    .split("\n")
    .slice(0, 12)
    .map((line) => `  ${line}`)
    .join("\n");
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
