import { useSignal } from "@preact/signals";
import { numberOrNull } from "../../../app/typed-number.ts";
import { isOwner } from "../../live/feed.ts";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { machineAddress } from "../../router.ts";
import type { Told } from "../../worker/protocol.ts";
import type { MovesBoard } from "../../worker/protocol-moves.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { write } from "./write.ts";

interface Row {
  readonly thickness: string;
  readonly count: string;
}

const THICKEST = 20;
const MOST = 100;

/** Leaves and shims to pack with, each thickness and how many there are; plans lay no others. */
export function StockView({ machine }: { machine: string }) {
  const board = useAnswer("movesBoard", { machine }).value;
  if (!board?.ok) return <NotThere answer={board} />;
  const { stock } = board.value;
  return (
    <main class="narrow stock">
      <Heading words="Leaves to pack with" of={board.value.machine} />
      <p>
        {stock.isUsual
          ? "None are listed, so plans take a usual assortment. List yours, and a plan lays only what is in the drawer; no leaf twice."
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
  const rows = useSignal<readonly Row[]>(
    stock.leaves.map(({ mm, count }) => ({ thickness: String(mm), count: String(count) })),
  );
  const told = useSignal<readonly Told[]>([]);
  const said = useSignal("");
  const set = (at: number, some: Partial<Row>) => {
    rows.value = rows.value.map((row, i) => (i === at ? { ...row, ...some } : row));
    said.value = "";
  };
  const save = async (leavesMm: readonly number[] | null, words: string) => {
    told.value = await write(machine, { kind: "stock-set", leavesMm });
    if (told.value.length === 0) said.value = words;
  };
  const leaves = leavesOf(rows.value);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (leaves !== null) void save(leaves, "The logbook has it.");
      }}
    >
      <table class="stock-table">
        <thead>
          <tr>
            <th scope="col">thickness, mm</th>
            <th scope="col">how many</th>
            <th scope="col">
              <span class="hide">take off the list</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.value.map((row, i) => (
            <tr key={i}>
              <td>
                <input
                  aria-label={`Thickness of leaf ${i + 1}, mm`}
                  inputMode="decimal"
                  autocomplete="off"
                  aria-invalid={thicknessOf(row) === null}
                  value={row.thickness}
                  onInput={(event) => set(i, { thickness: event.currentTarget.value })}
                />
              </td>
              <td>
                <input
                  aria-label={`How many of leaf ${i + 1}`}
                  inputMode="numeric"
                  autocomplete="off"
                  aria-invalid={countOf(row) === null}
                  value={row.count}
                  onInput={(event) => set(i, { count: event.currentTarget.value })}
                />
              </td>
              <td>
                <button
                  type="button"
                  class="plain small-button"
                  aria-label={`Take ${row.thickness} off the list`}
                  onClick={() => {
                    rows.value = rows.value.filter((_, at) => at !== i);
                    said.value = "";
                  }}
                >
                  off
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        <button
          type="button"
          onClick={() => {
            rows.value = [...rows.value, { thickness: "", count: "1" }];
            said.value = "";
          }}
        >
          One more thickness
        </button>
      </p>
      {leaves === null && (
        <p class="small">
          Every thickness is above 0 and at most {THICKEST} mm, every count a whole number from 1 to {MOST}.
        </p>
      )}
      <ToldList told={told.value} />
      {isOwner.value ? (
        <div class="button-row" role="status">
          <button type="submit" class="act" disabled={leaves === null}>
            These are my leaves
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

function thicknessOf({ thickness }: Row): number | null {
  const mm = numberOrNull(thickness);
  return mm !== null && mm > 0 && mm <= THICKEST ? mm : null;
}

function countOf({ count }: Row): number | null {
  const many = /^\d{1,3}$/.test(count.trim()) ? Number(count) : 0;
  return many >= 1 && many <= MOST ? many : null;
}

/** Null while something of it is no leaf. */
function leavesOf(rows: readonly Row[]): readonly number[] | null {
  const leaves: number[] = [];
  for (const row of rows) {
    const [mm, many] = [thicknessOf(row), countOf(row)];
    if (mm === null || many === null) return null;
    leaves.push(...Array.from({ length: many }, () => mm));
  }
  return leaves;
}
