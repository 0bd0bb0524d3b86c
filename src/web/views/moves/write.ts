import { record } from "../../outbox/outbox.ts";
import { preferences } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { Draft, Told } from "../../worker/protocol.ts";

/** Writes into the logbook, or tells why it is not taken; nothing told is done. */
export async function write(machine: string, ...drafts: readonly object[]): Promise<readonly Told[]> {
  const answer = await ask("propose", { machine, drafts: drafts as readonly Draft[], by: preferences.value.by });
  if (!answer.ok) return answer.told;
  await record(machine, answer.value);
  return [];
}
