import "./without-eval.ts";
import { loadSolver } from "../../solver/highs.ts";
import { addEvents, forgetMachine } from "./held.ts";
import type { FromPlanner, ToPlanner } from "./plan-desk.ts";
import { planPage } from "./plan-pages.ts";

/*
 * Plans are worked out in a thread of their own, so that a reading is answered while one is on its way. It holds the same
 * events as the worker that asks it.
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
  const { number, machine, events, what } = data;
  addEvents(machine, events);
  if (what === null) {
    // Nothing is asked yet: the solver is fetched while the network is there.
    await loadSolver().catch(() => {});
    return;
  }
  try {
    const solve = await loadSolver();
    port.postMessage({ number, answer: planPage(machine, what, solve) });
  } catch (error) {
    port.postMessage({
      number,
      fault: error instanceof Error ? `${error.message}\n${error.stack ?? ""}` : String(error),
    });
  }
};
