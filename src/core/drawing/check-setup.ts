import type { Check, Setup, Station } from "../checks/check.ts";
import { stages } from "../checks/check-words.ts";
import { detailOf } from "./details/catalogue.ts";
import { type Detail, detailSize, type NumberedStation } from "./details/detail.ts";
import { plusArrow } from "./details/shop-tools.ts";
import { type FigureUse, figure } from "./figure.ts";
import { lettering } from "./lettering.ts";
import { arrowhead, line, outline } from "./lines.ts";
import { type PartName, type Place, partsOfMachine } from "./machine-parts.ts";
import { machineView } from "./machine-view.ts";
import { stationMarks } from "./mark-places.ts";
import { frontOfMachine, type StationState } from "./marks.ts";
import { extentOf, type Frame, onSheet } from "./projection.ts";
import { poseForStation, stationPlace } from "./station-places.ts";
import { moved, type Svg } from "./svg.ts";

/** A check as it is set up on one machine. */
export interface CheckDrawing {
  readonly check: Check;
  readonly setup: Setup;
  /** Stations in the order of their numbers, 1 first; the check's own where absent. */
  readonly stations?: readonly Station[];
  /** Keys of the stations that have been read. */
  readonly read?: readonly string[];
  /** Key of the station to read now: the machine is drawn standing there. */
  readonly now?: string;
  /** "narrow" puts the picture of what is read under the plan, for a phone. */
  readonly shape?: "wide" | "narrow";
}

/** Plan of this machine with every station marked, and the picture of what is read. */
export function checkSetupDrawing(drawing: CheckDrawing, use: FigureUse = "file"): Svg {
  const stations = numberedStations(drawing);
  const detail = detailOf({ check: drawing.check, setup: drawing.setup, stations });
  const narrow = drawing.shape === "narrow";
  const plan = isOffMachine(drawing.check)
    ? null
    : planOfStations(drawing, stations, narrow ? 344 : 372, narrow ? 320 : 372);
  const planWidth = plan?.width ?? 0;
  const planHeight = plan?.height ?? 0;
  const detailX = narrow || !plan ? 16 : planWidth + 24;
  const detailY = narrow && plan ? planHeight + 12 : 8;
  const picture = detail ? moved(detailX, detailY, detail.body, caption(detail)) : "";
  const detailHeight = detail ? detailSize.height + 30 : 0;
  const width = narrow ? 360 : detailX + detailSize.width + 12;
  const height = narrow ? detailY + detailHeight : Math.max(planHeight, detailY + detailHeight);
  return figure(width, height, wordsFor(drawing, stations, detail), (plan?.body ?? "") + picture, use);
}

/** The picture of what is read alone; null where a check has none. */
export function checkDetailDrawing(drawing: CheckDrawing, use: FigureUse = "file"): Svg | null {
  const stations = numberedStations(drawing);
  const detail = detailOf({ check: drawing.check, setup: drawing.setup, stations });
  if (!detail) return null;
  const words = { title: `${drawing.check.words.title}, what is read`, description: detail.shows };
  return figure(detailSize.width, detailSize.height + 30, words, detail.body + caption(detail), use);
}

/** Stations with the numbers under which drawing, table and sentences know them. */
export function numberedStations({ check, setup, stations, read = [], now }: CheckDrawing): readonly NumberedStation[] {
  return (stations ?? check.stations(setup)).map((station, i) => {
    const state: StationState = station.key === now ? "now" : read.includes(station.key) ? "read" : "open";
    return { station, number: i + 1, state };
  });
}

// Done on a board at the bench: no place of the machine is read.
function isOffMachine(check: Check): boolean {
  return check.id === "square-flip";
}

