import type { Highs } from "highs";
import type { ProgrammeColumn } from "../core/planning/integer-programme.ts";
import type { ModelData } from "./model-data.ts";

/** A fraction smaller than this is none. */
const WHOLE = 1e-6;

/**
 * A solution to begin the search from: the programme without whole numbers is solved, its whole columns are settled as
 * their `guess` says, and it is solved again for what is left. Null where that comes to nothing feasible; then the search
 * begins from scratch.
 */
export function firstGuess(highs: Highs, data: ModelData, columns: readonly ProgrammeColumn[]): Float64Array | null {
  const relaxed = { ...data, integrality: columns.map(() => highs.constants.variableType.continuous) };
  return highs.withModel(relaxed, (model) => {
    model.options.set({ output_flag: false, presolve: "off" });
    const solved = () => {
      model.run();
      if (model.getModelStatus() !== highs.constants.modelStatus.optimal) return null;
      return Float64Array.from(model.getSolution().colValue);
    };
    const settle = (i: number, value: number) => model.changeColBounds(i, value, value);
    let values = solved();
    if (values === null) return null;
    for (const [i, { whole, guess = "near" }] of columns.entries()) {
      if (!whole || typeof guess === "number") continue;
      settle(i, guess === "up" ? Math.ceil(values[i] - WHOLE) : Math.round(values[i]));
    }
    values = solved();
    const inTurn = columns
      .flatMap(({ whole, guess }, i) => (whole && typeof guess === "number" ? [{ i, turn: guess }] : []))
      .sort((a, b) => a.turn - b.turn);
    while (values !== null) {
      const now: Float64Array = values;
      const next = inTurn.find(({ i }) => Math.abs(now[i] - Math.round(now[i])) > WHOLE);
      if (next === undefined) return now;
      settle(next.i, Math.round(now[next.i]));
      values = solved();
      if (values !== null) continue;
      settle(next.i, Math.floor(now[next.i]));
      values = solved();
    }
    return null;
  });
}
