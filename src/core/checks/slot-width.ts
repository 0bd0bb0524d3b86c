import { bothLayouts, type GeometricCheck, optionOf } from "./check.ts";
import { comparedOption } from "./compared-option.ts";
import { words } from "./words/slot-width.ts";

/** Width of a slot cut in one pass − the cutter's nominal diameter: the cutter's effective size. */
export const slotWidth: GeometricCheck = {
  id: "slot-width",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["calipers"],
  roles: ["cutter"],
  lastingError: "enters",
  atTip: true,
  options: [
    { key: "cutterMm", question: "Diameter of the cutter?", number: { unit: "mm", from: 0.5, to: 40 }, usual: 6 },
    comparedOption,
  ],
  stations: (setup) => {
    const { Lx, Ly } = setup.machine.dimensions;
    const nominal = Number(optionOf(slotWidth, setup, "cutterMm"));
    return ["1", "2"].map((key, i) => ({
      key,
      words: `slot, place ${key}`,
      at: [Lx / 2, (0.4 + 0.2 * i) * Ly, 0],
      nominal,
    }));
  },
  unknowns: () => [{ key: "cutter", scope: "object", role: "cutter", words: "the cutter's size", mean: 0, sd: 0.2 }],
  predict: (_, __, ___, unknown) => unknown("cutter"),
};
