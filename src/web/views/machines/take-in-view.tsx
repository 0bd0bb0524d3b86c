import { useSignal } from "@preact/signals";
import { catchUp, isOwner } from "../../live/feed.ts";
import { type Imported, server } from "../../live/server.ts";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { ToldList } from "../../parts/told.tsx";
import { machineAddress } from "../../router.ts";
import type { Told } from "../../worker/protocol.ts";
import { toldFrom } from "../../worker/told.ts";

/** What became of the file that was taken in last. */
interface Taken {
  readonly words: string;
  /** The machine to go to; null where nothing was taken. */
  readonly id: string | null;
  readonly told: readonly Told[];
}

/** A logbook that lies in a file becomes a machine here, or adds to the machine whose logbook it is. */
export function TakeInView() {
  const busy = useSignal(false);
  const taken = useSignal<Taken | null>(null);

  async function take(file: File) {
    busy.value = true;
    taken.value = null;
    const reply = await server.importLogbook(await file.text());
    if (reply.ok) await catchUp();
    taken.value = reply.ok
      ? { words: becameOf(reply.body), id: reply.body.id, told: toldFrom(reply.body.diagnostics) }
      : { words: `${file.name}: ${reply.error}`, id: null, told: toldFrom(reply.diagnostics) };
    busy.value = false;
  }

  if (!isOwner.value) {
    return (
      <main class="narrow">
        <Heading words="A logbook from a file" />
        <p>Taking machines in is the owner's: this device is paired as a helper.</p>
      </main>
    );
  }
  return (
    <main class="narrow settings-view">
      <Heading words="A logbook from a file" />
      <p>
        The file becomes a machine of its own. Where its machine is here already, what is new in it is added to that;
        the same file twice changes nothing.
      </p>
      <label class="button act file-button">
        <input
          type="file"
          class="hide"
          accept=".jsonl,.txt,application/jsonl"
          disabled={busy.value}
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? [];
            event.currentTarget.value = "";
            if (file) void take(file);
          }}
        />
        {busy.value ? "It is being read" : "Choose the file"}
      </label>
      <div role="status">
        {taken.value !== null && (
          <>
            <p>
              {taken.value.words}{" "}
              {taken.value.id !== null && <Link to={machineAddress(taken.value.id)}>Open the machine</Link>}
            </p>
            <ToldList told={taken.value.told} />
          </>
        )}
      </div>
    </main>
  );
}

function becameOf({ added, passedOver }: Imported): string {
  if (added === 0) return "This logbook is here already, and nothing has changed.";
  const entries = added === 1 ? "one entry" : `${added} entries`;
  if (passedOver === 0) return `Taken in, with ${entries}.`;
  return `Its machine is here already; ${entries} of the file ${added === 1 ? "was" : "were"} new and stand there now.`;
}
