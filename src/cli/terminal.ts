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

/** "1 reading", "4 readings". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

export interface Column {
  readonly head: string;
  readonly right?: boolean;
  /** Broken over further lines where the table would be wider than the terminal. */
  readonly gives?: boolean;
}

/**
 * A table in plain text: two spaces between columns, the head in second ink, a tone for each row if wanted. A column in
 * which nothing stands is left out.
 */
export function table(
  heads: readonly Column[],
  rows: readonly (readonly string[])[],
  tones: readonly (Tone | null)[] = [],
): string {
  const kept = heads.map((_, i) => i).filter((i) => rows.some((row) => row[i] !== ""));
  const widths = heads.map(({ head }, i) =>
    Math.max(head.length, ...rows.flatMap((row) => linesOf(row[i]).map((line) => line.length))),
  );
  // What words say best is broken first: the last of the columns that give.
  for (const i of kept.filter((i) => heads[i].gives).reverse()) {
    const whole = kept.reduce((sum, k) => sum + widths[k] + 2, -2);
    const least = Math.max(heads[i].head.length, 12);
    if (whole > columns()) widths[i] = Math.min(widths[i], Math.max(least, widths[i] - (whole - columns())));
  }
  const line = (cells: readonly string[]) =>
    kept
      .map((i) => (heads[i].right ? cells[i].padStart(widths[i]) : cells[i].padEnd(widths[i])))
      .join("  ")
      .trimEnd();
  const lines = (cells: readonly string[]) => {
    const broken = cells.map((cell, i) =>
      heads[i].gives ? linesOf(cell).flatMap((line) => linesOf(wrap(line, widths[i]))) : [cell],
    );
    const count = Math.max(...kept.map((i) => broken[i].length));
    return Array.from({ length: count }, (_, n) => line(broken.map((parts) => parts[n] ?? ""))).join("\n");
  };
  const head = toned(line(heads.map(({ head }) => head)), "second");
  return [head, ...rows.map((row, i) => toned(lines(row), tones[i] ?? null))].join("\n");
}

function linesOf(text: string): readonly string[] {
  return text.split("\n");
}

export function say(text = ""): void {
  process.stdout.write(`${text}\n`);
}

export function sayJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
}
