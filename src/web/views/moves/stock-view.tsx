import { useSignal } from "@preact/signals";
import { isOwner } from "../../live/feed.ts";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { machineAddress } from "../../router.ts";
import type { Told } from "../../worker/protocol.ts";
import type { MovesBoard } from "../../worker/protocol-moves.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { leafRows, leavesAtHand, leavesOf } from "./leaf-rows.ts";
import { LeafTable, leafUnit } from "./leaf-table.tsx";
import { write } from "./write.ts";

/** Leaves and shims to pack with, each thickness and how many there are; plans lay no others. */
export function StockView({ machine }: { machine: string }) {
  const board = useAnswer("movesBoard", { machine }).value;
  if (!board?.ok) return <NotThere answer={board} />;
  const { stock } = board.value;
  return (
    <main class="narrow stock">
      <Heading words="Shims to pack with" of={board.value.machine} />
      <p>
        {stock.isUsual
          ? "You have not said which shims you have, so plans take a usual assortment. List yours, feeler leaves that you would leave in the joint among them, and a plan lays only what is in the drawer; none twice."
          : "What moves lay comes off this list, and what they take out comes back to it."}
      </p>
      <StockForm key={stock.words} machine={machine} stock={stock} />
      <p class="links">
        <Link to={machineAddress(machine, "moves")}>Back to the moves</Link>
      </p>
    </main>
  );
}

function StockForm({ machine, stock }: { machine: string; stock: MovesBoard["stock"] }) {
  const unit = leafUnit();
  const rows = useSignal(leafRows(leavesAtHand(stock), unit));
  const told = useSignal<readonly Told[]>([]);
  const said = useSignal("");
  const save = async (leavesMm: readonly number[] | null, words: string) => {
    told.value = await write(machine, { kind: "stock-set", leavesMm });
    if (told.value.length === 0) said.value = words;
  };
  const leaves = leavesOf(rows.value, unit);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (leaves !== null) void save(leaves, "The logbook has it.");
      }}
    >
      <LeafTable
        rows={rows}
        unit={unit}
        onEdit={() => {
          said.value = "";
        }}
      />
      <ToldList told={told.value} />
      {isOwner.value ? (
        <div class="button-row" role="status">
          <button type="submit" class="act" disabled={leaves === null}>
            These are my shims
          </button>
          <button type="button" onClick={() => void save([], "Plans pack nothing.")}>
            I have none
          </button>
          {!stock.isUsual && (
            <button type="button" onClick={() => void save(null, "Plans take the usual assortment.")}>
              A usual assortment
            </button>
          )}
          <span class="small">{said.value}</span>
        </div>
      ) : (
        <p class="small">Whoever owns the machine says which leaves there are.</p>
      )}
    </form>
  );
}
