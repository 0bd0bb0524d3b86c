import { useSignal } from "@preact/signals";
import { isOwner } from "../../live/feed.ts";
import { ToldList } from "../../parts/told.tsx";
import type { Told } from "../../worker/protocol.ts";
import type { AdjusterPlace, HoldOut } from "../../worker/protocol-moves.ts";
import { write } from "./write.ts";

interface HoldOutsProps {
  readonly machine: string;
  readonly holdOuts: readonly HoldOut[];
  readonly places: readonly AdjusterPlace[];
}

/** Demands that the plan leaves out of their limits, each with what would bring it in. */
export function HoldOuts({ machine, holdOuts, places }: HoldOutsProps) {
  // What is only tried to be locked is not freed by writing.
  const isLocked = (adjuster: string) => places.some(({ id, locked }) => id === adjuster && locked !== null);
  const told = useSignal<readonly Told[]>([]);
  if (holdOuts.length === 0) return null;
  return (
    <section class="held-back">
      <h2>What holds out</h2>
      <ul class="plain-list">
        {holdOuts.map(({ title, words, unlock }) => (
          <li key={title}>
            <span>
              <b>{title}.</b> {words}
            </span>
            {unlock !== null && isLocked(unlock) && isOwner.value && (
              <button
                type="button"
                class="small-button"
                onClick={async () => {
                  told.value = await write(machine, { kind: "adjuster-unlocked", adjuster: unlock });
                }}
              >
                Free it
              </button>
            )}
          </li>
        ))}
      </ul>
      <ToldList told={told.value} />
    </section>
  );
}
