import { complete } from "../live/feed.ts";
import type { Told } from "../worker/protocol.ts";
import { Heading } from "./heading.tsx";
import { Link } from "./link.tsx";
import { ToldList } from "./told.tsx";
import { Waiting } from "./waiting.tsx";

/** In the place of a view that has nothing to show: not yet, not any more, or because the logbook is refused. */
export function NotThere({ answer }: { answer: { readonly ok: boolean; readonly told: readonly Told[] } | null }) {
  if (answer === null || (answer.told.length === 0 && !complete.value)) {
    return (
      <main class="narrow">
        <Waiting />
      </main>
    );
  }
  return (
    <main class="narrow">
      <Heading words={answer.told.length === 0 ? "This machine is not here" : "This cannot be shown"} />
      {answer.told.length === 0 ? (
        <p>
          It has been deleted, or belongs to another server. <Link to="/">All machines</Link> are on the first page.
        </p>
      ) : (
        <ToldList told={answer.told} />
      )}
    </main>
  );
}
