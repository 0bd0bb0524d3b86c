import { type Signal, useSignal } from "@preact/signals";
import { record } from "../../outbox/outbox.ts";
import { Heading } from "../../parts/heading.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { Told } from "../../worker/protocol.ts";
import type { ToolRow, ToolsPage } from "../../worker/protocol-tools.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import type { StageProps } from "../stage-props.ts";
import { AddTool, CorrectTool } from "./tool-form.tsx";

/** What is measured with and against, what is known of each, and what the readings have found out. */
export function ToolsView({ machine }: StageProps) {
  const answer = useAnswer("tools", { machine }).value;
  const corrected = useSignal<string | null>(null);
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  const away = [...page.instruments, ...page.objects].filter(({ putAway }) => putAway !== null);
  const list = (title: string, tools: readonly ToolRow[]) => (
    <ToolList title={title} tools={tools} machine={machine} page={page} corrected={corrected} />
  );
  return (
    <main class="tools">
      <Heading words="Tools" />
      <p class="small second">
        Instruments read; objects are what is read against: a square, a block, a straightedge. Both may be wrong
        themselves, and the fit reckons with it.
      </p>
      {list(
        "Instruments",
        page.instruments.filter(({ putAway }) => putAway === null),
      )}
      {list(
        "Objects",
        page.objects.filter(({ putAway }) => putAway === null),
      )}
      {away.length > 0 && list("Put away", away)}
      <AddTool machine={machine} page={page} />
    </main>
  );
}

interface ToolListProps {
  readonly title: string;
  readonly tools: readonly ToolRow[];
  readonly machine: string;
  readonly page: ToolsPage;
  /** Id of the tool whose statements are open. */
  readonly corrected: Signal<string | null>;
}

function ToolList({ title, tools, machine, page, corrected }: ToolListProps) {
  return (
    <section>
      <h2>{title}</h2>
      {tools.length === 0 ? (
        <p class="second">None has been added yet.</p>
      ) : (
        <ul class="tool-list">
          {tools.map((tool) => (
            <li key={tool.id}>
              <h3>
                {tool.name} <span class="note">{called(tool)}</span>
              </h3>
              <p class="small second">{tool.figures.join("; ")}</p>
              {tool.learnt.map((line) => (
                <p class="small" key={line}>
                  The readings say: {line}.
                </p>
              ))}
              {tool.putAway !== null && <p class="small">Put away: {tool.putAway}</p>}
              {corrected.value === tool.id ? (
                <CorrectTool
                  machine={machine}
                  page={page}
                  tool={tool}
                  onClose={() => {
                    corrected.value = null;
                  }}
                />
              ) : (
                <ToolButtons machine={machine} tool={tool} corrected={corrected} />
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** Its short name and its family, each where the name or the other does not say it already. */
function called({ id, name, family }: ToolRow): string {
  return [...new Set([id, family])].filter((word) => word !== name).join(", ");
}

/** A correction counts for all readings; what is put away is offered for no new ones. */
function ToolButtons({ machine, tool, corrected }: Pick<ToolListProps, "machine" | "corrected"> & { tool: ToolRow }) {
  const told = useSignal<readonly Told[]>([]);
  const isAway = tool.putAway !== null;
  async function put() {
    const because = isAway ? null : "Not used any more.";
    const answer = await ask("putAway", { machine, tool: tool.id, because, by: preferences.value.by });
    told.value = answer.told;
    if (answer.ok) await record(machine, answer.value);
  }
  return (
    <>
      <div class="button-row not-printed">
        <button
          type="button"
          class="plain small-button"
          aria-label={`Correct: ${tool.name}`}
          onClick={() => {
            corrected.value = tool.id;
          }}
        >
          Correct
        </button>
        <button
          type="button"
          class="plain small-button"
          aria-label={`${isAway ? "Take out again" : "Put away"}: ${tool.name}`}
          onClick={() => void put()}
        >
          {isAway ? "Take out again" : "Put away"}
        </button>
      </div>
      <ToldList told={told.value} />
    </>
  );
}
