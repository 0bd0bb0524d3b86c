import { describe, expect, it } from "vitest";
import { saidOf, timelineAfter } from "../../tests/logbook/replayed.ts";
import { sampleMachine } from "../../tests/logbook/sample-events.ts";
import { estimateTimeline } from "../core/fit/estimate.ts";
import { machineFromDescription } from "../core/machine/machine.ts";

const wider = { ...sampleMachine, travelMm: { x: 700, y: 500, z: 70 }, railPlanesMm: { left: -90, right: 790 } };
const described = (machine: object) => ({ kind: "machine-described", machine });

/** Where the observations of each run stand, and what their readings are held against. */
function placesAfter(...bodies: Parameters<typeof timelineAfter>) {
  const timeline = timelineAfter(...bodies);
  const { problem } = estimateTimeline(machineFromDescription(timeline.machine), timeline);
  return problem.observations.map(({ run, station }) => ({ run: run.id, key: station.key, at: station.at }));
}

describe("a machine that is described anew after readings", () => {
  it("leaves every reading at the place where it was taken", () => {
    expect(placesAfter(described(wider))).toEqual(placesAfter());
    expect(placesAfter().length).toBeGreaterThan(1);
  });

  it("lays out by the new travel what is read in runs that are begun afterwards", () => {
    const run = { kind: "run-begun", run: "gap-2", check: "gap-under-beam", instrument: "leaves" };
    const reading = {
      kind: "reading-taken",
      run: "gap-2",
      station: "front right",
      unit: "mm",
      goes: 0.4,
      doesNotGo: 0.45,
    };
    const placeOf = (...bodies: Parameters<typeof timelineAfter>) =>
      placesAfter(...bodies).find(({ run, key }) => run === "gap-2" && key === "front right")?.at[0];
    const before = placeOf(run, reading) as number;
    expect(placeOf(described(wider), run, reading)).toBeCloseTo((before / 600) * 700, 9);
    expect(placeOf(run, described(wider), reading)).toBe(before);
    expect(placeOf(run, reading, described(wider))).toBe(before);
  });

  it("counts a corrected height for all readings, and does not touch their places", () => {
    const higher = { ...sampleMachine, beamCentreMm: 125 };
    expect(timelineAfter(described(higher)).runs.every(({ reach }) => reach === undefined)).toBe(true);
    expect(placesAfter(described(higher))).toEqual(placesAfter());
  });

  it("stays readable where a place of the user's own lies outside the other travel", () => {
    const far = { kind: "reading-taken", run: "gap-1", station: "x=590 y=45", unit: "mm", goes: 0.4, doesNotGo: 0.45 };
    const narrower = { ...sampleMachine, travelMm: { x: 400, y: 500, z: 70 } };
    expect(saidOf(far, described(narrower))).toEqual([]);
    expect(placesAfter(far, described(narrower)).at(-1)?.at[0]).toBe(590);
    const beyond = { ...far, station: "x=680 y=45" };
    expect(saidOf(beyond, described(wider))).toEqual([]);
    expect(saidOf(beyond).map(([code]) => code)).toEqual(["station-off-the-bed"]);
  });
});
