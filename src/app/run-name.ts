/** "run 3fa9c1": by the ending that names it wherever one is typed. What is called a run already is called so once. */
export function runName(id: string): string {
  const ending = id.slice(-6);
  return ending.startsWith("run") ? ending : `run ${ending}`;
}
