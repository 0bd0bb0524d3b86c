import { connection } from "./live/connection.ts";
import { Head } from "./parts/head.tsx";
import { Heading } from "./parts/heading.tsx";
import { Link } from "./parts/link.tsx";
import { Loaded, type Loads } from "./parts/loaded.tsx";
import { StateStrip } from "./parts/state-strip.tsx";
import { route } from "./router.ts";
import { MachinesView } from "./views/machines/machines-view.tsx";
import { stages } from "./views/stages.ts";

const pairing: Loads<object> = async () => (await import("./views/settings/pair-view.tsx")).PairView;
const settings: Loads<object> = async () => (await import("./views/settings/settings-view.tsx")).SettingsView;
const takeIn: Loads<object> = async () => (await import("./views/machines/take-in-view.tsx")).TakeInView;
const newMachine: Loads<{ copyOf: string | null }> = async () =>
  (await import("./views/new-machine/new-machine-view.tsx")).NewMachineView;

/** Fetches every view there is, so that the page goes on whole when the network goes. */
export function fetchViews(): void {
  for (const load of [...stages.map((stage) => stage.load), settings, takeIn, newMachine]) void load().catch(() => {});
}

/** The page: head, what is to be said about saving, and the view that the address asks for. */
export function App() {
  if (connection.value === "stranger") return <Loaded of={pairing} props={{}} />;
  return (
    <>
      <a class="skip" href="#content">
        To the content
      </a>
      {!isAtTheMachine() && <Head />}
      <StateStrip />
      <div id="content" tabIndex={-1}>
        <View />
      </div>
    </>
  );
}

/** While readings are taken or something is moved nothing stands in the way of it. */
function isAtTheMachine(): boolean {
  const now = route.value;
  if (now.view !== "machine") return false;
  if (now.stage === "moves") return now.rest[0]?.includes(".") ?? false;
  return now.stage === "measure" && ["take", "run"].includes(now.rest[1] ?? "");
}

function View() {
  const now = route.value;
  switch (now.view) {
    case "machines":
      return <MachinesView />;
    case "new":
      return <Loaded of={newMachine} props={{ copyOf: now.copyOf }} key={`new ${now.copyOf ?? ""}`} />;
    case "take-in":
      return <Loaded of={takeIn} props={{}} key="take-in" />;
    case "settings":
      return <Loaded of={settings} props={{}} key="settings" />;
    case "machine": {
      const stage = stages.find(({ id }) => id === now.stage);
      if (!stage) return <Nowhere />;
      const { machine, rest, query } = now;
      return <Loaded of={stage.load} props={{ machine, rest, query }} key={`${machine} ${now.stage}`} />;
    }
    case "nowhere":
      return <Nowhere />;
  }
}

function Nowhere() {
  return (
    <main class="narrow">
      <Heading words="There is nothing at this address" />
      <p>
        It may have been typed differently, or belong to a machine that is gone. <Link to="/">All machines</Link> are
        listed on the first page.
      </p>
    </main>
  );
}
