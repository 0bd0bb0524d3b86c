import type { Adjuster } from "../../src/core/machine/adjusters/adjuster.ts";
import type { Place } from "../../src/core/machine/adjusters/place.ts";
import { poseAt } from "../../src/core/machine/joint.ts";
import {
  bedHeightAt,
  gridCrossing,
  placeOnMember,
  placeOverFloor,
  read,
  valuesOnly,
} from "../../src/core/machine/kinematics.ts";
import { type Machine, nominalState } from "../../src/core/machine/machine.ts";

/** Way of the watched place against the one that stays, along the adjuster's own direction, mm; by the exact model. */
export function exactWayMm(machine: Machine, adjuster: Adjuster, amount: number): number {
  const moves = adjuster.moves!;
  const state = nominalState(machine);
  for (const [mode, perUnit] of Object.entries(adjuster.effect)) {
    state[machine.parameterIndex.get(mode)!] = perUnit * amount;
  }
  const there = displacement(machine, state, adjuster, moves.place);
  const held = moves.heldAt ? displacement(machine, state, adjuster, moves.heldAt) : [0, 0, 0];
  return moves.along.reduce((sum, along, i) => sum + along * (there[i]! - held[i]!), 0);
}

/** Where the exact model takes a place of what the adjuster moves, seen from the floor, mm. */
function displacement(machine: Machine, state: Float64Array, { id, moves, stands }: Adjuster, place: Place): Place {
  const scene = valuesOnly(machine, state);
  const nominal = valuesOnly(machine, nominalState(machine));
  const { dimensions: d } = machine;
  if (moves!.member === "bed") {
    const [x, y] = place;
    const print = gridCrossing(scene, x, y);
    return [print.x.value - x, print.y.value - y, bedHeightAt(scene, x, y).value];
  }
  if (moves!.member === "frame") {
    // The frame carries the frame of reference: its own shape stands in its modes, where the rails' checks read it.
    return id === "frame.stagger"
      ? [0, read(scene, "frame.stagger").value, 0]
      : [((place[0] < d.xm ? -1 : 1) * read(scene, "rail.toe").value) / 2, 0, 0];
  }
  if (moves!.member === "rails") {
    // What rides on the rail stands with the middle between its feet over the place; a table goes against the tool.
    const y = machine.layout.id === "moving-gantry" ? place[1] + d.ty : stands[1] + d.Ly / 2 - place[1];
    const pose = poseAt(stands[0], y, stands[2]);
    const [member, over] =
      machine.layout.id === "moving-gantry"
        ? (["rails", [place[0], place[1], place[2]]] as const)
        : (["table", [place[0], d.Ly / 2, place[2]]] as const);
    const [a, b] = [scene, nominal].map((which) => placeOverFloor(which, member, over, pose));
    return [a!.x.value - b!.x.value, a!.y.value - b!.y.value, a!.z.value - b!.z.value];
  }
  // The tool's own travel is asked for at the place itself.
  const pose = moves!.member === "spindle" && id.startsWith("steps.") ? poseAt(...place) : poseAt(...stands);
  const [a, b] = [scene, nominal].map((which) => placeOnMember(which, moves!.member, place, pose));
  return [a!.x.value - b!.x.value, a!.y.value - b!.y.value, a!.z.value - b!.z.value];
}
