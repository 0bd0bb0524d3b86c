import { useSignal } from "@preact/signals";
import { NumberField, Select } from "../../parts/fields.tsx";
import { ToldList } from "../../parts/told.tsx";
import { typedNumber } from "../../parts/typed-number.ts";
import type { Told } from "../../worker/protocol.ts";
import type { DemandKindPage, WorkBoard } from "../../worker/protocol-work.ts";
import { change, limitAsked } from "./demand-grounds.tsx";
import { SizeField, typedSize } from "./size-field.tsx";

/** A demand of one's own beside those of the kind of work. */
export function AskMore({ machine, board }: { machine: string; board: WorkBoard }) {
  const kind = useSignal(board.demandKinds[0].id);
  const chosen = board.demandKinds.find(({ id }) => id === kind.value) ?? board.demandKinds[0];
  return (
    <details class="ask-more">
      <summary>Ask for something of your own</summary>
      <Select
        label="What is asked for"
        value={kind.value}
        answers={board.demandKinds.map(({ id, words }) => [id, words] as const)}
        onChoose={(id) => {
          kind.value = id;
        }}
      />
      <OwnDemand key={chosen.id} machine={machine} kind={chosen} />
    </details>
  );
}

function OwnDemand({ machine, kind }: { machine: string; kind: DemandKindPage }) {
  const texts = useSignal<Readonly<Record<string, string>>>({});
  const limit = useSignal("");
  const told = useSignal<readonly Told[]>([]);
  const put = (key: string) => (text: string) => {
    texts.value = { ...texts.value, [key]: text };
  };
  const numbers = kind.sizes.flatMap((size) =>
    "answers" in size ? [] : [{ key: size.key, ...typedSize(texts.value[size.key] ?? "", size) }],
  );
  const atMost = typedNumber(limit.value, limitAsked[kind.unit]);
  const isWrong = atMost.value === null || numbers.some(({ problem }) => problem !== "");
  async function askFor() {
    if (atMost.value === null || isWrong) return;
    const typed = numbers.flatMap(({ key, value }) => (value === null ? [] : [[key, value] as const]));
    const answered = kind.sizes.flatMap((size) =>
      "answers" in size ? [[size.key, texts.value[size.key] ?? size.usual] as const] : [],
    );
    const sizes = Object.fromEntries([...typed, ...answered]);
    told.value = await change(machine, { kind: "ask", of: kind.id, sizes, limit: atMost.value });
    if (told.value.length === 0) limit.value = "";
  }
  return (
    <form
      class="size-form"
      onSubmit={(event) => {
        event.preventDefault();
        void askFor();
      }}
    >
      {kind.sizes.map((size) =>
        "answers" in size ? (
          <Select
            key={size.key}
            label={upperFirst(size.words)}
            value={texts.value[size.key] ?? size.usual}
            answers={size.answers.map((answer) => [answer, answer] as const)}
            onChoose={put(size.key)}
          />
        ) : (
          <SizeField
            key={size.key}
            label={upperFirst(size.words)}
            hint={`Usual: ${Math.round(100 * size.usual) / 100} ${size.unit}.`}
            size={size}
            text={texts.value[size.key] ?? ""}
            onText={put(size.key)}
          />
        ),
      )}
      <NumberField
        label={`At most, in ${kind.unit}`}
        asked={limitAsked[kind.unit]}
        text={limit.value}
        onText={(text) => {
          limit.value = text;
        }}
      />
      <ToldList told={told.value} />
      <div class="button-row">
        <button type="submit" disabled={isWrong}>
          Ask for it
        </button>
      </div>
    </form>
  );
}

function upperFirst(text: string): string {
  return text[0].toUpperCase() + text.slice(1);
}
