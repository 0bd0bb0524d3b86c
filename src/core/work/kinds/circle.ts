import { sizeOf } from "../../findings/finding.ts";
import type { Scene } from "../../machine/kinematics.ts";
import { constant, type Dual, distance } from "../../numerics/dual.ts";
import { roomAlongX, roomAlongY } from "../area.ts";
import type { Chosen, DemandKind } from "../demand-kind.ts";
import { show } from "../demand-kind.ts";
import { restOfFit } from "../rest-of-fit.ts";
import { centreOf, type PassedPlace, placesRound, tipRound } from "../round-path.ts";

const ways = [placesRound("counter-clockwise"), placesRound("clockwise")] as const;

/** Every other angle: the middles of the quarters and the places where an axis turns are among them. */
const enoughToPlan = new Set(ways.flat().flatMap(({ angle }, at) => (angle % 22.5 === 0 ? [at] : [])));

/**
 * Circular deviation G of the tool's path about its least-squares circle, of the way round in which it is worse
 * [ISO 230-4 §3]. The circle is taken out to first order about the mean of the path's points, so that the samples stay
 * smooth in the state; what is left out is of the order of deviation²/radius.
 */
export const circle: DemandKind = {
  id: "circle",
  words: "the circular deviation of a circle",
  unit: "mm",
  form: "spread",
  againstBed: false,
  sizes: [
    {
      key: "radiusMm",
      words: "radius",
      unit: "mm",
      from: 2,
      to: 2000,
      usual: () => 75,
      most: (chosen) => Math.min(roomAlongX(chosen), roomAlongY(chosen)) / 2,
    },
  ],
  place: "middle",
  draft: (chosen) => ({
    title: `Circular deviation of a circle of radius ${show(chosen.numbers.radiusMm)}`,
    groups: [
      [0, ways[0].length],
      [ways[0].length, ways[0].length + ways[1].length],
    ],
    enoughToPlan,
    samples: (scene) => ways.flatMap((places) => radialDeviations(scene, chosen, places)),
    meaning: (value) =>
      `Going round, the cutter is ${sizeOf(value)} further from the middle of the circle at one place than at another.`,
  }),
};

/** Distances from the middle of the path, without their mean and without what the least-squares centre takes out. */
function radialDeviations(scene: Scene, { middle, numbers }: Chosen, places: readonly PassedPlace[]): readonly Dual[] {
  const points = tipRound(scene, middle, numbers.radiusMm, places);
  const flat = constant(0, scene.size);
  const centre = { ...centreOf(points, places), z: flat };
  const radii = points.map(({ x, y }) => distance({ x, y, z: flat }, centre));
  const turned = (f: (angle: number) => number) => places.map(({ angle }) => f((angle * Math.PI) / 180));
  return restOfFit(
    radii,
    [turned(() => 1), turned(Math.cos), turned(Math.sin)],
    places.map(({ weight }) => weight),
  );
}
