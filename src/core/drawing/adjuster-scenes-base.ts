import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import type { Dimensions } from "../machine/dimensions.ts";
import { type AdjusterScene, moving, thin } from "./adjuster-scene.ts";
import type { Part, PartName, Place } from "./machine-parts.ts";
import { compareDepth, extentOf } from "./projection.ts";

/** End of a rail from its own side: leaves go in under it, the screws come from above. */
export function railScene(
  { moves }: Adjuster,
  parts: readonly Part[],
  side: "left" | "right",
  end: "front" | "rear",
  layout: Dimensions["layout"],
): AdjusterScene {
  const place = moves!.place;
  // Seen from the left the front is at the right.
  const acrossSign = side === "right" ? 1 : -1;
  const inwards = end === "front" ? 1 : -1;
  const rail = parts.filter((part) => part.name === "rail" && part.side === side);
  // A gantry's rail lies on its side of the frame, a table's on the crosspieces.
  const under = parts.filter((part) =>
    layout === "moving-gantry" ? part.name === "frame side" && part.side === side : part.name === "crosspiece",
  );
  const bottom = rail[0]!.low[2];
  const across = [-62, 96].map((from) => acrossSign * (place[1] + inwards * from));
  return {
    view: side,
    low: [Math.min(...across), bottom - 52],
    high: [Math.max(...across), bottom + 86],
    parts: [...under.map(thin), ...rail.map(moving)],
    leafLines: { only: [at(place, -inwards * 34, bottom), at(place, inwards * 12, bottom)] },
    names: [
      { text: "rail", at: at(place, inwards * 84, place[2]), away: [acrossSign * inwards * 4, -52] },
      { text: layout === "moving-gantry" ? "frame" : "", at: at(place, inwards * 70, bottom - 26) },
    ],
    marksAway: () => [0, -74],
    arrowAway: [-acrossSign * inwards * 20, 0],
  };
}

/** The frame from above, without what travels on it: one rail goes lengthwise, or sideways at its rear end. */
export function frameScene({ id }: Adjuster, parts: readonly Part[]): AdjusterScene {
  const shown = parts.filter(({ name }) => name === "frame side" || name === "rail" || name === "crosspiece");
  const isRight = (part: Part) => part.side === "right";
  const drawn = shown
    .map((part) => (isRight(part) ? moving({ ...part, carriedBy: "right rail" as const }) : thin(part)))
    .sort((a, b) => compareDepth("plan", a.part, b.part));
  const { low, high } = extentOf("plan", shown);
  return {
    view: "plan",
    low: [low[0] - 40, low[1] - 30],
    high: [high[0] + 110, high[1] + 60],
    parts: drawn,
    names: [],
    // Where the frame is narrow, the two rows stand one over the other.
    marksAway: ([x]) => (id !== "frame.toe" ? [-46, 0] : x < (low[0] + high[0]) / 2 ? [46, 20] : [-46, -14]),
    arrowAway: id === "frame.toe" ? [14, 0] : [24, 0],
    ...(id === "frame.toe" ? { heldBy: "left rail" as const } : {}),
  };
}

/** Right end of the beam from above, with what sets it to the rear or to the front. */
export function yawScene(adjuster: Adjuster, parts: readonly Part[], d: Dimensions): AdjusterScene {
  const { fasteners, moves } = adjuster;
  const ys = fasteners.places.map(([, y]) => y);
  const right = (name: PartName) => parts.filter((part) => part.name === name && part.side === "right");
  const beam = parts.filter(({ name }) => name === "beam");
  const plate = right("side plate");
  const [first] = fasteners.places;
  const xs = fasteners.places.map(([x]) => x);
  const z = first![2];
  const gantry = d.layout === "moving-gantry";
  // A switch, a stop, a clamp; or the flange of a column's foot.
  const body: Part = {
    name: "block",
    carriedBy: gantry ? (fasteners.member === "frame" ? "frame" : "rails") : "bridge",
    shape: "box",
    low: [Math.min(...xs) - (gantry ? 18 : 14), Math.min(...ys) - 14, z - 12],
    high: [Math.max(...xs) + (gantry ? 18 : 14), Math.max(...ys) + 14, z],
    stage: "bare frame",
  };
  const bodyMoves = body.carriedBy !== "frame";
  const { low, high } = extentOf("plan", [...plate, body]);
  return {
    view: "plan",
    low: [high[0] - 190, low[1] - 22],
    high: [high[0] + 52, high[1] + 40],
    parts: [
      ...[...right("frame side"), ...right("rail")].map(thin),
      ...right("block").map((part) => (gantry ? moving(part) : thin(part))),
      bodyMoves ? moving(body) : { part: body, line: "wide" as const, moves: false },
      ...beam.map(moving),
      ...plate.map(moving),
    ],
    names: [
      { text: "beam", at: [high[0] - 160, moves!.place[1] - Math.abs(d.yf), d.zb], away: [0, 34] },
      ...(gantry ? [{ text: bodyName(d), at: [body.low[0], first![1], z] as const, away: [-60, 4] as const }] : []),
    ],
    marksAway: () => [0, 0],
    arrowAway: [(high[0] - moves!.place[0]) * 0.9 + 20, 0],
  };
}

function bodyName({ details }: Dimensions): string {
  if (details.squaresOnStops) return "stop";
  return details.motorsOnY === 2 ? "switch" : "clamp";
}

function at([x, y]: Place, alongY: number, z: number): Place {
  return [x, y + alongY, z];
}
