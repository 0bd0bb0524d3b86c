import { type Signal, useSignal } from "@preact/signals";
import { isOwner } from "../../live/feed.ts";
import { server } from "../../live/server.ts";
import { discard, record } from "../../outbox/outbox.ts";
import { TextField } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { goTo } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { DescriptionPage, Draft, Told } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import type { StageProps } from "../stage-props.ts";
import { LiveDrawing, useDrawn } from "./live-drawing.tsx";
import { coordinatesFrom, descriptionFrom, draftFrom } from "./machine-draft.ts";
import { AxesFields, DriveFields, EightFields } from "./machine-fields.tsx";

/** The machine as its owner describes it, and what can be done with the whole of it. */
export function DescriptionView({ machine }: StageProps) {
  const said = useSignal("");
  const answer = useAnswer("description", { machine }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  // What another device changes is shown anew; what is being typed here is not the same form any more then.
  return <DescriptionForm key={JSON.stringify(answer.value)} machine={machine} page={answer.value} said={said} />;
}

function DescriptionForm({ machine, page, said }: { machine: string; page: DescriptionPage; said: Signal<string> }) {
  const before = draftFrom(page.machine, page.coordinates);
  const draft = useSignal(before);
  const told = useSignal<readonly Told[]>([]);
  const description = descriptionFrom(draft.value);
  const drawnOf = useSignal(page.machine);
  if (description !== null && JSON.stringify(description) !== JSON.stringify(drawnOf.peek()))
    drawnOf.value = description;
  const coordinates = coordinatesFrom(draft.value);
  const drawn = useDrawn(drawnOf.value, coordinates);
  const view = useSignal<"plan" | "front">("plan");
  const isChanged = JSON.stringify(draft.value) !== JSON.stringify(before);
  const isWhole =
    description !== null && draft.value.name.trim() !== "" && (!draft.value.ownAxes || coordinates !== null);

  async function save() {
    if (description === null) return;
    const drafts: Draft[] = [];
    const { name: _, ...was } = descriptionFrom(before) ?? { name: "" };
    const { name, ...now } = description;
    if (JSON.stringify(was) !== JSON.stringify(now))
      drafts.push({ kind: "machine-described", machine: description } as Draft);
    else if (name !== page.machine.name) drafts.push({ kind: "machine-renamed", name } as Draft);
    if (coordinates !== null && JSON.stringify(coordinates) !== JSON.stringify(page.coordinates))
      drafts.push({ kind: "coordinates-set", ...coordinates } as Draft);
    if (coordinates === null && page.coordinates !== null)
      drafts.push({ kind: "coordinates-set", ...plainAxes } as Draft);
    if (drafts.length === 0) return;
    const answer = await ask("propose", { machine, drafts, by: preferences.value.by });
    told.value = answer.told;
    if (!answer.ok) return;
    await record(machine, answer.value);
    said.value = "The logbook has it. The description before stays in it too.";
  }

  return (
    <main class="new-machine">
      <Heading words="Machine" of={page.machine.name} />
      <div>
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void save();
          }}
        >
          <EightFields
            draft={draft.value}
            drawn={drawn}
            onChange={(next) => {
              draft.value = next;
            }}
            onView={(next) => {
              view.value = next;
            }}
          />
          <DriveFields
            draft={draft.value}
            onChange={(next) => {
              draft.value = next;
            }}
          />
          <AxesFields
            draft={draft.value}
            onChange={(next) => {
              draft.value = next;
            }}
          />
          <div role="alert">
            <ToldList told={told.value} />
          </div>
          <div class="button-row" role="status">
            <button type="submit" class={isChanged ? "act" : ""} disabled={!isChanged || !isWhole || !isOwner.value}>
              Save what has changed
            </button>
            <span class="small">{isOwner.value ? said.value : "What the machine is, only an owner changes."}</span>
          </div>
        </form>
        <Whole machine={machine} page={page} />
      </div>
      <LiveDrawing drawn={drawn} isWhole={description !== null} view={view.value} />
    </main>
  );
}

const plainAxes = {
  axes: {
    x: { named: "X", direction: 1, zeroMm: 0 },
    y: { named: "Y", direction: 1, zeroMm: 0 },
    z: { named: "Z", direction: 1, zeroMm: 0 },
  },
  tried: true,
};

/** Copied, taken away as a file, set aside, deleted. */
function Whole({ machine, page }: { machine: string; page: DescriptionPage }) {
  return (
    <section class="whole">
      <h2>The whole of it</h2>
      <div class="button-row">
        {isOwner.value && (
          <Link class="button" to={`/new?copy=${machine}`}>
            Copy the description
          </Link>
        )}
        <button type="button" onClick={() => void download(machine, page.machine.name)}>
          Take the logbook as a file
        </button>
      </div>
      {isOwner.value && page.setAside === null && <SetAside machine={machine} />}
      {isOwner.value && page.setAside !== null && <BringBack machine={machine} because={page.setAside} />}
      {isOwner.value && <Delete machine={machine} name={page.machine.name} />}
    </section>
  );
}

/** The logbook as it is on this device, unsent entries included. */
async function download(machine: string, name: string): Promise<void> {
  saveAs(await ask("logbook", { machine }), `${name.replace(/[^\p{L}\p{N}]+/gu, "-").toLowerCase()}.jsonl`);
}

export function saveAs(text: string, file: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: "application/jsonl" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = file;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

function SetAside({ machine }: { machine: string }) {
  const because = useSignal("");
  return (
    <details>
      <summary>Set it aside</summary>
      <p class="small second">It leaves the list and keeps everything. It can be brought back at any time.</p>
      <TextField
        label="Because"
        most={500}
        text={because.value}
        onText={(text) => {
          because.value = text;
        }}
      />
      <button
        type="button"
        disabled={because.value.trim() === ""}
        onClick={async () => {
          if (await propose(machine, { kind: "machine-set-aside", because: because.value.trim() } as Draft)) goTo("/");
        }}
      >
        Set it aside
      </button>
    </details>
  );
}

function BringBack({ machine, because }: { machine: string; because: string }) {
  return (
    <p>
      It is set aside: {because}{" "}
      <button type="button" onClick={() => void propose(machine, { kind: "machine-brought-back" } as Draft)}>
        Bring it back
      </button>
    </p>
  );
}

async function propose(machine: string, draft: Draft): Promise<boolean> {
  const answer = await ask("propose", { machine, drafts: [draft], by: preferences.value.by });
  if (answer.ok) await record(machine, answer.value);
  return answer.ok;
}

/** What cannot be undone asks for the name; the server writes the logbook into a file first. */
function Delete({ machine, name }: { machine: string; name: string }) {
  const typed = useSignal("");
  const problem = useSignal("");
  return (
    <details>
      <summary>Delete it</summary>
      <p class="small second">
        Readings, runs and history go with it. The server first writes the whole logbook into a file of its own. Type
        the name to show that this machine is meant: <b>{name}</b>
      </p>
      <TextField
        label="Its name"
        text={typed.value}
        problem={problem.value}
        onText={(text) => {
          typed.value = text;
          problem.value = "";
        }}
      />
      <button
        type="button"
        disabled={typed.value.trim() !== name}
        onClick={async () => {
          const reply = await server.deleteMachine(machine, typed.value.trim());
          if (!reply.ok && reply.status !== 404) {
            problem.value = reply.words;
            return;
          }
          await discard(machine);
          goTo("/");
          await ask("forget", { machine });
        }}
      >
        Delete {name}
      </button>
    </details>
  );
}
