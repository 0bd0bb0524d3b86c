/** What a stage's view gets: the machine, and whatever stands behind its own name in the address. */
export interface StageProps {
  readonly machine: string;
  readonly rest: readonly string[];
  readonly query: URLSearchParams;
}
