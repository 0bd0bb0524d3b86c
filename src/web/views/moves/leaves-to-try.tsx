import { useSignal } from "@preact/signals";
import { leafRows, leavesOf } from "./leaf-rows.ts";
import { LeafTable, leafUnit } from "./leaf-table.tsx";

interface Props {
  /** What the list starts from. */
  readonly leavesMm: readonly number[];
  readonly onTry: (leavesMm: readonly number[]) => void;
}

/** Leaves that the plan is to lay for once, and that nobody need have: before they are bought, say. */
export function LeavesToTry({ leavesMm, onTry }: Props) {
  const unit = leafUnit();
  const rows = useSignal(leafRows(leavesMm, unit));
  const leaves = leavesOf(rows.value, unit);
  return (
    <form
      class="leaves-to-try"
      onSubmit={(event) => {
        event.preventDefault();
        if (leaves !== null) onTry(leaves);
      }}
    >
      <LeafTable rows={rows} unit={unit} onEdit={() => {}} />
      <div class="button-row">
        <button type="submit" disabled={leaves === null}>
          Try it with these
        </button>
      </div>
    </form>
  );
}
