import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { machineAddress } from "../../router.ts";
import type { NextThing } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { keptTogether, ThingList, timeAndTools } from "../moves/thing-list.tsx";
import type { StageProps } from "../stage-props.ts";

/** One card: what to do now, why, how long and with what; below it what comes then. */
export function NextView({ machine }: StageProps) {
  const quick = useAnswer("next", { machine, wait: false }).value;
  // Asking for it has a plan worked out where one has a say; the quick answer then has it too.
  useAnswer("next", { machine, wait: true });
  if (!quick?.ok) return <NotThere answer={quick} />;
  const page = quick.value;
  const isWorking = page.asksPlan && !page.planned;
  return (
    <main class="narrow next-view">
      <Heading words="Next" of={page.machine} />
      {isWorking ? (
        <section class="next-card">
          <p role="status">Working out the plan: what comes next depends on it.</p>
        </section>
      ) : page.now === null ? (
        <section class="held-back">
          <h2>Nothing to do now</h2>
          <p>{page.nothing}</p>
        </section>
      ) : (
        <NextCard machine={machine} thing={page.now} />
      )}
      {!isWorking && page.afterwards.length > 0 && (
        <section>
          <h2>And then</h2>
          {page.wouldPlan && !page.planned && (
            <p class="small second" role="status">
              Working out the plan.
            </p>
          )}
          <ThingList machine={machine} things={page.afterwards} />
        </section>
      )}
    </main>
  );
}

export function NextCard({ machine, thing }: { machine: string; thing: NextThing }) {
  return (
    <section class="next-card" aria-labelledby="next-title">
      <h2 id="next-title">{thing.title}</h2>
      <p>{keptTogether(thing.why)}</p>
      <p class="small second">{timeAndTools(thing)}</p>
      <Link class="button act" to={`${machineAddress(machine)}/${thing.path}`}>
        {thing.button}
      </Link>
    </section>
  );
}
