import type { Check, Setup, Station } from "../checks/check.ts";
import { optionOf } from "../checks/check.ts";
import { TRAM_RADIUS } from "../checks/tram-places.ts";
import { type Pose, poseAt } from "../machine/joint.ts";
import { beamCentreY, type Place, railEnds, railY } from "./machine-parts.ts";

/** Where a station is marked on the plan, and the lines that show what is read there, mm. */
export interface StationPlace {
  readonly mark: Place;
  readonly lines: readonly (readonly [Place, Place])[];
  /** Ends of a length carry arrowheads; a bar or a diameter does not. */
  readonly isLength: boolean;
}

/** Where the machine stands while the station is read, as far as the plan can show it. */
export function poseForStation(check: Check, setup: Setup, station: Station | undefined): Pose {
  const { Lx, Ly, Lz, ty, yf } = setup.machine.dimensions;
  const [x, y, z] = station?.at ?? [Lx / 2, Ly / 2, 0];
  switch (check.id) {
    case "gap-under-beam":
      return poseAt(Lx / 2, y + ty, Lz);
    case "beam-upright":
    case "beam-to-line":
      return poseAt(Lx / 2, y + ty - yf, Lz);
    case "stop-gaps":
      return poseAt(Lx / 2, 0, Lz);
    case "tram-sweep":
    case "upright-gap":
    case "upright-sweep":
    case "two-level-marks":
    case "runout":
    case "home-repeat":
    case "turnaround":
      return poseAt(x, y, z);
    case "hole-rectangle":
    case "hole-field":
    case "grid-diagonals":
    case "rail-wind":
    case "rail-spacing":
    case "ring-diameters":
    case "slot-width":
    case "pass-ridges":
    case "bed-touch":
    case "groove-widths":
      // Out of the way of what is read, at the rear end of the travel.
      return poseAt(Lx / 2, Ly, Lz);
    default:
      return check.kind === "condition" ? poseAt(Lx / 2, Ly / 2, Lz / 2) : poseAt(x, y, z);
  }
}

export function stationPlace(check: Check, setup: Setup, station: Station, pose: Pose): StationPlace {
  const d = setup.machine.dimensions;
  const [x, y, z] = station.at;
  if (check.kind === "condition")
    return pushPlace(check, setup, station, pose) ?? only(conditionPlace(setup, station, pose));
  switch (check.id) {
    case "tram-sweep": {
      const end = around(station.at, TRAM_RADIUS, station.figures?.f as number);
      return { mark: end, lines: [[station.at, end]], isLength: false };
    }
    case "ring-diameters": {
      const r = Number(optionOf(check, setup, "radiusMm"));
      const f = station.figures?.f as number;
      const [near, far] = [around(station.at, r, f), around(station.at, r, f + 180)];
      // Rings stand outside the circle, where there is room for their numbers.
      return { mark: around(station.at, r + 66, f), lines: [[near, far]], isLength: false };
    }
    case "rail-wind":
    case "rail-spacing": {
      const at = railY(d, pose, y / d.Ly);
      const ends = [-20, 20].map((over, i): Place => [d.railLeft + i * d.railSpan + over, at, z]);
      return { mark: [x, at, z], lines: [[ends[0], ends[1]]], isLength: check.id === "rail-spacing" };
    }
    case "frame-diagonals": {
      const { front, rear } = railEnds(d, pose);
      const rising: readonly [Place, Place] = [
        [d.xL, front, z],
        [d.xR, rear, z],
      ];
      const falling: readonly [Place, Place] = [
        [d.xR, front, z],
        [d.xL, rear, z],
      ];
      return { mark: between(rising, 0.5), lines: [rising, falling], isLength: true };
    }
    case "stop-gaps":
      return only([x, beamCentreY(d, pose), z]);
    default:
      return station.to ? lengthPlace(check, station.at, station.to) : only(station.at);
  }
}

function lengthPlace(check: Check, from: Place, to: Place): StationPlace {
  const ends: readonly [Place, Place] = [from, to];
  if (check.id === "pass-ridges") return only(from);
  if (check.id === "travel") return { mark: to, lines: [ends], isLength: true };
  const isDiagonal = from[0] !== to[0] && from[1] !== to[1];
  // Off the middle, where diagonals cross and where the holes of a field lie.
  const f = check.id === "hole-field" ? (isDiagonal ? 0.5 : 0.25) : isDiagonal ? 0.3 : 0.5;
  return { mark: between(ends, f), lines: [ends], isLength: true };
}

/** Conditions name their places in words; this is where those are. */
function conditionPlace({ machine }: Setup, { key }: Station, pose: Pose): Place {
  const d = machine.dimensions;
  const { front, rear } = railEnds(d, pose);
  const has = (word: string) => key.toLowerCase().includes(word);
  const beam = beamCentreY(d, pose);
  const x = has("left") ? d.xL : has("right") ? d.xR : null;
  if (has("foot")) return [x ?? d.xm, has("front") ? front : rear, d.zr];
  if (has("belt")) return [x ?? d.railLeft, (front + rear) / 2 - d.b, d.zr];
  if (has("side")) return [x ?? d.xm, beam, d.zb];
  if (has("far end")) return [d.xR, beam, d.zb];
  if (has("carriage")) return [pose.x, beam, d.zb];
  if (key === "front" || key === "rear" || has("quarter") || key === "middle") {
    const v = { front: 0, "front quarter": 0.25, middle: 0.5, "rear quarter": 0.75, rear: 1 }[key] ?? 0.5;
    return [d.xR, d.layout === "moving-gantry" ? v * d.Ly - d.ty : v * d.Ly, d.zr];
  }
  if (key === "X") return [d.xR - 60, beam, d.zb];
  if (key === "Y") return [d.railLeft + d.railSpan, rear - 20, d.zr];
  if (has("thumb") || has("leaf under")) return [has("leaf") ? 0.2 * d.Lx : 0.6 * d.Lx, 0.25 * d.Ly, 0];
  return [pose.x, pose.y, pose.z];
}

/** How far an arrow of a push reaches to either side, mm. */
const PUSH = 90;

/** A push along X or Y as an arrow both ways; null where there is none, or none that shows from above. */
function pushPlace({ id }: Check, setup: Setup, station: Station, pose: Pose): StationPlace | null {
  const mark = conditionPlace(setup, station, pose);
  const arrow = ([x, y, z]: Place, way: 0 | 1): readonly [Place, Place] => {
    const [dx, dy] = way === 0 ? [PUSH, 0] : [0, PUSH];
    return [
      [x - dx, y - dy, z],
      [x + dx, y + dy, z],
    ];
  };
  if (id === "side-push") {
    const pulled: Place = [setup.machine.dimensions.xL, mark[1], mark[2]];
    return { mark, lines: [arrow(pulled, 1)], isLength: true };
  }
  const way = ["X", "Y"].indexOf(station.key[0]);
  if (id !== "push-and-release" || way < 0) return null;
  const line = arrow(mark, way as 0 | 1);
  return { mark: line[1], lines: [line], isLength: true };
}

function only(mark: Place): StationPlace {
  return { mark, lines: [], isLength: false };
}

function around([x, y, z]: Place, radius: number, degrees: number): Place {
  const angle = (degrees * Math.PI) / 180;
  return [x + radius * Math.cos(angle), y + radius * Math.sin(angle), z];
}

function between([a, b]: readonly [Place, Place], f: number): Place {
  return [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1]), a[2] + f * (b[2] - a[2])];
}
