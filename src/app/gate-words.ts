import type { Assessment } from "./assess.ts";

/** Why nothing geometric is called within yet, one thing a line; nothing where the fit-to-measure round has been passed. */
export function gateInWords({ gate }: Assessment): readonly string[] {
  if (gate.passed) return [];
  const failed = gate.checks.filter(({ state }) => state === "failed");
  const open = gate.checks.filter(({ state }) => state === "not done" || state === "not complete");
  return [
    "The fit-to-measure round has not been passed, so nothing geometric is called within yet.",
    ...failed.map(({ check, where }) => `Not passed: ${check.words.title} (${where.join(", ")}).`),
    ...(open.length > 0 ? [`Still to do: ${open.map(({ check }) => check.words.title).join(", ")}.`] : []),
  ];
}
