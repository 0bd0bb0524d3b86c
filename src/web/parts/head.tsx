import { machineAddress, route } from "../router.ts";
import { stages } from "../views/stages.ts";
import { useAnswer } from "../worker/use-answer.ts";
import { Link } from "./link.tsx";
import { SavedNote } from "./state-strip.tsx";

/** The head of every view but those at the machine. On a phone the stages are on the machine's own page. */
export function Head() {
  const now = route.value;
  const machine = now.view === "machine" ? now.machine : null;
  return (
    <header class="head">
      <Link to="/" class="brand" current={now.view === "machines"}>
        Kilter
      </Link>
      {machine !== null && now.view === "machine" && <MachineLinks machine={machine} stage={now.stage} />}
      <SavedNote />
      <Link to="/settings" class="settings" current={now.view === "settings"}>
        Settings
      </Link>
    </header>
  );
}

function MachineLinks({ machine, stage }: { machine: string; stage: string }) {
  const list = useAnswer("list", {}).value;
  const name = list?.find(({ id }) => id === machine)?.name ?? "";
  return (
    <>
      <Link to={machineAddress(machine)} class="machine-name" current={stage === "overview"}>
        {name === "" ? "Machine" : name}
      </Link>
      <nav aria-label="Stages of this machine">
        {stages
          .filter(({ id }) => id !== "overview")
          .map(({ id, title }) => (
            <Link key={id} to={machineAddress(machine, id)} current={stage === id}>
              {title}
            </Link>
          ))}
      </nav>
    </>
  );
}
