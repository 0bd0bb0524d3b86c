import type { RunInReach } from "../core/planning/possible-runs.ts";
import { commandOverLines, wordInShell } from "./how-to-type.ts";

/** The command that shows how a check is done in this way, ready to be copied. */
export function commandForCheck({ check, setup }: RunInReach, file: string): string {
  const { instrument, options } = setup;
  const choices = Object.entries(options).map(([key, value]) => `--set ${wordInShell(`${key}=${value}`)}`);
  return commandOverLines([
    "kilter check",
    check.id,
    wordInShell(file),
    `--with ${wordInShell(instrument.id)}`,
    ...choices,
  ]);
}