function planOfStations(
  { check, setup, now }: CheckDrawing,
  stations: readonly NumberedStation[],
  room: number,
  tall: number,
): { readonly body: Svg; readonly width: number; readonly height: number } {
  const d = setup.machine.dimensions;
  const standing = stations.find(({ station }) => station.key === now) ?? stations[0];
  const pose = poseForStation(check, setup, standing?.station);
  const reached = stages.indexOf(check.words.stage);
  const onGrid = check.id === "grid-diagonals";
  const parts = partsOfMachine(d, pose).filter(
    (part) => stages.indexOf(part.stage) <= reached || (onGrid && ["bed", "table"].includes(part.name)),
  );
  const { low, high } = extentOf("plan", parts);
  const scale = Math.min((room - 28) / (high[0] - low[0]), tall / (high[1] - low[1]));
  const width = scale * (high[0] - low[0]);
  const left = 14 + (room - 28 - width) / 2;
  const top = 16;
  const bottom = top + scale * (high[1] - low[1]);
  const frame: Frame = { view: "plan", scale, origin: [left - scale * low[0], top + scale * high[1]] };
  const travel: Place[] = [
    [0, 0, 0],
    [d.Lx, 0, 0],
    [d.Lx, d.Ly, 0],
    [0, d.Ly, 0],
  ];
  const travelOutline = outline(
    "limit",
    travel.map((place) => onSheet(frame, place)),
  );
  const hasBed = parts.some(({ name }) => name === "bed");
  const places = stations.map(({ station }) => stationPlace(check, setup, station, pose));
  const lines = places.flatMap((place) =>
    place.lines.map(([from, to]) => {
      const [a, b] = [onSheet(frame, from), onSheet(frame, to)];
      return line("wide", a, b) + (place.isLength ? arrowhead(b, a, "ink") + arrowhead(a, b, "ink") : "");
    }),
  );
  const marks = stations.map(({ number, state }, i) => ({ at: onSheet(frame, places[i].mark), number, state }));
  const body = [
    machineView(frame, parts, { estimate: null, emphasis: emphasisOf(check), onBed: hasBed ? travelOutline : "" }),
    otherPositions(frame, check, setup, stations, pose.y),
    ...new Set(lines),
    stationMarks(marks, { left: 2, right: room - 2, top: 2, bottom: bottom + 4 }),
    frontOfMachine([left + width / 2, bottom + 8]),
  ].join("");
  return { body, width: room, height: bottom + 42 };
}

/** Where the beam stands at the other stations, in the line of a moving part's other position. */
function otherPositions(
  frame: Frame,
  check: Check,
  setup: Setup,
  stations: readonly NumberedStation[],
  drawnY: number,
): Svg {
  if (check.id !== "gap-under-beam" || setup.machine.layout.id !== "moving-gantry") return "";
  const others = new Set(
    stations.map(({ station }) => poseForStation(check, setup, station).y).filter((y) => y !== drawnY),
  );
  return [...others]
    .flatMap((y) => {
      const pose = poseForStation(check, setup, stations[0]?.station);
      return partsOfMachine(setup.machine.dimensions, { ...pose, y }).filter(({ name }) => name === "beam");
    })
    .map(({ low, high }) =>
      outline("limit", [
        onSheet(frame, low),
        onSheet(frame, [high[0], low[1], 0]),
        onSheet(frame, high),
        onSheet(frame, [low[0], high[1], 0]),
      ]),
    )
    .join("");
}

/** Parts that are read, or that carry what reads. */
function emphasisOf(check: Check): readonly PartName[] {
  switch (check.id) {
    case "gap-under-beam":
    case "beam-upright":
    case "beam-to-line":
      return ["beam"];
    case "rail-wind":
    case "rail-spacing":
    case "frame-diagonals":
      return ["rail"];
    case "feet-rock":
      return ["frame side"];
    case "stop-gaps":
    case "side-push":
    case "wheel-preload":
      return ["side plate", "beam"];
    case "level-ride":
      return ["carriage", "slide"];
    default:
      return check.kind === "geometric" && check.atTip ? ["spindle", "cutter"] : ["spindle"];
  }
}

/** Under every picture with a direction: what its arrow means. */
function caption({ plus }: Detail): Svg {
  if (!plus) return "";
  const y = detailSize.height + 16;
  return plusArrow([92, y], [124, y]) + lettering("reads plus this way", [134, y + 4.5], { second: true });
}

function wordsFor({ check, setup }: CheckDrawing, stations: readonly NumberedStation[], detail: Detail | null) {
  const list = stations.map(({ number, station }) => `${number}: ${station.words}.`).join(" ");
  const plan = isOffMachine(check) ? "" : `Plan of the machine, ${setup.machine.layout.words}, with its stations. `;
  return {
    title: `${check.words.title}, how it is set up`,
    description: `${plan}${detail?.shows ?? ""} Stations: ${list}`,
  };
}
