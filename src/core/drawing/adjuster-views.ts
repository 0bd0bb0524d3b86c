import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import { poseAt } from "../machine/joint.ts";
import { type Machine, nominalState } from "../machine/machine.ts";
import type { AdjusterScene } from "./adjuster-scene.ts";
import { frameScene, railScene, yawScene } from "./adjuster-scenes-base.ts";
import { beamScene, bedCornerScene, bedTurnScene, mountScene, slideScene, wholeScene } from "./adjuster-scenes-tool.ts";
import { type Displacement, displacementsAt, gridDisplacement } from "./exaggeration.ts";
import { partsOfMachine } from "./machine-parts.ts";

/** The view in which the joint's motion shows, with what stands round it. */
export function sceneOf(machine: Machine, adjuster: Adjuster): AdjusterScene {
  const d = machine.dimensions;
  const parts = partsOfMachine(d, poseAt(...adjuster.stands));
  const [joint, second, third] = adjuster.id.split(".");
  const side = second === "right" || third === "right" ? "right" : "left";
  switch (joint) {
    case "rail":
      return railScene(adjuster, parts, side, third === "rear" ? "rear" : "front", d.layout);
    case "frame":
      return frameScene(adjuster, parts);
    case "beam":
      return beamScene(parts, side);
    case "gantry":
    case "bridge":
      return yawScene(adjuster, parts, d);
    case "slide":
      return slideScene(adjuster, parts, d);
    case "mount":
      return mountScene(adjuster, parts, d);
    case "bed":
      if (second === "turn") return bedTurnScene(parts);
      if (second === "front" || second === "rear") return bedCornerScene(adjuster, parts, side, second);
      return wholeScene(adjuster, parts);
    default:
      return wholeScene(adjuster, parts);
  }
}

/** Places of one drawing move by this, against the place that stays; mm, per amount. */
export function displacementOf(
  machine: Machine,
  adjuster: Adjuster,
  amount: number,
  scene: AdjusterScene,
): Displacement {
  const state = nominalState(machine);
  for (const [mode, perUnit] of Object.entries(adjuster.effect)) {
    const index = machine.parameterIndex.get(mode);
    if (index !== undefined) state[index] = perUnit * amount;
  }
  const pose = poseAt(...adjuster.stands);
  const solid = displacementsAt(machine, state, pose);
  const printed = gridDisplacement(machine, state, pose);
  const moved: Displacement =
    adjuster.id === "bed.turn" ? (part, place) => (part === "bed" ? printed(place[0], place[1]) : [0, 0, 0]) : solid;
  const held = adjuster.moves?.heldAt;
  return (part, place) => {
    const off = moved(part, place);
    if (!held) return off;
    const stays = moved(scene.heldBy ?? part, held);
    return [off[0] - stays[0], off[1] - stays[1], off[2] - stays[2]];
  };
}
