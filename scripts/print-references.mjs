// Puts the rows that the reference tests wrote down into one table, prints it, and keeps tests/references/README.md
// fresh: rewritten at home, only compared where CI is set. Run after the tests.
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const folder = fileURLToPath(new URL("../tests/references/", import.meta.url));
const cache = fileURLToPath(new URL("../.cache/references/", import.meta.url));
const readme = `${folder}README.md`;

const names = readdirSync(folder)
  .filter((name) => name.endsWith(".test.ts"))
  .map((name) => name.replace(/\.test\.ts$/, ""))
  .sort();
const missing = names.filter((name) => !existsSync(`${cache}${name}.json`));
if (missing.length > 0) {
  console.error(
    `The table of references is not complete: no rows yet from ${missing.join(", ")}. Run the tests of tests/references first.`,
  );
  process.exit(1);
}
const rows = names.flatMap((name) => JSON.parse(readFileSync(`${cache}${name}.json`, "utf8")));

const headings = ["Source", "What", "Expected", "Got", "Agreement", "How known"];
const cells = rows.map((row) => [row.source, row.what, row.expected, row.got, row.agreement, row.status]);
const widths = headings.map((heading, i) => Math.max(heading.length, ...cells.map((line) => line[i].length)));
const line = (parts) =>
  parts
    .map((part, i) => part.padEnd(widths[i]))
    .join("  ")
    .trimEnd();
console.log(`\nThe numbers of the published world, ${rows.length} comparisons from ${names.length} files\n`);
console.log(line(headings));
console.log(widths.map((width) => "─".repeat(width)).join("  "));
for (const parts of cells) console.log(line(parts));

const counts = new Map();
for (const row of rows) counts.set(row.status, (counts.get(row.status) ?? 0) + 1);
const inCell = (text) => text.replaceAll("|", "\\|");
const text = `# Reference numbers

Written by \`scripts/print-references.mjs\` from the last run of the tests in this folder; not edited by hand.
Sources stand in [docs/references.md](../../docs/references.md), with edition, year and how each number came here.

Of ${rows.length} comparisons ${["published", "closed form", "independent program", "from memory"]
  .map((status) => `${counts.get(status) ?? 0} are ${status}`)
  .join(", ")}.
Where nothing else is said the number obtained agrees to half a unit of the last printed digit.

| ${headings.join(" | ")} |
|${" --- |".repeat(headings.length)}
${cells.map((parts) => `| ${parts.map(inCell).join(" | ")} |`).join("\n")}
`;

const before = existsSync(readme) ? readFileSync(readme, "utf8") : "";
if (before !== text) {
  if (process.env.CI) {
    console.error("\ntests/references/README.md is stale: run the tests once outside CI and commit what changes.");
    process.exit(1);
  }
  writeFileSync(readme, text);
  console.log("\ntests/references/README.md is rewritten.");
}
