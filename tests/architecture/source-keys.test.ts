import ts from "typescript";
import { expect, it } from "vitest";
import { isCode, projectFiles, textOf } from "./project-files.ts";

// The rule is told in docs/references.md: keep both alike.

const list = "docs/references.md";

interface Use {
  readonly key: string;
  readonly place: string;
}

/** The words of a key; what stands behind them tells the place within the source. */
const isKey = /^\p{Lu}[\p{L}\d-]+(?: [\p{L}\d-]+)*$/u;
const tellsPlace = /^(?:§.*|Annex|annex|App\.|Chapter|ch\.|Clause|Table|Figure|Example|eq\.|[A-Z]\.?\d+(?:\.\d+)*,?)$/;

function keyOf(bracket: string): string | null {
  const words = bracket.split(" ");
  const place = words.findIndex((word) => tellsPlace.test(word));
  const key = (place < 0 ? words : words.slice(0, place)).join(" ");
  return isKey.test(key) ? key : null;
}

function usesIn(path: string, text: string, firstLine = 1): readonly Use[] {
  return text.split("\n").flatMap((line, index) =>
    // A link of a document is no source.
    [...line.matchAll(/\[([^[\]]+)\](?!\()/g)].flatMap(([, bracket]) => {
      const key = keyOf(bracket);
      return key === null ? [] : [{ key, place: `${path}:${firstLine + index}` }];
    }),
  );
}

/** What comments say, and what `openReference` is given: code itself is full of brackets. */
function usesInCode(path: string): readonly Use[] {
  const text = textOf(path);
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const lineOf = (position: number) => file.getLineAndCharacterOfPosition(position).line + 1;
  const uses = new Map<number, readonly Use[]>();
  const visit = (node: ts.Node) => {
    // Comments stand before a token; those behind it on its line have their own place.
    if (node.getChildCount(file) === 0) {
      const ranges = [
        ...(ts.getLeadingCommentRanges(text, node.pos) ?? []),
        ...(ts.getTrailingCommentRanges(text, node.end) ?? []),
      ];
      for (const { pos, end } of ranges) uses.set(pos, usesIn(path, text.slice(pos, end), lineOf(pos)));
    }
    if (ts.isCallExpression(node) && node.expression.getText(file) === "openReference") {
      for (const argument of node.arguments) {
        if (ts.isStringLiteralLike(argument)) {
          uses.set(argument.pos, usesIn(path, argument.text, lineOf(argument.getStart(file))));
        }
      }
    }
    for (const child of node.getChildren(file)) visit(child);
  };
  visit(file);
  return [...uses.values()].flat();
}

function uses(): readonly Use[] {
  return projectFiles().flatMap((path) => {
    if (isCode(path)) return usesInCode(path);
    if (/^docs\/.*\.md$/.test(path) && path !== list) return usesIn(path, textOf(path).replace(/`[^`\n]*`/g, "``"));
    // Entries of the catalogue say where their figures come from.
    if (/^catalog\/.*\.json$/.test(path)) return usesIn(path, textOf(path).replace(/^(?!\s*"source":).*$/gm, ""));
    return [];
  });
}

const lines = textOf(list)
  .split("\n")
  .flatMap((line, index) => {
    const key = /^- \*\*\[([^\]]+)\]\*\*/.exec(line)?.[1];
    return key === undefined ? [] : [{ key, line, number: index + 1 }];
  });
const listed = lines.map(({ key }) => key);
const used = uses();

it("every source that a comment, a test, a document or the catalogue names has its line in docs/references.md", () => {
  const missing = new Map<string, string[]>();
  for (const { key, place } of used) {
    if (!listed.includes(key)) missing.set(key, [...(missing.get(key) ?? []), place]);
  }
  const said = [...missing].map(([key, places]) => `no line for [${key}], named in ${places.join(", ")}`);
  expect(said).toEqual([]);
});

it("every line of docs/references.md is of a source that is named somewhere", () => {
  const keys = new Set(used.map(({ key }) => key));
  expect(
    lines.filter(({ key }) => !keys.has(key)).map(({ key, number }) => `line ${number}: nothing names [${key}]`),
  ).toEqual([]);
});

it("every key is listed once, is a key by the rule, and says how its numbers came here", () => {
  expect(listed.filter((key, i) => listed.indexOf(key) !== i)).toEqual([]);
  expect(listed.filter((key) => keyOf(key) !== key)).toEqual([]);
  const ways = /published|closed form|independent program|from memory/i;
  expect(lines.filter(({ line }) => !ways.test(line)).map(({ key }) => key)).toEqual([]);
});

it("keys stand in alphabetical order within each section", () => {
  for (const section of textOf(list).split(/^## /m).slice(1)) {
    const keys = [...section.matchAll(/^- \*\*\[([^\]]+)\]/gm)].map(([, key]) => key);
    expect(keys).toEqual([...keys].sort());
  }
});

it("the rule tells keys from formulas and places", () => {
  const rows = [
    ["GUM H.1", "GUM"],
    ["GUM §4.3.7, F.2.2.1", "GUM"],
    ["GUM Table G.2", "GUM"],
    ["ISO 230-2 §2.10", "ISO 230-2"],
    ["Bierman 1977 ch. V, X", "Bierman 1977"],
    ["MID annex X", "MID"],
    ["MID MI-008 Chapter I", "MID MI-008"],
    ["NIST TN 1900 E13", "NIST TN 1900"],
    ["Beam tables", "Beam tables"],
    ["Place, Place", null],
    ["Lx / 2, 0", null],
    ["T across the edge − zero", null],
    ["w", null],
    ["0, 1", null],
  ] as const;
  expect(rows.map(([bracket]) => [bracket, keyOf(bracket)])).toEqual(rows);
});
