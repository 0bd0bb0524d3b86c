import { mkdirSync, writeFileSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";

/** How the expected number came to be known, in this order of worth. */
export type Status = "published" | "closed form" | "independent program" | "from memory";

/** One line of the table that the run prints. */
export interface ReferenceRow {
  readonly source: string;
  readonly what: string;
  readonly expected: string;
  readonly got: string;
  readonly agreement: string;
  readonly status: Status;
}

export interface Check {
  /** What is compared, with its unit. */
  readonly what: string;
  /** As printed in the source; its last digit says how closely it can be met. */
  readonly expected: string;
  readonly got: number;
  readonly status: Status;
  /** Takes the place of the printed digits where they promise too much or too little; `because` says why. */
  readonly within?: number;
  readonly because?: string;
}

export interface DigitCheck {
  readonly what: string;
  /** Pairs of an expected number and the one obtained; the worst pair counts. */
  readonly pairs: readonly (readonly [expected: number, got: number])[];
  readonly status: Status;
  /** How many leading digits must match. */
  readonly atLeast: number;
  /** What stands in the table for the numbers themselves. */
  readonly summary: string;
}

export interface Reference {
  /** Compares one number with the printed one, to half a unit of its last digit. */
  number(check: Check): void;
  /** Compares many numbers by how many of their leading digits match. */
  digits(check: DigitCheck): void;
}

const cache = fileURLToPath(new URL("../../.cache/references/", import.meta.url));

/**
 * Opens the record of one published source. Every comparison made through it is checked, and is written down for the
 * table that `scripts/print-references.mjs` puts together from all files after the run.
 *
 * @param source the key and place in brackets, as in docs/references.md
 */
export function openReference(source: `[${string}]`): Reference {
  const rows: ReferenceRow[] = [];
  const record = recordOfFile();
  record.groups.push(rows);
  // Written after each row, so that a source opened inside a test is as good as one opened outside.
  const add = (row: ReferenceRow) => {
    rows.push(row);
    mkdirSync(cache, { recursive: true });
    writeFileSync(`${cache}${record.name}.json`, `${JSON.stringify(record.groups.flat(), undefined, 1)}\n`);
  };

  return {
    number({ what, expected, got, status, within, because }) {
      const tolerance = within ?? halfUnitOfLastDigit(expected);
      const value = numberFromPrint(expected);
      const text = textLikePrint(expected, got);
      const agreement =
        within === undefined
          ? "to the digits printed"
          : `within ${textOf(within)}${because === undefined ? "" : `: ${because}`}`;
      add({ source, what, expected: readable(expected), got: text, agreement, status });
      // A last digit that was rounded from exactly the middle may have gone either way.
      expect(Math.abs(got - value), `${source} ${what}: expected ${expected}, got ${got}`).toBeLessThanOrEqual(
        tolerance * (1 + 1e-9),
      );
    },
    digits({ what, pairs, status, atLeast, summary }) {
      const worst = Math.min(...pairs.map(([expected, got]) => matchingDigits(expected, got)));
      const shown = Math.floor(worst);
      add({ source, what, expected: summary, got: "", agreement: `${shown} digits (asked: ${atLeast})`, status });
      expect(worst, `${source} ${what}: matching digits`).toBeGreaterThanOrEqual(atLeast);
    },
  };
}

/** −log₁₀ of the relative difference, at most 15; of the plain difference where 0 is expected. */
export function matchingDigits(expected: number, got: number): number {
  if (got === expected) return 15;
  const difference = Math.abs(got - expected) / (expected === 0 ? 1 : Math.abs(expected));
  return Number.isFinite(difference) ? Math.max(0, Math.min(15, -Math.log10(difference))) : 0;
}

interface FileRecord {
  readonly name: string;
  /** One array for each source opened, in the order of opening. */
  readonly groups: ReferenceRow[][];
}

const records = new Map<string, FileRecord>();

function recordOfFile(): FileRecord {
  const path = expect.getState().testPath ?? "unknown";
  const name = basename(path).replace(/\.test\.ts$/, "");
  const record = records.get(name) ?? { name, groups: [] };
  records.set(name, record);
  return record;
}

function numberFromPrint(print: string): number {
  const value = Number(print.replace("−", "-"));
  expect(value, `“${print}” is not a number`).not.toBeNaN();
  return value;
}

/** Half of what the last printed digit counts: "0.0029" → 0.00005, "1.60e-5" → 0.005e-5. */
function halfUnitOfLastDigit(print: string): number {
  const [mantissa = "", exponent = "0"] = print.toLowerCase().split("e");
  const decimals = mantissa.split(".")[1]?.length ?? 0;
  return 0.5 * 10 ** (Number(exponent) - decimals);
}

/** The number obtained, two digits finer than the printed one. */
function textLikePrint(print: string, value: number): string {
  const [mantissa = "", exponent] = print.toLowerCase().split("e");
  const decimals = (mantissa.split(".")[1]?.length ?? 0) + 2;
  if (exponent === undefined) return readable(value.toFixed(decimals));
  return readable(`${(value / 10 ** Number(exponent)).toFixed(decimals)}e${exponent}`);
}

function textOf(value: number): string {
  return readable(String(Number(value.toPrecision(3))));
}

function readable(text: string): string {
  return text.replaceAll("-", "−");
}
