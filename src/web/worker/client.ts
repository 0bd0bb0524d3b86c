import { signal } from "@preact/signals";
import type { AnswerTo, Ask, FromWorker, Question, RequestName } from "./protocol.ts";

const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
const waiting = new Map<number, { resolve: (answer: unknown) => void; reject: (fault: Error) => void }>();
let lastNumber = 0;

/** How often each machine has changed since the page was opened; "" counts all changes. */
export const changes = signal<ReadonlyMap<string, number>>(new Map());

/** What has gone wrong inside the worker: a slip of ours, told as such. */
export const fault = signal("");

/** What such a question is refused with; it has been told already. */
export const notFetched = "not fetched";

/** A part of the worker's script was not there when it was asked for, and the server was gone. */
export const unfetched = signal(false);

/** Asks the worker; the answer comes in the order of asking. */
export function ask<Name extends RequestName>(name: Name, question: Ask<Name>): Promise<AnswerTo<Name>> {
  const number = ++lastNumber;
  return new Promise((resolve, reject) => {
    waiting.set(number, { resolve: resolve as (answer: unknown) => void, reject });
    worker.postMessage({ number, name, ask: question } satisfies Question);
  });
}

worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
  if ("changed" in data) {
    const next = new Map(changes.value);
    for (const key of [data.changed, ""]) next.set(key, (next.get(key) ?? 0) + 1);
    changes.value = next;
    return;
  }
  const asked = waiting.get(data.number);
  waiting.delete(data.number);
  if ("fault" in data) {
    if (data.fault === "") unfetched.value = true;
    else fault.value = data.fault;
    asked?.reject(new Error(data.fault === "" ? notFetched : data.fault));
  } else asked?.resolve(data.answer);
};

worker.onerror = (event) => {
  fault.value = event.message || "The worker did not start.";
};
