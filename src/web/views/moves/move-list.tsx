import { Link } from "../../parts/link.tsx";
import { machineAddress } from "../../router.ts";
import type { PlannedMovePage, WhatIf } from "../../worker/protocol-moves.ts";
import { queryFromWhatIf } from "./what-if.ts";

/** The moves in the order in which they are made, each in a few lines. */
export function MoveList({
  machine,
  moves,
  what,
}: {
  machine: string;
  moves: readonly PlannedMovePage[];
  what: WhatIf;
}) {
  if (moves.length === 0) return null;
  return (
    <ol class="move-list">
      {moves.map(({ adjuster, letter, sentence, minutes, brings }) => (
        <li key={adjuster}>
          <span class="letter" aria-hidden="true">
            {letter}
          </span>
          <div>
            <Link to={machineAddress(machine, "moves", adjuster) + queryFromWhatIf(what)}>{sentence}</Link>
            <p class="small second">
              {minutes}
              {brings.map(({ title, before, after, unit }) => `; ${title} from ${before} to ${after} ${unit}`).join("")}
              .
            </p>
          </div>
          {moves.length > 1 && (
            <Link
              label={`Without it: what if move ${letter} is left out`}
              to={
                machineAddress(machine, "moves") +
                queryFromWhatIf({ ...what, locks: [...(what.locks ?? []), adjuster] })
              }
            >
              without it
            </Link>
          )}
        </li>
      ))}
    </ol>
  );
}
