import type { Writable } from "node:stream";

/** Colour is the third carrier of a verdict, after word and symbol; none when piped or when NO_COLOR is set. */
function hasColour(stream: Writable & { isTTY?: boolean }): boolean {
  return stream.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== "dumb";
}

const codes = { within: "32", out: "31", second: "2", strong: "1" } as const;
export type Tone = keyof typeof codes;

export function toned(
  text: string,
  tone: Tone | null,
  stream: Writable & { isTTY?: boolean } = process.stdout,
): string {
  return tone && hasColour(stream) ? `\u001b[${codes[tone]}m${text}\u001b[0m` : text;
}

/** Columns of the terminal, never more than 100 and never less than 60; 80 when piped. */
export function columns(stream: { readonly columns?: number } = process.stdout): number {
  return Math.min(100, Math.max(60, stream.columns ?? 80));
}

/**
 * Words broken at spaces so that no line is longer than `width`, each line after the first indented. Spaces before the
 * first word are kept.
 */
export function wrap(text: string, width = columns(), indent = ""): string {
  const lines: string[] = [];
  const words = text.trimStart();
  let line = text.slice(0, text.length - words.length);
  for (const word of words.split(" ")) {
    const longer = line.trim() === "" ? `${line}${word}` : `${line} ${word}`;
    if (longer.length > width - (lines.length > 0 ? indent.length : 0) && line.trim() !== "") {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  lines.push(line);
  return lines.join(`\n${indent}`);
}

export interface Column {
  readonly head: string;
  readonly right?: boolean;
}

/** A table in plain text: two spaces between columns, the head in second ink, a tone for each row if wanted. */
export function table(
  heads: readonly Column[],
  rows: readonly (readonly string[])[],
  tones: readonly (Tone | null)[] = [],
): string {
  const widths = heads.map(({ head }, i) => Math.max(head.length, ...rows.map((row) => row[i].length)));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, i) => (heads[i].right ? cell.padStart(widths[i]) : cell.padEnd(widths[i])))
      .join("  ")
      .trimEnd();
  const head = toned(line(heads.map(({ head }) => head)), "second");
  return [head, ...rows.map((row, i) => toned(line(row), tones[i] ?? null))].join("\n");
}

export function say(text = ""): void {
  process.stdout.write(`${text}\n`);
}

export function sayJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
}
