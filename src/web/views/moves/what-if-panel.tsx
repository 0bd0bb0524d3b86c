import { useSignal } from "@preact/signals";
import { Choice, Select } from "../../parts/fields.tsx";
import { Link } from "../../parts/link.tsx";
import { goTo, machineAddress } from "../../router.ts";
import type { MovesBoard, WhatIf } from "../../worker/protocol-moves.ts";
import { leavesAtHand, leavesInUnit } from "./leaf-rows.ts";
import { leafUnit } from "./leaf-table.tsx";
import { LeavesToTry } from "./leaves-to-try.tsx";
import { queryFromWhatIf } from "./what-if.ts";

interface Props {
  readonly machine: string;
  readonly what: WhatIf;
  readonly board: MovesBoard;
}

/** Says above the plan that it is one with something tried, and the way back. */
export function TriedNow({ machine, what, board }: Props) {
  const words = triedInWords(what, board);
  if (words.length === 0) return null;
  return (
    <section class="held-back tried" aria-label="Tried">
      <p>
        <b>Only tried, not written down:</b> {words.join("; ")}.
      </p>
      <p>
        <Link class="button" to={machineAddress(machine, "moves")}>
          Back to the plan as it stands
        </Link>
      </p>
    </section>
  );
}

/** The same in a line, where one move of it is shown. */
export function TriedHere({ what, board }: Omit<Props, "machine">) {
  const words = triedInWords(what, board);
  if (words.length === 0) return null;
  return (
    <p>
      <b>Only tried, not written down:</b> {words.join("; ")}.
    </p>
  );
}

function triedInWords(
  { locks = [], only = [], willSkim, kindOfWork, stockMm }: WhatIf,
  board: MovesBoard,
): readonly string[] {
  const named = (ids: readonly string[]) =>
    ids.map((id) => board.places.find((place) => place.id === id)?.words ?? id).join(", ");
  const work = board.work.kinds.find(({ id }) => id === kindOfWork)?.name;
  return [
    ...(locks.length > 0 ? [`without ${named(locks)}`] : []),
    ...(only.length > 0 ? [`with nothing but ${named(only)}`] : []),
    ...(willSkim === undefined
      ? []
      : [
          willSkim === null
            ? "the plan may propose a skim"
            : willSkim
              ? "with the bed skimmed"
              : "with the bed as it is",
        ]),
    ...(work === undefined ? [] : [`for ${work.charAt(0).toLowerCase()}${work.slice(1)}`]),
    ...(stockMm === undefined
      ? []
      : [stockMm.length === 0 ? "without any leaf" : `with the leaves ${leavesInUnit(stockMm, leafUnit())}`]),
  ];
}

/** Other assumptions, tried without being written into the logbook. */
export function WhatIfPanel({ machine, what, board }: Props) {
  const tryOut = (some: WhatIf) =>
    goTo(machineAddress(machine, "moves") + queryFromWhatIf({ ...what, ...some }), "replace");
  const skim = what.willSkim === undefined ? "" : what.willSkim === null ? "ask" : what.willSkim ? "yes" : "no";
  const only = what.only?.[0] ?? "";
  const asksForLeaves = useSignal(false);
  const tried = what.stockMm === undefined ? "" : what.stockMm.length === 0 ? "none" : "others";
  const leaves = asksForLeaves.value ? "others" : tried;
  return (
    <details open={queryFromWhatIf(what) !== ""}>
      <summary>What if …</summary>
      <div class="planned-for">
        <p class="note">Nothing of this is written down: it shows what the plan would be.</p>
        <Select
          label="Only this may be moved"
          value={only}
          answers={[
            ["", "anything that is free"] as const,
            ...board.places
              .filter(({ available }) => available)
              .map(({ id, letter, words }) => [id, `${letter}: ${words}`] as const),
          ]}
          onChoose={(id) => tryOut({ only: id === "" ? undefined : [id] } as WhatIf)}
        />
        <Choice
          label="The bed"
          value={skim}
          answers={[
            ["", "as it was said"],
            ["yes", "skimmed"],
            ["no", "as it is"],
          ]}
          onChoose={(next) => tryOut({ willSkim: next === "" ? undefined : next === "yes" } as WhatIf)}
        />
        <Choice
          label="Leaves"
          value={leaves}
          answers={[
            ["", "those at hand"],
            ["none", "none at all"],
            ["others", "others"],
          ]}
          onChoose={(next) => {
            asksForLeaves.value = next === "others";
            if (next !== "others") tryOut({ stockMm: next === "" ? undefined : [] } as WhatIf);
          }}
        />
        {leaves === "others" && (
          <LeavesToTry
            leavesMm={what.stockMm?.length ? what.stockMm : leavesAtHand(board.stock)}
            onTry={(stockMm) => {
              asksForLeaves.value = false;
              tryOut({ stockMm });
            }}
          />
        )}
        <Select
          label="Another kind of work"
          value={what.kindOfWork ?? ""}
          answers={[["", "the one it is for"] as const, ...board.work.kinds.map(({ id, name }) => [id, name] as const)]}
          onChoose={(id) => tryOut({ kindOfWork: id === "" ? undefined : id } as WhatIf)}
        />
      </div>
    </details>
  );
}
