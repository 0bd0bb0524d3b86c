import { connection } from "../live/connection.ts";
import { keepsOverReload, refusals, unsent } from "../outbox/outbox.ts";
import { fault, unfetched } from "../worker/client.ts";
import { Link } from "./link.tsx";

/** In the head, small: that everything is with the server. */
export function SavedNote() {
  const saved = connection.value === "here" && unsent.value.length === 0;
  return <span class="saved note">{saved ? "Everything is saved." : ""}</span>;
}

/** Under the head, only while there is something to know about saving. */
export function StateStrip() {
  const words = wordsOfState();
  return (
    <div class="strips">
      <p class={words === "" ? "hide" : "strip"} role="status">
        {words}
        {refusals.value.size > 0 && <Link to="/settings">Look at what was refused</Link>}
      </p>
      {fault.value !== "" && (
        <div class="strip" role="alert">
          <p>
            This is a slip of the program, not of yours: part of the page could not be worked out. What you have typed
            is kept. Load the page anew; if it happens again, tell whoever looks after Kilter what stands here.
          </p>
          <details>
            <summary>What happened inside</summary>
            <pre>{fault.value}</pre>
          </details>
        </div>
      )}
    </div>
  );
}

function wordsOfState(): string {
  const count = unsent.value.length;
  const kept = count === 1 ? "One entry is" : `${count} entries are`;
  if (refusals.value.size > 0)
    return `The server does not take ${count === 1 ? "one entry" : `${count} entries`}; nothing of it is lost. `;
  if (unfetched.value)
    return "A part of the page had not come when the server went away. Nothing is lost; load the page anew when it is there.";
  if (connection.value === "away") {
    if (count === 0)
      return "The server is not reached. You can go on: what you enter is kept on this device and sent later.";
    const hold = keepsOverReload.value
      ? "kept on this device and sent"
      : "kept as long as this page stays open, and sent";
    return `The server is not reached. ${kept} ${hold} as soon as it is there.`;
  }
  return "";
}
