import { signal } from "@preact/signals";
import { Fragment } from "preact";
import { useRef } from "preact/hooks";
import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { VerdictMark } from "../../parts/verdict.tsx";
import { goTo, machineAddress } from "../../router.ts";
import type { Concern, FindingRow, Findings } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import type { StageProps } from "../stage-props.ts";
import { FindingGrounds } from "./finding-grounds.tsx";

/** From here on there is room for a finding beside the list; below it opens in its place. */
const wide = typeof matchMedia === "undefined" ? null : matchMedia("(min-width: 1100px)");
const isWide = signal(wide?.matches ?? true);
wide?.addEventListener("change", () => {
  isWide.value = wide.matches;
});

const groups = [
  ["out", "Out"],
  ["not known yet", "Not known yet"],
  ["within", "Within"],
  [null, "Without a limit"],
] as const;

/** All findings by verdict; one of them opened. */
export function FindingsView({ machine, rest }: StageProps) {
  const answer = useAnswer("findings", { machine }).value;
  const opened = rest[0] ?? null;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  const row = page.rows.find(({ id }) => id === opened) ?? null;
  return (
    <main class={`findings${row !== null && isWide.value ? " with-aside" : ""}`}>
      <section class="finding-list">
        <Heading words={page.headline} of={page.machine} />
        <p class="small second lead-note">
          {page.readings}. Value ± U covers 95 of 100 cases. Every bar is drawn to its own limit. A chance is that of
          being within, if nothing slips.
        </p>
        <Gate machine={machine} page={page} />
        <Concerns machine={machine} concerns={page.concerns} />
        {groups.map(([verdict, title]) => (
          <FindingGroup
            key={title}
            title={title}
            rows={page.rows.filter((candidate) => candidate.verdict === verdict && !candidate.unread)}
            machine={machine}
            opened={opened}
          />
        ))}
        <FindingGroup
          title="Not known yet: the readings say next to nothing of these"
          rows={page.rows.filter(({ unread }) => unread)}
          machine={machine}
          opened={opened}
        />
      </section>
      {row !== null && isWide.value && (
        <aside class="finding-aside" aria-label={`Opened: ${row.title}`}>
          <FindingGrounds machine={machine} row={row} />
        </aside>
      )}
    </main>
  );
}

function Gate({ machine, page }: { machine: string; page: Findings }) {
  if (page.gatePassed) return null;
  return (
    <section class="held-back">
      <h2>The fit-to-measure round comes first</h2>
      <p>Until it is passed nothing geometric is called within: what is loose gives readings that mean nothing.</p>
      <ul class="plain-list">
        {page.gate.map(({ check, title, state, where }) => (
          <li key={check}>
            <Link to={machineAddress(machine, "measure", check)}>{title}</Link>{" "}
            <span class={state === "not passed" ? "out" : "second"}>{state}</span>
            {where.length > 0 && <span class="second"> ({where.join("; ")})</span>}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Concerns({ machine, concerns }: { machine: string; concerns: readonly Concern[] }) {
  if (concerns.length === 0) return null;
  return (
    <section class="held-back">
      <h2>Readings that do not hang together</h2>
      <ul class="concerns">
        {concerns.map(({ kind, head, text, run }) => (
          <li key={`${kind} ${head} ${text}`}>
            <b>{head}.</b> {text}{" "}
            {run !== null && (
              <Link to={`${machineAddress(machine, "readings")}?run=${run}`}>
                {kind === "misread" ? "Put it right" : "See its readings"}
              </Link>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface GroupProps {
  readonly title: string;
  readonly rows: readonly FindingRow[];
  readonly machine: string;
  readonly opened: string | null;
}

function FindingGroup({ title, rows, machine, opened }: GroupProps) {
  const table = useRef<HTMLTableElement>(null);
  if (rows.length === 0) return null;
  const hasBars = rows.some(({ bar }) => bar !== "");
  const hasLimits = rows.some(({ limit }) => limit !== "");
  const columns = 2 + (hasLimits ? 1 : 0) + (hasBars ? 2 : 0);
  return (
    <section>
      <h2>{title}</h2>
      <table
        class={`finding-table${hasBars ? " has-bars" : ""}`}
        ref={table}
        onKeyDown={(event) => moveBetweenRows(event, table.current)}
      >
        <thead>
          <tr>
            <th scope="col">Finding</th>
            <th scope="col" class="num value">
              value ± U
            </th>
            {hasLimits && (
              <th scope="col" class="num limit">
                limit
              </th>
            )}
            {hasBars && (
              <>
                <th scope="col" class="bar-head">
                  <span class="hide">Interval and limit</span>
                  <BarHead />
                </th>
                <th scope="col" class="verdict-cell">
                  it is
                </th>
              </>
            )}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => {
            const isOpen = row.id === opened;
            const to =
              isOpen && !isWide.value
                ? machineAddress(machine, "findings")
                : machineAddress(machine, "findings", row.id);
            return (
              <Fragment key={row.id}>
                <tr class={isOpen ? "opened" : ""} onClick={(event) => openFromRow(event, to)}>
                  <th scope="row">
                    <Link to={to} current={isOpen}>
                      {row.title}
                    </Link>{" "}
                    <span class="note">{row.symbol}</span>
                  </th>
                  <td class="num value">
                    {row.unread ? <span class="second">nothing to speak of</span> : `${row.value} ± ${row.uncertainty}`}
                    {row.limit === "" && !row.unread && ` ${row.unit}`}
                  </td>
                  {hasLimits && <td class="num limit">{row.limit !== "" && `${row.limit} ${row.unit}`}</td>}
                  {hasBars && (
                    <>
                      <td class="bar-cell">{row.bar !== "" && <Drawing svg={row.bar} />}</td>
                      <td class="verdict-cell">
                        {row.verdict && <VerdictMark verdict={row.verdict} />}
                        {row.chance !== "" && <span class="note nowrap"> {row.chance}</span>}
                        {row.heldBack && <span class="note"> held back</span>}
                      </td>
                    </>
                  )}
                </tr>
                {isOpen && !isWide.value && (
                  <tr class="opened grounds-row">
                    <td colSpan={columns}>
                      <FindingGrounds machine={machine} row={row} />
                    </td>
                  </tr>
                )}
              </Fragment>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}

function BarHead() {
  return (
    <svg class="dwg" viewBox="0 0 200 18" aria-hidden="true">
      <text x="54.5" y="13" text-anchor="middle">
        −limit
      </text>
      <text x="100" y="13" text-anchor="middle">
        0
      </text>
      <text x="145.5" y="13" text-anchor="middle">
        +limit
      </text>
    </svg>
  );
}

function openFromRow(event: MouseEvent, to: string) {
  if ((event.target as Element).closest("a, button, input, summary") === null && getSelection()?.isCollapsed !== false)
    goTo(to);
}

/** Arrows go from row to row; Enter opens, because the focus is on the row's link. */
function moveBetweenRows(event: KeyboardEvent, table: HTMLTableElement | null) {
  if (event.key !== "ArrowDown" && event.key !== "ArrowUp") return;
  if (!(event.target instanceof HTMLAnchorElement) || table === null) return;
  const links = [...document.querySelectorAll<HTMLAnchorElement>(".finding-table tbody th a")];
  const next = links[links.indexOf(event.target) + (event.key === "ArrowDown" ? 1 : -1)];
  if (!next) return;
  event.preventDefault();
  next.focus();
}
