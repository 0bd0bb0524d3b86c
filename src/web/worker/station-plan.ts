import type { Check, Setup } from "../../core/checks/check.ts";
import { numberedStations } from "../../core/drawing/check-setup.ts";
import { figure } from "../../core/drawing/figure.ts";
import { arrowhead, line } from "../../core/drawing/lines.ts";
import { partsOfMachine } from "../../core/drawing/machine-parts.ts";
import { machineView } from "../../core/drawing/machine-view.ts";
import { stationMarks } from "../../core/drawing/mark-places.ts";
import { frontOfMachine } from "../../core/drawing/marks.ts";
import { onSheet } from "../../core/drawing/projection.ts";
import { poseForStation, stationPlace } from "../../core/drawing/station-places.ts";
import type { Svg } from "../../core/drawing/svg.ts";
import { frameFor, travelOf } from "./small-plan.ts";

/** Room for who stands in front of the machine, px. */
const FRONT = 28;

/** The machine from above with the stations of a check, standing at the one that is read now: for a small screen. */
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
  const stations = numberedStations({ check, setup, read, ...(now !== null && { now }) });
  const standing = stations.find(({ station }) => station.key === now) ?? stations[0];
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
    ...new Set(lines),
    stationMarks(marks, { left: 1, right: size - 1, top: 1, bottom: size - 1 }),
    frontOfMachine([size / 2, size]),
  ].join("");
  const open = stations.find(({ state }) => state === "now");
  const description =
    open === undefined
      ? `${stations.length} stations, seen from above.`
      : `From above; the front of the machine is below. Station ${open.number} of ${stations.length}: ${open.station.words}.`;
  return figure(size, size + FRONT, { title: `Where it is read: ${check.words.title}`, description }, body, "page");
}
