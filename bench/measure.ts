/** What one process has measured; `npm run bench` takes the median over several processes and holds it to the budget. */
export interface Measure {
  readonly name: string;
  readonly value: number;
  readonly unit: "ms" | "MB";
  /** Null for what is only stated beside the others. */
  readonly budget: number | null;
}

/** One line of JSON a measure, for whoever started the process. */
export function print(...measures: readonly Measure[]): void {
  for (const measure of measures) console.log(JSON.stringify(measure));
}

/** Something to be told once, not measured. */
export function tell(note: string): void {
  console.log(JSON.stringify({ note }));
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}
