import { useSignal } from "@preact/signals";
import { record } from "../../outbox/outbox.ts";
import { Select, TextField } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { Draft, Told, ToolKind, ToolsPage } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import type { StageProps } from "../stage-props.ts";

/** What is measured with and against, what is known of each, and what the readings have found out. */
export function ToolsView({ machine }: StageProps) {
  const answer = useAnswer("tools", { machine }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  return (
    <main class="tools">
      <Heading words="Tools" />
      <p class="small second">
        Instruments read; objects are what is read against: a square, a block, a straightedge. Both may be wrong
        themselves, and the fit reckons with it.
      </p>
      <ToolList title="Instruments" tools={page.instruments} />
      <ToolList title="Objects" tools={page.objects} />
      <AddTool machine={machine} page={page} />
    </main>
  );
}

function ToolList({ title, tools }: { title: string; tools: ToolsPage["instruments"] }) {
  return (
    <section>
      <h2>{title}</h2>
      {tools.length === 0 ? (
        <p class="second">None has been added yet.</p>
      ) : (
        <ul class="tool-list">
          {tools.map(({ id, name, family, figures, learnt }) => (
            <li key={id}>
              <h3>
                {name} <span class="note">{id === name ? family : `${id}, ${family}`}</span>
              </h3>
              <p class="small second">{figures.join("; ")}</p>
              {learnt.map((line) => (
                <p class="small" key={line}>
                  The readings say: {line}.
                </p>
              ))}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** One that its owner has, with the figures in which it differs from its kind. */
function AddTool({ machine, page }: { machine: string; page: ToolsPage }) {
  const kinds = [
    ...page.instrumentKinds.map((kind) => ({ ...kind, what: "instrument" as const })),
    ...page.objectKinds.map((kind) => ({ ...kind, what: "object" as const })),
  ];
  const kind = useSignal(kinds[0]?.id ?? "");
  const name = useSignal("");
  const serial = useSignal("");
  const figures = useSignal<Readonly<Record<string, string>>>({});
  const told = useSignal<readonly Told[]>([]);
  const said = useSignal("");
  const chosen = kinds.find(({ id }) => id === kind.value) ?? kinds[0];

  async function add() {
    const taken = new Set([...page.instruments, ...page.objects].map(({ id }) => id));
    const draft = toolDraft(
      chosen,
      freeId(chosen.id, taken),
      { name: name.value.trim(), serial: serial.value.trim() },
      figures.value,
    );
    const answer = await ask("propose", { machine, drafts: [draft], by: preferences.value.by });
    told.value = answer.told;
    if (!answer.ok) return;
    await record(machine, answer.value);
    said.value = `${name.value.trim() === "" ? chosen.name : name.value.trim()} is among your tools.`;
    name.value = "";
    serial.value = "";
    figures.value = {};
  }

  const problems = chosen.statements.map((statement) => problemOf(figures.value, statement.name, statement.form));
  return (
    <form
      class="add-tool not-printed"
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <h2>Add one</h2>
      <Select
        label="Kind"
        value={chosen.id}
        answers={kinds.map(({ id, name: words }) => [id, words] as const)}
        hint={chosen.figures.join("; ")}
        onChoose={(id) => {
          kind.value = id;
          figures.value = {};
          said.value = "";
        }}
      />
      <TextField
        label="Its name"
        hint="May stay empty."
        text={name.value}
        onText={(text) => {
          name.value = text;
        }}
      />
      <TextField
        label="Its number"
        hint="As engraved or on its certificate; may stay empty."
        text={serial.value}
        onText={(text) => {
          serial.value = text;
        }}
      />
      {chosen.statements.map(({ name: field, words, unit, form }, i) => (
        <div class="field-pair" key={field}>
          <TextField
            label={words}
            hint={`In ${unit}; may stay empty.`}
            text={figures.value[field] ?? ""}
            problem={problems[i]}
            onText={(text) => {
              figures.value = { ...figures.value, [field]: text };
            }}
          />
          {form === "stated" && (
            <TextField
              label="± U of it (k = 2)"
              hint={`In ${unit}.`}
              text={figures.value[`${field} U`] ?? ""}
              onText={(text) => {
                figures.value = { ...figures.value, [`${field} U`]: text };
              }}
            />
          )}
        </div>
      ))}
      <ToldList told={told.value} />
      <div class="button-row" role="status">
        <button type="submit" disabled={problems.some((problem) => problem !== "")}>
          Add it
        </button>
        <span class="small">{said.value}</span>
      </div>
    </form>
  );
}

function numberOf(text: string | undefined): number | null {
  const bare = (text ?? "").trim().replace(",", ".").replace("−", "-");
  return /^-?\d+(\.\d+)?$/.test(bare) ? Number(bare) : null;
}

function problemOf(figures: Readonly<Record<string, string>>, name: string, form: "stated" | "number"): string {
  const text = (figures[name] ?? "").trim();
  const doubt = (figures[`${name} U`] ?? "").trim();
  if (text === "" && doubt === "") return "";
  if (numberOf(text) === null) return "A number is missing, with a comma or a point.";
  if (form === "stated" && (numberOf(doubt) ?? 0) <= 0)
    return "It needs its U: an uncertainty of nothing is never true.";
  return "";
}

function toolDraft(
  kind: ToolKind & { readonly what: "instrument" | "object" },
  id: string,
  own: { readonly name: string; readonly serial: string },
  figures: Readonly<Record<string, string>>,
): Draft {
  const parts: Record<"stated" | "figures" | "nominal", Record<string, unknown>> = {
    stated: {},
    figures: {},
    nominal: {},
  };
  for (const { name, form, into } of kind.statements) {
    const value = numberOf(figures[name]);
    if (value === null) continue;
    parts[into][name] =
      form === "stated" ? { value, expandedUncertainty: numberOf(figures[`${name} U`]), coverageFactor: 2 } : value;
  }
  const filled = (record: object) => Object.keys(record).length > 0;
  const common = {
    id,
    kind: kind.id,
    ...(own.name !== "" && { name: own.name }),
    ...(own.serial !== "" && { serial: own.serial }),
  };
  return (
    kind.what === "instrument"
      ? {
          kind: "instrument-added",
          instrument: { ...common, ...(filled(parts.figures) && { figures: parts.figures }) },
        }
      : {
          kind: "object-added",
          object: { ...common, ...parts.nominal, ...(filled(parts.stated) && { stated: parts.stated }) },
        }
  ) as Draft;
}

/** The kind's own id for the first of a kind, then with a number. */
function freeId(kind: string, taken: ReadonlySet<string>): string {
  for (let n = 1; ; n++) {
    const id = n === 1 ? kind : `${kind}-${n}`;
    if (!taken.has(id)) return id;
  }
}
