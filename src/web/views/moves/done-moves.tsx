import { useSignal } from "@preact/signals";
import { record } from "../../outbox/outbox.ts";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { NextThing, Told } from "../../worker/protocol.ts";
import type { DoneMove } from "../../worker/protocol-moves.ts";
import { ThingList } from "./thing-list.tsx";

/** So many are of this round; all of them are in the history. */
const SHOWN = 6;

interface DoneMovesProps {
  readonly machine: string;
  readonly done: readonly DoneMove[];
  readonly readAgain: readonly NextThing[];
}

/** What has been moved, the latest first, and what has to be read again for it. */
export function DoneMoves({ machine, done, readAgain }: DoneMovesProps) {
  const told = useSignal<readonly Told[]>([]);
  if (done.length === 0) return null;
  return (
    <section>
      <h2>Moved so far</h2>
      <ul class="plain-list done-moves">
        {done.slice(0, SHOWN).map(({ id, when, words }) => (
          <li key={id}>
            <span>
              {words} <span class="second small nowrap">{when}</span>
            </span>
            <button
              type="button"
              class="plain small-button"
              aria-label={`Undo: ${words}`}
              onClick={async () => {
                told.value = await takeMoveBack(machine, id);
              }}
            >
              Undo
            </button>
          </li>
        ))}
      </ul>
      <ToldList told={told.value} />
      {readAgain.length > 0 && (
        <>
          <h3>To be read again for it, when the round of moves is through</h3>
          <ThingList machine={machine} things={readAgain} />
        </>
      )}
    </section>
  );
}

/** Takes a move back with the reading that went with it; tells why where that cannot be. */
export async function takeMoveBack(machine: string, move: string): Promise<readonly Told[]> {
  const answer = await ask("takeMoveBack", { machine, move, by: preferences.value.by });
  if (!answer.ok) return answer.told;
  await record(machine, answer.value);
  return [];
}
