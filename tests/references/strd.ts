import { readFileSync } from "node:fs";

/** One file of the NIST Statistical Reference Datasets, as it is distributed. */
export interface ReferenceDataset {
  readonly name: string;
  /** One array per start, in the order of the parameters; none for linear sets. */
  readonly starts: readonly (readonly number[])[];
  readonly estimates: readonly number[];
  readonly standardDeviations: readonly number[];
  readonly residualStandardDeviation: number;
  /** The first value of each row is the response. */
  readonly rows: readonly (readonly number[])[];
}

export function readReferenceDataset(name: string): ReferenceDataset {
  const text = readFileSync(new URL(`./data/strd/${name}.dat`, import.meta.url), "utf8");
  const lines = text.split(/\r?\n/);
  const [, first, last] = /Data\s+\(lines (\d+) to (\d+)\)/.exec(text) ?? [];
  if (first === undefined || last === undefined) throw new Error(`${name}.dat does not say where its data stand`);
  const certified = lines
    .slice(0, Number(first) - 1)
    .map((line) => /^\s*[Bb]\d+\s*=?\s+(.+?)\s*$/.exec(line)?.[1])
    .filter((values) => values !== undefined)
    .map((values) => values.split(/\s+/).map(Number));
  const residual = /Residual\s+Standard Deviation:?\s+(\S+)/.exec(text)?.[1];
  return {
    name,
    starts: transpose(certified.map((values) => values.slice(0, -2))),
    estimates: certified.map((values) => values.at(-2)!),
    standardDeviations: certified.map((values) => values.at(-1)!),
    residualStandardDeviation: Number(residual),
    rows: lines.slice(Number(first) - 1, Number(last)).map((line) => line.trim().split(/\s+/).map(Number)),
  };
}

function transpose(rows: readonly (readonly number[])[]): number[][] {
  return (rows[0] ?? []).map((_, j) => rows.map((row) => row[j]!));
}
