import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { connection } from "../../live/connection.ts";
import { me } from "../../live/feed.ts";
import { type Device, type PairingOffer, server } from "../../live/server.ts";
import { discard, refusals, unsent } from "../../outbox/outbox.ts";
import { Choice, TextField } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";
import { prefer, preferences } from "../../preferences.ts";
import { saveAs } from "../description/description-view.tsx";
import { SquareCode } from "./square-code.tsx";

/** What the user of this device likes, what waits to be sent, and who else may come in. */
export function SettingsView() {
  const { theme, projection, unit, by } = preferences.value;
  return (
    <main class="narrow settings-view">
      <Heading words="Settings" />
      <p class="small second">They hold on this device only.</p>
      <Choice
        label="Sheet"
        value={theme}
        answers={[
          ["device", "as the device"],
          ["light", "light"],
          ["dark", "dark"],
        ]}
        onChoose={(chosen) => prefer({ theme: chosen })}
      />
      <Choice
        label="Drawings in three views"
        hint="Third angle: what is seen from above stands above. First angle: it stands below."
        value={projection}
        answers={[
          ["third", "third angle"],
          ["first", "first angle"],
        ]}
        onChoose={(chosen) => prefer({ projection: chosen })}
      />
      <Choice
        label="Readings are typed in"
        hint="Only where a tool shows lengths. Any reading takes another unit if it is typed with it. Findings are told in mm and mm/m."
        value={unit}
        answers={[
          ["tool", "what the tool is marked in"],
          ["mm", "mm"],
          ["in", "inches"],
          ["thou", "thousandths of an inch"],
        ]}
        onChoose={(chosen) => prefer({ unit: chosen })}
      />
      <TextField
        label="Your name"
        hint="Goes with every entry made on this device; may stay empty."
        most={60}
        text={by}
        onText={(text) => prefer({ by: text })}
      />
      <Waiting />
      {me.value?.role === "owner" && me.value.shared && <Devices />}
    </main>
  );
}

/** What this device still holds alone. */
function Waiting() {
  const count = unsent.value.length;
  const machines = [...new Set(unsent.value.map(({ machine }) => machine))];
  return (
    <section>
      <h2>Saving</h2>
      <p role="status">
        {count === 0
          ? connection.value === "here"
            ? "Everything is with the server."
            : "The server is not reached; nothing waits to be sent."
          : `${count === 1 ? "One entry waits" : `${count} entries wait`} on this device to be sent.`}
      </p>
      {machines.map((machine) => {
        const words = refusals.value.get(machine);
        if (words === undefined) return null;
        const entries = unsent.value.filter((entry) => entry.machine === machine);
        return (
          <div class="held-back" key={machine}>
            <p>
              The server does not take {entries.length === 1 ? "this entry" : `these ${entries.length} entries`}:{" "}
              {words}
            </p>
            <div class="button-row">
              <button
                type="button"
                onClick={() =>
                  saveAs(entries.map(({ event }) => `${JSON.stringify(event)}\n`).join(""), "not-taken.jsonl")
                }
              >
                Keep them as a file
              </button>
              <button type="button" onClick={() => void discard(machine)}>
                Give them up
              </button>
            </div>
          </div>
        );
      })}
    </section>
  );
}

/** Devices that have been paired; the owner can send one away. */
function Devices() {
  const devices = useSignal<readonly Device[]>([]);
  const code = useSignal<PairingOffer | null>(null);
  const offer = async (role: "owner" | "helper") => {
    const reply = await server.offerPairing(role);
    if (reply.ok) code.value = reply.body;
  };
  const look = async () => {
    const reply = await server.devices();
    if (reply.ok) devices.value = reply.body;
  };
  useEffect(() => {
    void look();
  }, []);
  return (
    <section>
      <h2>Paired devices</h2>
      <p class="small second">A helper may read, measure and note; an owner may do everything.</p>
      <div class="button-row">
        <button type="button" onClick={() => void offer("helper")}>
          A code for a helper
        </button>
        <button type="button" onClick={() => void offer("owner")}>
          A code for an owner
        </button>
      </div>
      <p role="status">
        {code.value !== null && (
          <>
            Photograph the square with the device, or open {code.value.addresses.join(" or ")} there and type{" "}
            <b class="big">{code.value.code}</b>. It works once, until{" "}
            {new Date(code.value.until).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" })}.
          </>
        )}
      </p>
      {code.value !== null && (
        <SquareCode text={code.value.link} name="The address and the pairing code as a square code" />
      )}
      {devices.value.length === 0 ? (
        <p class="second">None yet.</p>
      ) : (
        <ul class="plain-list">
          {devices.value.map((device) => (
            <li key={device.id}>
              {device.name || "Without a name"}{" "}
              <span class="second">
                {device.role}, {device.isThis ? "this device" : `seen ${dayOf(device.seen)}`}
              </span>{" "}
              <button
                type="button"
                class="plain"
                onClick={async () => {
                  await server.dismiss(device.id);
                  await look();
                }}
              >
                Send it away
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function dayOf(time: string): string {
  return new Date(time).toLocaleDateString([], { day: "numeric", month: "long", year: "numeric" });
}
