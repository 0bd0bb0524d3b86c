import type { Answer } from "../../src/web/worker/protocol.ts";

/** What an answer of the page's worker holds; a refusal fails the test with what was told. */
export function good<T>(answer: Answer<T>): T {
  if (!answer.ok) throw new Error(JSON.stringify(answer.told));
  return answer.value;
}
