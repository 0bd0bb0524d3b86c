import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { useSignal } from "@preact/signals";
import { photographFromBytes } from "../../app/photograph.ts";
import { record } from "../outbox/outbox.ts";
import { TextField } from "../parts/fields.tsx";
import { ToldList } from "../parts/told.tsx";
import { preferences } from "../preferences.ts";
import { ask } from "../worker/client.ts";
import type { Draft, Told } from "../worker/protocol.ts";
import { toldFrom } from "../worker/told.ts";
import { keepPicture } from "./pictures.ts";

/** A photograph for the logbook. What it tells of the place, the time and the camera is taken out before it is kept. */
export function AddPhotograph({ machine, about = "" }: { machine: string; about?: string }) {
  const note = useSignal(about);
  const told = useSignal<readonly Told[]>([]);
  const said = useSignal("");

  async function take(file: File) {
    said.value = "";
    const bytes = new Uint8Array(await file.arrayBuffer());
    const photograph = photographFromBytes(bytes, (plain) => bytesToHex(sha256(plain)));
    told.value = toldFrom(photograph.diagnostics);
    if (!photograph.ok) return;
    const { sha256: checksum, mediaType } = photograph.value;
    const text = note.value.trim();
    const draft = {
      kind: "photograph-added",
      name: file.name.slice(0, 60) || "photograph",
      sha256: checksum,
      mediaType,
      bytes: photograph.value.bytes.length,
      ...(text !== "" && { note: text }),
    };
    const answer = await ask("propose", { machine, drafts: [draft as Draft], by: preferences.value.by });
    told.value = answer.told;
    if (!answer.ok) return;
    await keepPicture({ machine, ...photograph.value });
    await record(machine, answer.value);
    said.value = "The photograph is in the logbook.";
    note.value = about;
  }

  return (
    <details class="add-photograph">
      <summary>Add a photograph</summary>
      <TextField
        label="What it shows"
        hint="It is read out to whoever does not see it."
        most={300}
        text={note.value}
        onText={(text) => {
          note.value = text;
        }}
      />
      <label class="button file-button">
        <input
          type="file"
          class="hide"
          accept="image/jpeg,image/png,image/webp"
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? [];
            event.currentTarget.value = "";
            if (file) void take(file);
          }}
        />
        Take or choose a picture
      </label>
      <p class="note">
        JPEG, PNG or WebP, at most 8 MB. Place, time and camera are taken out of it before it leaves this device.
      </p>
      <div role="status">{said.value !== "" && <p>{said.value}</p>}</div>
      <div role="alert">
        <ToldList told={told.value} />
      </div>
    </details>
  );
}
