import type { GeometricCheck, Setup } from "../checks/check.ts";
import type { Machine } from "../machine/machine.ts";

type Answers = Setup["options"];

/**
 * The ways of doing a check that tell something different: every axis, both leans, a square both ways round, both stems.
 * Questions that only change how the result comes about (which size, what was compared) keep their usual answer.
 */
export function variantsOf(check: GeometricCheck, machine: Machine): readonly Answers[] {
  const own = ofOneCheck[check.id];
  if (own) return own(machine);
  return check.options.reduce<readonly Answers[]>(
    (variants, { key, answers }) =>
      answers === undefined || keepsUsual.has(key)
        ? variants
        : variants.flatMap((variant) => answers.map((answer) => ({ ...variant, [key]: answer }))),
    [{}],
  );
}

/** Questions whose answer says how a thing stood or what was marked, not what is looked at. */
export const sameLook: ReadonlySet<string> = new Set(["square", "stem", "block", "direction", "radiusMm", "marks"]);

const keepsUsual: ReadonlySet<string> = new Set(["compared", "piece"]);

const ofOneCheck: Readonly<Record<string, (machine: Machine) => readonly Answers[]>> = {
  // The stem looks at the edge from outside: it points to the side on which the square's body is.
  "upright-sweep": () =>
    ["side", "fore"].flatMap((towards) =>
      ["right or rear", "left or front"].map((side) => ({ towards, stem: side, square: side })),
    ),
  // Two discs cut both ways round, and a small one that tells the cutter's size from the scale of the axes.
  "ring-diameters": () => [
    { radiusMm: 60, direction: "counter-clockwise" },
    { radiusMm: 60, direction: "clockwise" },
    { radiusMm: 25, direction: "counter-clockwise" },
  ],
};
