import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { catchUp } from "../../live/feed.ts";
import { server } from "../../live/server.ts";
import { TextField } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";

/**
 * A device that the server does not know: it asks once for the code that the server shows. Whoever photographed the
 * square code has it in the address, behind the hash, from where it is taken away: it works only once.
 */
export function PairView() {
  const code = useSignal(codeIn(location.hash));
  useEffect(() => {
    if (location.hash !== "") history.replaceState(history.state, "", location.pathname + location.search);
  }, []);
  const name = useSignal("");
  const problem = useSignal("");
  return (
    <main class="narrow">
      <Heading words="Pair this device" />
      <p>
        The server shows a code where it was started with sharing, and an owner's page under Settings. It works once,
        for ten minutes.
      </p>
      <form
        onSubmit={async (event) => {
          event.preventDefault();
          const reply = await server.pair(code.value.trim(), name.value.trim());
          if (reply.ok) await catchUp();
          else problem.value = reply.words;
        }}
      >
        <TextField
          label="Code"
          most={40}
          text={code.value}
          problem={problem.value}
          onText={(text) => {
            code.value = text;
            problem.value = "";
          }}
        />
        <TextField
          label="What this device is called"
          hint="Stands in the list of paired devices; may stay empty."
          most={60}
          text={name.value}
          onText={(text) => {
            name.value = text;
          }}
        />
        <button type="submit" class="act" disabled={code.value.trim() === ""}>
          Pair
        </button>
      </form>
    </main>
  );
}

function codeIn(hash: string): string {
  return /^#pair=([\w-]{1,40})$/.exec(hash)?.[1] ?? "";
}
