import { stepsPerMmFromDescription } from "../drives.ts";
import type { Machine } from "../machine.ts";
import type { AdjusterDraft } from "./draft.ts";
import { middleOfTravel, type Place, toTheRear, toTheRight, upwards } from "./place.ts";

/** The number in the controller that says how many steps make a millimetre. */
export function stepsPerMmNumbers({ dimensions: d }: Machine): readonly AdjusterDraft[] {
  const far = { x: d.Lx, y: d.Ly, z: d.Lz } as const;
  const plus = { x: toTheRight, y: toTheRear, z: upwards } as const;
  return (["x", "y", "z"] as const).map((axis, index): AdjusterDraft => {
    const name = axis.toUpperCase();
    const at = (along: number) =>
      middleOfTravel(d).map((middle, i) => (i === index ? along : middle)) as unknown as Place;
    const stands = at(far[axis]);
    const now = stepsPerMmFromDescription(d.details.drives[axis]);
    return {
      id: `steps.${axis}`,
      words: `steps per mm of ${name}`,
      unit: "mm/m",
      effect: { [`scale.${axis}`]: 1 },
      range: [-50, 50],
      sd: 0,
      minutes: 1,
      level: 5,
      cure: "soft",
      fasteners: {
        words: "nothing is loosened; a number in the controller is changed",
        places: [],
        member: null,
        seenFrom: "front",
      },
      stands,
      moves: {
        words: `the tool at the far end of ${name}`,
        member: "spindle",
        place: stands,
        along: plus[axis],
        heldAt: at(0),
        over: { lengthMm: far[axis], words: `over the travel of ${name}` },
      },
      whatHolds: {
        alsoLoose: null,
        cautions: [
          "Write the old number down before the new one goes in.",
          "Home the machine again afterwards, and watch the ends of the travel: every place but home has shifted.",
        ],
      },
      ...(now === null ? {} : { stepsPerMmNow: now }),
    };
  });
}
