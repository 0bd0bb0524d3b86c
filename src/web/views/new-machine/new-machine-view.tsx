import { useSignal } from "@preact/signals";
import { isOwner } from "../../live/feed.ts";
import { record } from "../../outbox/outbox.ts";
import { Heading } from "../../parts/heading.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { goTo, machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { Draft, Told } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { LiveDrawing, useDrawn } from "../description/live-drawing.tsx";
import {
  coordinatesFrom,
  descriptionFrom,
  draftFrom,
  type MachineDraft,
  usualDraft,
} from "../description/machine-draft.ts";
import { AxesFields, DriveFields, EightFields } from "../description/machine-fields.tsx";
import { OwnedTools, usuallyOwned } from "./owned-tools.tsx";

const NO_NAME = "It has no name yet. Give it one, so that it can be told from others.";

/** A machine out of eight numbers, with the drawing alive beside them. */
export function NewMachineView({ copyOf }: { copyOf: string | null }) {
  const original = useAnswer("description", { machine: copyOf ?? "" }).value;
  if (!isOwner.value) {
    return (
      <main class="narrow">
        <Heading words="New machine" />
        <p>Describing a machine is the owner's: this device is paired as a helper.</p>
      </main>
    );
  }
  if (copyOf !== null && !original?.ok) return <NotThere answer={original} />;
  const start =
    copyOf !== null && original?.ok
      ? copied(draftFrom(original.value.machine, original.value.coordinates))
      : usualDraft;
  return <NewMachineForm start={start} isCopy={copyOf !== null} />;
}

function copied(draft: MachineDraft): MachineDraft {
  return { ...draft, name: `${draft.name}, copy` };
}

function NewMachineForm({ start, isCopy }: { start: MachineDraft; isCopy: boolean }) {
  const draft = useSignal(start);
  const owned = useSignal<ReadonlySet<string>>(new Set(usuallyOwned));
  const told = useSignal<readonly Told[]>([]);
  const lacking = useSignal("");
  const description = descriptionFrom(draft.value);
  const drawnOf = useSignal(descriptionFrom(start) ?? (descriptionFrom(usualDraft) as NonNullable<typeof description>));
  if (description !== null && JSON.stringify(description) !== JSON.stringify(drawnOf.peek()))
    drawnOf.value = description;
  const coordinates = coordinatesFrom(draft.value);
  const drawn = useDrawn(drawnOf.value, coordinates);
  const view = useSignal<"plan" | "front">("plan");
  const change = (next: MachineDraft) => {
    draft.value = next;
    told.value = [];
    lacking.value = "";
  };

  async function begin() {
    if (draft.value.name.trim() === "") {
      lacking.value = NO_NAME;
      // The name is the first field, a long way above the button.
      document.querySelector<HTMLInputElement>(".new-machine form input")?.focus();
      return;
    }
    if (description === null) {
      lacking.value = "A number is missing or cannot be. It is marked in the form.";
      return;
    }
    if (draft.value.ownAxes && coordinates === null) {
      lacking.value = "Your axes are not whole. Each needs a letter and a zero.";
      return;
    }
    const drafts: Draft[] = [{ kind: "machine-described", machine: description } as Draft];
    if (coordinates) drafts.push({ kind: "coordinates-set", ...coordinates } as Draft);
    for (const kind of owned.value) drafts.push(toolDraft(kind));
    const answer = await ask("begin", { drafts, by: preferences.value.by });
    told.value = answer.told;
    if (!answer.ok) return;
    const id = newMachineId();
    await record(id, answer.value, true);
    goTo(machineAddress(id));
  }

  return (
    <main class="new-machine">
      <Heading words={isCopy ? "New machine from a copy" : "New machine"} />
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void begin();
        }}
      >
        <EightFields
          draft={draft.value}
          drawn={drawn}
          nameProblem={lacking.value === NO_NAME ? NO_NAME : ""}
          onChange={change}
          onView={(next) => {
            view.value = next;
          }}
        />
        <AxesFields draft={draft.value} onChange={change} />
        <DriveFields draft={draft.value} onChange={change} />
        <details>
          <summary>What you measure with: {owned.value.size} ticked</summary>
          <OwnedTools
            owned={owned.value}
            onChange={(next) => {
              owned.value = next;
            }}
          />
        </details>
        <div role="alert">
          {lacking.value !== "" && lacking.value !== NO_NAME && <p class="wrong">{lacking.value}</p>}
          <ToldList told={told.value} />
        </div>
        <button type="submit" class="act">
          Begin its logbook
        </button>
      </form>
      <LiveDrawing drawn={drawn} isWhole={description !== null} view={view.value} />
    </main>
  );
}

function toolDraft(kind: string): Draft {
  const [what, id] = kind.split(" ");
  return (
    what === "object"
      ? { kind: "object-added", object: { id, kind: id } }
      : { kind: "instrument-added", instrument: { id, kind: id } }
  ) as Draft;
}

/** 128 random bits: two devices never give two machines one id. */
function newMachineId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
