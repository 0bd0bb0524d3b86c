import { runTitle } from "../core/planning/next-check-words.ts";
import type { Plan, StopAt } from "../core/planning/plan.ts";
import { stopAt } from "../core/planning/stop-at.ts";
import { type StopWords, stopInWords, stopWords } from "../core/planning/stop-words.ts";
import type { Assessment } from "./assess.ts";
import { runName } from "./run-name.ts";

/** Where to stop at one move, and in words which gauge is read for it. */
export interface PlannedStop extends StopWords {
  readonly stop: StopAt;
  /** "Gap under the beam", and by which answers this way of reading it differs from others. */
  readonly title: string;
  /** All of it: gauge, run, reading and band. */
  readonly words: string;
}

/** What the gauge reads when each move of a plan is right; null where nothing that the user has shows it. */
export function stopsFor({ estimate, machine }: Assessment, { moves, demands }: Plan): readonly (PlannedStop | null)[] {
  const count = machine.parameters.length;
  const asked = demands.map(({ demand }) => demand);
  return moves.map(({ adjuster, amount, before, after }) => {
    const move = {
      adjuster,
      amount,
      before: before.scene.state.slice(0, count),
      after: after.scene.state.slice(0, count),
    };
    const stop = stopAt({ estimate, move, demands: asked });
    if (stop === null) return null;
    const { run } = stop;
    const packed = adjuster.packing !== "none";
    const said = stopWords(stop, { packed });
    const title = runTitle(stop);
    const goesOn = run === null ? "begun anew" : `going on with ${runName(run)}`;
    const sentences = stopInWords(stop, { packed });
    const first = `${sentences.charAt(0).toLowerCase()}${sentences.slice(1)}`;
    return {
      stop,
      title,
      ...said,
      words: `${title}, ${goesOn}: ${first}`,
    };
  });
}
