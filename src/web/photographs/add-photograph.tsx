import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { useSignal } from "@preact/signals";
import { useEffect, useId, useRef } from "preact/hooks";
import type { Photograph } from "../../app/event-store.ts";
import { photographFromBytes } from "../../app/photograph.ts";
import { record } from "../outbox/outbox.ts";
import { ToldList } from "../parts/told.tsx";
import { preferences } from "../preferences.ts";
import { ask } from "../worker/client.ts";
import type { Draft, Told } from "../worker/protocol.ts";
import { toldFrom } from "../worker/told.ts";
import { keepPicture } from "./pictures.ts";
import { useOwnAddress } from "./use-own-address.ts";

interface Chosen {
  readonly name: string;
  readonly photograph: Photograph;
  /** What it shows, as it was typed when the view was left. */
  readonly note: string;
}

/** What was chosen and neither kept nor taken back, by machine and what it is about, for whoever leaves the view and returns. */
const leftOpen = new Map<string, Chosen>();

/**
 * A photograph for the logbook: chosen, looked at, said what it shows, and only then kept. What it tells of the place, the
 * time and the camera is taken out as soon as it is chosen.
 */
export function AddPhotograph({ machine, about = "" }: { machine: string; about?: string }) {
  const id = useId();
  const place = `${machine} ${about}`;
  const before = leftOpen.get(place);
  const isOpen = useSignal(before !== undefined);
  const note = useSignal(before?.note ?? about);
  const chosen = useSignal<Omit<Chosen, "note"> | null>(before ?? null);
  const busy = useSignal(false);
  const told = useSignal<readonly Told[]>([]);
  const said = useSignal(before === undefined ? "" : notYet);
  useEffect(() => () => void leaveOpen(place, chosen.value && { ...chosen.value, note: note.value }), [place]);
  const choose = useRef<HTMLInputElement>(null);

  async function take(file: File) {
    const photograph = photographFromBytes(new Uint8Array(await file.arrayBuffer()), (plain) =>
      bytesToHex(sha256(plain)),
    );
    told.value = toldFrom(photograph.diagnostics);
    said.value = "";
    if (!photograph.ok) return;
    chosen.value = { name: file.name.slice(0, 60) || "photograph", photograph: photograph.value };
    said.value = notYet;
  }

  /** The buttons go away with the picture: what comes next is to choose one. */
  function close(words: string) {
    choose.current?.focus();
    chosen.value = null;
    said.value = words;
  }

  async function keep({ name, photograph }: Omit<Chosen, "note">) {
    if (busy.value) return;
    busy.value = true;
    try {
      const text = note.value.trim();
      const draft = {
        kind: "photograph-added",
        name,
        sha256: photograph.sha256,
        mediaType: photograph.mediaType,
        bytes: photograph.bytes.length,
        ...(text !== "" && { note: text }),
      };
      const answer = await ask("propose", { machine, drafts: [draft as Draft], by: preferences.value.by });
      told.value = answer.told;
      if (!answer.ok) return;
      await keepPicture({ machine, ...photograph });
      await record(machine, answer.value);
      note.value = about;
      close("The photograph is in the logbook.");
    } finally {
      busy.value = false;
    }
  }

  return (
    <details
      class="add-photograph"
      open={isOpen.value}
      onToggle={(event) => {
        isOpen.value = event.currentTarget.open;
      }}
    >
      <summary>Add a photograph</summary>
      <div class="photograph-form">
        <label class="button file-button">
          <input
            ref={choose}
            type="file"
            class="hide"
            accept="image/jpeg,image/png,image/webp"
            aria-describedby={`${id}-kinds`}
            onChange={(event) => {
              const [file] = event.currentTarget.files ?? [];
              event.currentTarget.value = "";
              if (file) void take(file);
            }}
          />
          {chosen.value === null ? "Take or choose a picture" : "Take or choose another"}
        </label>
        <p class="note" id={`${id}-kinds`}>
          JPEG, PNG or WebP, at most 8 MB. Place, time and camera are taken out of it before it leaves this device.
        </p>
        {chosen.value !== null && <Preview photograph={chosen.value.photograph} />}
        <div role="status">{said.value !== "" && <p>{said.value}</p>}</div>
        <div role="alert">
          <ToldList told={told.value} />
        </div>
        <div class="form-field">
          <label for={id}>What it shows</label>
          <textarea
            id={id}
            rows={3}
            maxLength={300}
            value={note.value}
            aria-describedby={`${id}-hint`}
            onInput={(event) => {
              note.value = event.currentTarget.value;
            }}
          />
          <p class="note" id={`${id}-hint`}>
            It is read out to whoever does not see it. May stay empty.
          </p>
        </div>
        {chosen.value !== null && (
          <div class="button-row">
            <button type="button" disabled={busy.value} onClick={() => chosen.value && void keep(chosen.value)}>
              Put it in the logbook
            </button>
            <button
              type="button"
              class="plain"
              disabled={busy.value}
              onClick={() => close("Taken back: nothing of it is kept.")}
            >
              Take it back
            </button>
          </div>
        )}
      </div>
    </details>
  );
}

const notYet = "Chosen, and not in the logbook yet.";

function leaveOpen(place: string, chosen: Chosen | null): void {
  if (chosen === null) leftOpen.delete(place);
  else leftOpen.set(place, chosen);
}

function Preview({ photograph }: { photograph: Photograph }) {
  const address = useOwnAddress(photograph);
  return address === "" ? null : <img class="photograph-preview" src={address} alt="What has been chosen" />;
}
