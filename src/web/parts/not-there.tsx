import { complete } from "../live/feed.ts";
import { route } from "../router.ts";
import type { Told } from "../worker/protocol.ts";
import { useAnswer } from "../worker/use-answer.ts";
import { Heading } from "./heading.tsx";
import { Link } from "./link.tsx";
import { ToldList } from "./told.tsx";
import { Waiting } from "./waiting.tsx";

/** In the place of a view that has nothing to show: not yet, not any more, or because the logbook is refused. */
export function NotThere({ answer }: { answer: { readonly ok: boolean; readonly told: readonly Told[] } | null }) {
  const list = useAnswer("list", {}).value;
  const now = route.value;
  const isListed = now.view === "machine" && (list?.some(({ id }) => id === now.machine) ?? false);
  if (answer !== null && answer.told.length > 0) {
    return (
      <main class="narrow">
        <Heading words="This cannot be shown" />
        <ToldList told={answer.told} />
      </main>
    );
  }
  // An answer that knows nothing of the machine may be older than the machine's coming.
  if (answer === null || !complete.value || isListed) {
    return (
      <main class="narrow">
        <Waiting />
      </main>
    );
  }
  return (
    <main class="narrow comes-late">
      <Heading words="This machine is not here" />
      <p>
        It has been deleted, or belongs to another server. <Link to="/">All machines</Link> are on the first page.
      </p>
    </main>
  );
}
