import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { record } from "../../outbox/outbox.ts";
import { Select, TextField } from "../../parts/fields.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { ask } from "../../worker/client.ts";
import type { Answer, Told } from "../../worker/protocol.ts";
import type { LeavesRead, ToolKind, ToolRow, ToolStatement, ToolsPage } from "../../worker/protocol-tools.ts";
import { LeavesField } from "./leaves-field.tsx";
import { freeId, type KindOfTool, problemOf, toolDraft } from "./tool-draft.ts";

/** One that its owner has, with the figures in which it differs from its kind. */
export function AddTool({ machine, page }: { machine: string; page: ToolsPage }) {
  const kinds = kindsOf(page);
  const kind = useSignal(kinds[0]?.id ?? "");
  const round = useSignal(0);
  const said = useSignal("");
  const chosen = kinds.find(({ id }) => id === kind.value) ?? kinds[0];
  const taken = new Set([...page.instruments, ...page.objects].map(({ id }) => id));
  return (
    <section class="add-tool not-printed">
      <h2>Add one</h2>
      <Select
        label="Kind"
        value={chosen.id}
        answers={kinds.map(({ id, name: words }) => [id, words] as const)}
        hint={chosen.figures.join("; ")}
        onChoose={(id) => {
          kind.value = id;
          said.value = "";
        }}
      />
      <ToolForm
        key={`${chosen.id} ${round.value}`}
        machine={machine}
        kind={chosen}
        stated={{ id: freeId(chosen.id, taken) }}
        texts={{}}
        button="Add it"
        onKept={(name) => {
          said.value = `${name === "" ? chosen.name : name} is among your tools.`;
          round.value += 1;
        }}
      />
      <p class="small" role="status">
        {said.value}
      </p>
    </section>
  );
}

interface CorrectToolProps {
  readonly machine: string;
  readonly page: ToolsPage;
  readonly tool: ToolRow;
  readonly onClose: () => void;
}

/** What was stated of a tool, to be put right: it counts for all its readings, those before it too. */
export function CorrectTool({ machine, page, tool, onClose }: CorrectToolProps) {
  const kind = kindsOf(page).find(({ id }) => id === tool.kind);
  if (kind === undefined) return null;
  return (
    <div class="correct-tool not-printed">
      <p class="small second">What is put right here counts for everything that was read with it.</p>
      <ToolForm
        machine={machine}
        kind={kind}
        stated={tool.stated}
        texts={tool.texts}
        button="Keep it so"
        onKept={onClose}
        onLeave={onClose}
      />
    </div>
  );
}

interface ToolFormProps {
  readonly machine: string;
  readonly kind: KindOfTool;
  /** What it is already; at least its id. */
  readonly stated: Readonly<Record<string, unknown>>;
  readonly texts: Readonly<Record<string, string>>;
  readonly button: string;
  readonly onKept: (name: string) => void;
  readonly onLeave?: () => void;
}

function ToolForm({ machine, kind, stated, texts, button, onKept, onLeave }: ToolFormProps) {
  const name = useSignal(String(stated.name ?? ""));
  const serial = useSignal(String(stated.serial ?? ""));
  const figures = useSignal(texts);
  const leaves = useSignal<Answer<LeavesRead> | null>(null);
  const told = useSignal<readonly Told[]>([]);
  const list = figures.value.leaves ?? "";
  const usualStack = kind.largestStack;
  const largestStack = Number(figures.value["leaves stack"] ?? usualStack);
  const isOwnSet = usualStack !== null && (list.trim() !== "" || largestStack !== usualStack);

  useEffect(() => {
    leaves.value = null;
    let isStale = false;
    if (isOwnSet)
      void ask("leafList", { kind: kind.id, text: list, largestStack }).then((answer) => {
        if (!isStale) leaves.value = answer;
      });
    return () => {
      isStale = true;
    };
  }, [isOwnSet, list, largestStack, kind.id, leaves]);

  async function keep() {
    const own = { name: name.value.trim(), serial: serial.value.trim() };
    const read = leaves.value?.ok ? leaves.value.value : null;
    const draft = toolDraft(kind, stated, own, figures.value, read);
    const answer = await ask("propose", { machine, drafts: [draft], by: preferences.value.by });
    told.value = answer.told;
    if (!answer.ok) return;
    await record(machine, answer.value);
    onKept(own.name);
  }

  const set = (field: string) => (text: string) => {
    figures.value = { ...figures.value, [field]: text };
  };
  const problems = kind.statements.map((statement) => problemOf(figures.value, statement));
  const isReady = problems.every((problem) => problem === "") && (!isOwnSet || leaves.value?.ok === true);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (isReady) void keep();
      }}
    >
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
      {kind.statements.map((statement, i) =>
        statement.form === "leaves" ? (
          <LeavesField
            key={statement.name}
            words={statement.words}
            unit={statement.unit}
            text={list}
            largestStack={largestStack}
            read={leaves.value}
            onText={set("leaves")}
            onStack={set("leaves stack")}
          />
        ) : (
          <StatementFields
            key={statement.name}
            statement={statement}
            figures={figures.value}
            problem={problems[i]}
            set={set}
          />
        ),
      )}
      <ToldList told={told.value} />
      <div class="button-row">
        <button type="submit" disabled={!isReady}>
          {button}
        </button>
        {onLeave && (
          <button type="button" class="plain" onClick={onLeave}>
            Leave it as it was
          </button>
        )}
      </div>
    </form>
  );
}

interface StatementFieldsProps {
  readonly statement: ToolStatement;
  readonly figures: Readonly<Record<string, string>>;
  readonly problem: string | undefined;
  readonly set: (field: string) => (text: string) => void;
}

function StatementFields({ statement: { name, words, unit, form }, figures, problem, set }: StatementFieldsProps) {
  return (
    <div class="field-pair">
      <TextField
        label={words}
        hint={`In ${unit}; may stay empty.`}
        text={figures[name] ?? ""}
        problem={problem}
        onText={set(name)}
      />
      {form === "stated" && (
        <TextField
          label="± U of it (k = 2)"
          hint={`In ${unit}.`}
          text={figures[`${name} U`] ?? ""}
          onText={set(`${name} U`)}
        />
      )}
    </div>
  );
}

function kindsOf(page: ToolsPage): readonly KindOfTool[] {
  const as = (what: KindOfTool["what"]) => (kind: ToolKind) => ({ ...kind, what });
  return [...page.instrumentKinds.map(as("instrument")), ...page.objectKinds.map(as("object"))];
}
