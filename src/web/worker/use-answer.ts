import { type Signal, useComputed, useSignal, useSignalEffect } from "@preact/signals";
import { useRef } from "preact/hooks";
import { ask, changes } from "./client.ts";
import type { AnswerTo, Ask, RequestName } from "./protocol.ts";

/** Answers that were given last, so that a view that is opened again stands there at once. */
const remembered = new Map<string, unknown>();

/**
 * The worker's answer to a question, asked anew whenever the machine that it is about changes. While a new answer is on
 * its way the old one stands; null before the first, and while the question itself is another one.
 */
export function useAnswer<Name extends RequestName>(name: Name, question: Ask<Name>): Signal<AnswerTo<Name> | null> {
  const key = `${name} ${JSON.stringify(question)}`;
  const asked = useSignal({ key, question });
  if (asked.peek().key !== key) asked.value = { key, question };
  const given = useSignal<{ readonly key: string; readonly answer: AnswerTo<Name> } | null>(null);
  const turn = useRef(0);
  useSignalEffect(() => {
    const { key: at, question: now } = asked.value;
    const { machine } = now as { readonly machine?: string | null };
    void changes.value.get(machine ?? "");
    const mine = ++turn.current;
    ask(name, now).then(
      (answer) => {
        remembered.set(at, answer);
        if (mine === turn.current) given.value = { key: at, answer };
      },
      // The client has told it already.
      () => {},
    );
  });
  return useComputed(() => {
    const at = asked.value.key;
    if (given.value?.key === at) return given.value.answer;
    return (remembered.get(at) as AnswerTo<Name> | undefined) ?? null;
  });
}
