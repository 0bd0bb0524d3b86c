import { bump, type Pose } from "../machine/joint.ts";
import { bedHeightAt, gridCrossing, placeOverFloor, valuesOnly } from "../machine/kinematics.ts";
import type { Machine } from "../machine/machine.ts";
import { type CarriedBy, type Part, type Place, railPlace } from "./machine-parts.ts";
import { type Extent, extentOf, faceOf, inView, type ViewName } from "./projection.ts";

/** How many times too large the errors of form and place are drawn. */
export interface Exaggeration {
  readonly factor: number;
  /** True where even the smallest factor breaks the rules of legibility. */
  readonly tooFarOut: boolean;
}

export const factors: readonly number[] = [1000, 500, 200, 100, 50, 20, 10, 5];

/** By how much a place that rides on a part is off, mm. */
export type Displacement = (part: CarriedBy, place: Place) => Place;

/**
 * Displacements from the exact model at one pose, seen from the floor. Scale and play are left out of a state before it
 * is drawn: they are numbers, not shapes.
 */
export function displacementsAt(machine: Machine, state: Float64Array, pose: Pose): Displacement {
  const scene = valuesOnly(machine, withoutNumbers(machine, state));
  return (carriedBy, place) => {
    switch (carriedBy) {
      case "frame":
        return [0, 0, 0];
      case "left rail":
      case "right rail":
        return railDisplacement(machine, scene.state, pose, carriedBy === "left rail" ? "left" : "right", place[1]);
      case "bed": {
        const raised: Place = [place[0], place[1], place[2] + bedHeightAt(scene, place[0], place[1]).value];
        return machine.layout.workBranch.length > 0
          ? sumOf(raised, place, onMember(raised, "table"))
          : differenceOf(raised, place);
      }
      default:
        return onMember(place, carriedBy);
    }
  };

  function onMember(place: Place, member: Exclude<CarriedBy, "left rail" | "right rail">): Place {
    const real = placeOverFloor(scene, member, place, pose);
    return [real.x.value - place[0], real.y.value - place[1], real.z.value - place[2]];
  }
}

/** Where the printed crossing at x, y is off, mm; on a moving table it goes with the table. */
export function gridDisplacement(machine: Machine, state: Float64Array, pose: Pose): (x: number, y: number) => Place {
  const scene = valuesOnly(machine, withoutNumbers(machine, state));
  const bed = displacementsAt(machine, state, pose);
  return (x, y) => {
    const crossing = gridCrossing(scene, x, y);
    const [dx, dy, dz] = bed("bed", [x, y, 0]);
    return [crossing.x.value - x + dx, crossing.y.value - y + dy, dz];
  };
}

/** The place drawn `factor` times as far off as it is. */
export function exaggerated(place: Place, off: Place, factor: number): Place {
  return [place[0] + factor * off[0], place[1] + factor * off[1], place[2] + factor * off[2]];
}

/**
 * The largest factor that keeps every angle under 15° and every offset under a fifth of its view; 5, and a word about
 * it, where none does.
 */
export function chooseExaggeration(
  parts: readonly Part[],
  displacement: Displacement,
  views: readonly ViewName[],
): Exaggeration {
  const edges = views.flatMap((view) => edgesOf(view, parts, displacement));
  const fits = factors.find((factor) => edges.every((edge) => isLegible(edge, factor)));
  return fits === undefined ? { factor: 5, tooFarOut: true } : { factor: fits, tooFarOut: false };
}

type Pair = readonly [across: number, up: number];

/** One edge of a face: as it should be, what its ends are off, and how far they may go. */
interface Edge {
  readonly nominal: Pair;
  readonly off: readonly [Pair, Pair];
  readonly most: Pair;
}

const STEEPEST = Math.tan((15 * Math.PI) / 180);
const LARGEST_PART_OF_VIEW = 0.2;

function edgesOf(view: ViewName, parts: readonly Part[], displacement: Displacement): readonly Edge[] {
  const extent: Extent = extentOf(view, parts);
  const most: Pair = [
    LARGEST_PART_OF_VIEW * (extent.high[0] - extent.low[0]),
    LARGEST_PART_OF_VIEW * (extent.high[1] - extent.low[1]),
  ];
  return parts
    .filter((part) => part.carriedBy !== "frame")
    .flatMap((part) => {
      const face = faceOf(view, part);
      const off = face.map((place) => inView(view, displacement(part.carriedBy, place)));
      const at = face.map((place) => inView(view, place));
      return at.map((from, i): Edge => {
        const next = (i + 1) % at.length;
        return { nominal: [at[next][0] - from[0], at[next][1] - from[1]], off: [off[i], off[next]], most };
      });
    });
}

function isLegible({ nominal, off, most }: Edge, factor: number): boolean {
  if (off.some(([across, up]) => factor * Math.abs(across) >= most[0] || factor * Math.abs(up) >= most[1]))
    return false;
  const change: Pair = [factor * (off[1][0] - off[0][0]), factor * (off[1][1] - off[0][1])];
  const drawn: Pair = [nominal[0] + change[0], nominal[1] + change[1]];
  const turned = Math.abs(nominal[0] * drawn[1] - nominal[1] * drawn[0]);
  const kept = nominal[0] * drawn[0] + nominal[1] * drawn[1];
  return turned <= STEEPEST * kept || Math.hypot(...nominal) === 0;
}

/** A rail's own shape: height, toe, belly and bow by its modes, and the stagger of the right one. */
function railDisplacement(machine: Machine, state: Float64Array, pose: Pose, side: "left" | "right", y: number): Place {
  const mode = (id: string) => {
    const index = machine.parameterIndex.get(id);
    return index === undefined ? 0 : state[index];
  };
  const v = railPlace(machine.dimensions, pose, y);
  const height =
    mode(`rail.${side}.front`) * (1 - v) + mode(`rail.${side}.rear`) * v + mode(`rail.${side}.crown`) * bump(v);
  const outwards = side === "right" ? 1 : -1;
  const spacing = (mode("rail.toe") * (v - 0.5) + mode("rail.belly") * bump(v)) / 2;
  return [mode("rail.wander") * bump(v) + outwards * spacing, side === "right" ? mode("frame.stagger") : 0, height];
}

function withoutNumbers(machine: Machine, state: Float64Array): Float64Array {
  return state.map((value, i) => (/^(scale|backlash|grid\.scale)\./.test(machine.parameters[i]) ? 0 : value));
}

function differenceOf(a: Place, b: Place): Place {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

/** What a raised place is off in all: raised, and then carried. */
function sumOf(raised: Place, place: Place, carried: Place): Place {
  const up = differenceOf(raised, place);
  return [up[0] + carried[0], up[1] + carried[1], up[2] + carried[2]];
}
