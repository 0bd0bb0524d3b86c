import { Drawing } from "../../parts/drawing.tsx";
import { Link } from "../../parts/link.tsx";
import { VerdictMark } from "../../parts/verdict.tsx";
import { machineAddress } from "../../router.ts";
import type { StatedDemandPage, WorkBoard, WorkDemand, WorkPage } from "../../worker/protocol-work.ts";
import { DemandGroundsPanel, TakeUpAgain } from "./demand-grounds.tsx";

interface Props {
  readonly machine: string;
  readonly board: WorkBoard;
  /** The kind of work that is looked at beside the logbook's own. */
  readonly kind: string | null;
  readonly page: WorkPage | null;
  readonly opened: string | null;
  readonly query: string;
}

/** Everything that is asked, with its limit and its chance; one of them opened. */
export function DemandList({ machine, board, kind, page, opened, query }: Props) {
  const dropped = kind === null ? board.demands.filter((demand) => demand.dropped) : [];
  const stated = (id: string) => (kind === null ? (board.demands.find((demand) => demand.id === id) ?? null) : null);
  return (
    <section class="work-asks" aria-labelledby="work-asks">
      <h2 id="work-asks">What it asks</h2>
      {page?.demands.length === 0 && (
        <p>Nothing is asked of the machine yet: choose a kind of work, or ask for something of your own.</p>
      )}
      <ul class="work-demands">
        {(page?.demands ?? []).map((demand) => (
          <li key={demand.id}>
            <DemandLine
              demand={demand}
              own={stated(demand.id)}
              isOpen={demand.id === opened}
              moved={page?.moved ?? false}
              to={machineAddress(machine, "work", ...(demand.id === opened ? [] : [demand.id])) + query}
            />
            {demand.id === opened && (
              <DemandGroundsPanel machine={machine} kind={kind} demand={demand} stated={stated(demand.id)} />
            )}
          </li>
        ))}
      </ul>
      <p class="small second">An interval covers 95 cases of 100, and the next homing is counted in.</p>
      {dropped.length > 0 && <TakeUpAgain machine={machine} dropped={dropped} />}
    </section>
  );
}

interface LineProps {
  readonly demand: WorkDemand;
  readonly own: StatedDemandPage | null;
  readonly isOpen: boolean;
  /** Whether the plan moves something: else what comes after it is what is now. */
  readonly moved: boolean;
  readonly to: string;
}

function DemandLine({ demand, own, isOpen, moved, to }: LineProps) {
  const { title, unit, limit, value, interval, chance, verdict, unread, after, bar } = demand;
  return (
    <article class={`work-demand${isOpen ? " opened" : ""}`}>
      <h3>
        <Link to={to}>{title}</Link>
      </h3>
      <p class="demand-value">
        <b>{unread ? "Not read yet" : `${value} ${unit}`}</b>{" "}
        <span class="second">
          {unread ? `usual: ${interval} ${unit}` : interval}; at most {limit}
          {own !== null && own.usual !== "" && ` (your own limit; usual: ${own.usual})`}
          {own?.name != null && " (asked by you)"}
        </span>
      </p>
      <Drawing svg={bar} />
      <p class="demand-verdict">
        <VerdictMark verdict={verdict} /> <span class="second small">{chanceInWords(chance)}</span>
      </p>
      {after !== null && moved && (
        <p class="demand-after small">
          After the plan{" "}
          <b>
            {after.value} {unit}
          </b>{" "}
          <span class="second">{after.interval}</span> <VerdictMark verdict={after.verdict} />{" "}
          <span class="second">{chanceInWords(after.chance)}</span>
        </p>
      )}
    </article>
  );
}

function chanceInWords(chance: string): string {
  return chance === "" ? "" : `chance ${chance}`;
}
