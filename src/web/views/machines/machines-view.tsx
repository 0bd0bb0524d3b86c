import { complete, isOwner } from "../../live/feed.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { Waiting } from "../../parts/waiting.tsx";
import { machineAddress } from "../../router.ts";
import type { AnswerTo } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";

type Listed = AnswerTo<"list">[number];

/** All machines, those in use first; what has been set aside stands below. */
export function MachinesView() {
  const list = useAnswer("list", {}).value ?? [];
  const byName = [...list].sort((a, b) => a.name.localeCompare(b.name));
  const inUse = byName.filter(({ setAside }) => setAside === null);
  const aside = byName.filter(({ setAside }) => setAside !== null);
  return (
    <main class="machines">
      <div class="title-row">
        <Heading words="Machines" />
        {isOwner.value && (
          <div class="button-row">
            <Link to="/take-in" class="button plain">
              From a file
            </Link>
            <Link to="/new" class={`button${inUse.length === 0 && complete.value ? " act" : ""}`}>
              New machine
            </Link>
          </div>
        )}
      </div>
      {list.length === 0 && (complete.value ? <Empty /> : <Waiting />)}
      <ul class="machine-list">
        {inUse.map((machine) => (
          <MachineRow key={machine.id} machine={machine} />
        ))}
      </ul>
      {aside.length > 0 && (
        <section>
          <h2>Set aside</h2>
          <ul class="plain-list">
            {aside.map(({ id, name, setAside }) => (
              <li key={id}>
                <Link to={machineAddress(id, "description")}>{name}</Link> <span class="second">{setAside}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
    </main>
  );
}

function Empty() {
  return (
    <p>
      No machine is here yet. Eight numbers from a tape describe one; the drawing beside the form shows at once whether
      it is yours.
    </p>
  );
}

function MachineRow({ machine: { id, name, demonstration } }: { machine: Listed }) {
  const card = useAnswer("card", { machine: id }).value;
  return (
    <li>
      <div class="small-plan">{card !== null && card.plan !== "" && <Drawing svg={card.plan} />}</div>
      <div class="machine-words">
        <h2>
          <Link to={machineAddress(id)}>{name}</Link>
        </h2>
        {demonstration && <p class="note">Invented, to look around in. It can be deleted under “Machine”.</p>}
        {card === null ? (
          <p class="second small">Working it out.</p>
        ) : (
          <>
            <p>{card.sentence}</p>
            <p class="second small">{card.measured}</p>
            {card.next && (
              <p class="small next-line">
                Next:{" "}
                <Link to={`${machineAddress(id)}/${card.next.path}`}>
                  {card.next.title}
                  {card.next.minutes !== null && `, ${card.next.minutes} minutes`}
                </Link>
              </p>
            )}
          </>
        )}
      </div>
    </li>
  );
}
