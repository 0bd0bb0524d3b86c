import type { Check, Setup, Station } from "../../core/checks/check.ts";
import { TRAM_RADIUS } from "../../core/checks/tram-places.ts";
import { numberedStations } from "../../core/drawing/check-setup.ts";
import { figure } from "../../core/drawing/figure.ts";
import { arrowhead, circle, dot, line } from "../../core/drawing/lines.ts";
import { partsOfMachine } from "../../core/drawing/machine-parts.ts";
import { machineView } from "../../core/drawing/machine-view.ts";
import { stationMarks } from "../../core/drawing/mark-places.ts";
import { frontOfMachine } from "../../core/drawing/marks.ts";
import { type Frame, onSheet } from "../../core/drawing/projection.ts";
import { poseForStation, stationPlace } from "../../core/drawing/station-places.ts";
import type { Svg } from "../../core/drawing/svg.ts";
import { frameFor, travelOf } from "./small-plan.ts";

/** Room for who stands in front of the machine, px. */
const FRONT = 28;

/**
 * The machine from above with the stations of a check, standing at the one that is read now: for a small screen. Of a
 * check that is read in several swings or pushes only the present one is shown, and the places of the others as dots.
 */
export function stationPlan(
  asked: {
    readonly check: Check;
    readonly setup: Setup;
    readonly read: readonly string[];
    readonly now: string | null;
  },
  size: number,
): Svg {
  const { check, setup, read, now } = asked;
  const { machine } = setup;
  const all = numberedStations({ check, setup, read, ...(now !== null && { now }) });
  const standing = all.find(({ station }) => station.key === now) ?? all[0];
  const stations = all.filter(({ station }) => partOf(check, station) === partOf(check, standing.station));
  const others = all.filter((one) => !stations.includes(one) && check.id === "tram-sweep");
  const pose = poseForStation(check, setup, standing?.station);
  const parts = partsOfMachine(machine.dimensions, pose);
  const frame = frameFor(machine, parts, size, 12);
  const places = stations.map(({ station }) => stationPlace(check, setup, station, pose));
  const lines = places.flatMap((place) =>
    place.lines.map(([from, to]) => {
      const [a, b] = [onSheet(frame, from), onSheet(frame, to)];
      return line("thin", a, b) + (place.isLength ? arrowhead(b, a, "ink") + arrowhead(a, b, "ink") : "");
    }),
  );
  const marks = stations.map(({ number, state }, i) => ({ at: onSheet(frame, places[i].mark), number, state }));
  const body = [
    machineView(frame, parts, { estimate: null, emphasis: ["beam"], onBed: travelOf(frame, machine) }),
    ...new Set(others.map(({ station }) => dot(onSheet(frame, station.at)))),
    swing(check, standing.station, frame),
    ...new Set(lines),
    stationMarks(marks, { left: 1, right: size - 1, top: 1, bottom: size - 1 }),
    frontOfMachine([size / 2, size]),
  ].join("");
  const open = stations.find(({ state }) => state === "now");
  const description =
    open === undefined
      ? `${all.length} stations, seen from above.`
      : `From above; the front of the machine is below. Station ${open.number} of ${all.length}: ${open.station.words}.`;
  return figure(size, size + FRONT, { title: `Where it is read: ${check.words.title}`, description }, body, "page");
}

/** What is read without moving the machine on, or along one axis: the same for all stations of a check that has no parts. */
function partOf(check: Check, { at, key }: Station): string {
  if (check.id === "tram-sweep") return at.join(" ");
  return check.id === "push-and-release" ? key[0] : "";
}

/** The circle that an arm in the spindle goes round. */
function swing(check: Check, { at }: Station, frame: Frame): Svg {
  return check.id === "tram-sweep" ? circle("limit", onSheet(frame, at), frame.scale * TRAM_RADIUS) : "";
}
