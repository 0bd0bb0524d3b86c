import "./without-eval.ts";
import { loadSolver } from "../../solver/highs.ts";
import { addEvents, forgetMachine } from "./held.ts";
import type { FromPlanner, ToPlanner } from "./plan-desk.ts";
import { bestChecksPage, planPage } from "./plan-pages.ts";
import { workPage } from "./work-pages.ts";

/*
 * Plans, and what the work comes out like, are worked out in a thread of their own, so that a reading is answered while
 * one is on its way. It holds the same events as the worker that asks it.
 */

interface Port {
  onmessage: ((message: { readonly data: ToPlanner }) => void) | null;
  postMessage(message: FromPlanner): void;
}

const port = self as unknown as Port;

port.onmessage = async ({ data }) => {
  if ("forget" in data) {
    forgetMachine(data.forget);
    return;
  }
  const { number, machine, events, question } = data;
  addEvents(machine, events);
  if (question === null) {
    // Nothing is asked yet: the solver is fetched while the network is there.
    await loadSolver().catch(() => {});
    return;
  }
  try {
    const solve = await loadSolver();
    const answer =
      question.about === "plan"
        ? planPage(machine, question.what, solve)
        : question.about === "measure"
          ? bestChecksPage(machine)
          : workPage(machine, question.asked, solve);
    port.postMessage({ number, answer });
  } catch (error) {
    port.postMessage({
      number,
      fault: error instanceof Error ? `${error.message}\n${error.stack ?? ""}` : String(error),
    });
  }
};
