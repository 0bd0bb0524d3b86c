import { expect, test } from "vitest";
import { fitLeastSquares, type ResidualModel } from "../../src/core/estimation/gauss-newton.ts";
import { matchingDigits, openReference } from "./reference.ts";
import { type ReferenceDataset, readReferenceDataset } from "./strd.ts";

const source = openReference("[NIST StRD]");

/** A prediction and its derivatives by the parameters, at x. */
type Prediction = (x: number, b: Float64Array) => readonly [value: number, slopes: readonly number[]];

const models: Readonly<Record<string, Prediction>> = {
  Misra1a: (x, b) => {
    const decay = Math.exp(-b[1]! * x);
    return [b[0]! * (1 - decay), [1 - decay, b[0]! * x * decay]];
  },
  Thurber: (x, b) => {
    const above = b[0]! + x * (b[1]! + x * (b[2]! + x * b[3]!));
    const below = 1 + x * (b[4]! + x * (b[5]! + x * b[6]!));
    const value = above / below;
    return [value, [1, x, x * x, x ** 3, -value * x, -value * x * x, -value * x ** 3].map((slope) => slope / below)];
  },
  MGH09: (x, b) => {
    const above = x * (x + b[1]!);
    const below = x * (x + b[2]!) + b[3]!;
    const value = (b[0]! * above) / below;
    return [value, [above / below, (b[0]! * x) / below, (-value * x) / below, -value / below]];
  },
};

function modelOf(data: ReferenceDataset): ResidualModel {
  const prediction = models[data.name]!;
  return {
    residualCount: data.rows.length,
    parameterCount: data.estimates.length,
    evaluate(estimate, residuals, jacobian) {
      data.rows.forEach(([y, x], i) => {
        const [value, slopes] = prediction(x!, estimate);
        residuals[i] = y! - value;
        jacobian.set(slopes, i * data.estimates.length);
      });
    },
  };
}

for (const name of Object.keys(models)) {
  const data = readReferenceDataset(name);
  test.each(data.starts.map((start, at) => ({ start, at: at + 1 })))(`${name} from start $at`, ({ start, at }) => {
    const fit = fitLeastSquares(modelOf(data), start);
    expect(fit.kind).toBe("converged");
    if (fit.kind !== "converged") return;
    // Eleven digits are certified; the last is rounded.
    source.digits({
      what: `${name} from start ${at}: estimates`,
      pairs: data.estimates.map((value, i) => [value, fit.estimate[i]!] as const),
      status: "published",
      atLeast: 9,
      summary: `${data.estimates.length} certified`,
    });
    source.digits({
      what: `${name} from start ${at}: their standard deviations`,
      pairs: data.standardDeviations.map((value, i) => [value, fit.standardDeviations[i]!] as const),
      status: "published",
      atLeast: 9,
      summary: `${data.estimates.length} certified`,
    });
    source.digits({
      what: `${name} from start ${at}: residual standard deviation`,
      pairs: [[data.residualStandardDeviation, fit.residualStandardDeviation]],
      status: "published",
      atLeast: 9,
      summary: "1 certified",
    });
    if (process.env.SHOW_DIGITS)
      console.log(
        name,
        at,
        fit.iterations,
        Math.min(...data.estimates.map((v, i) => matchingDigits(v, fit.estimate[i]!))).toFixed(1),
        Math.min(...data.standardDeviations.map((v, i) => matchingDigits(v, fit.standardDeviations[i]!))).toFixed(1),
      );
  });
}
