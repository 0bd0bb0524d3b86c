import { refusal } from "../core/base/diagnostic.ts";
import type { UserCoordinates } from "../core/fit/timeline.ts";
import type { MachineDescription } from "../core/machine/description.ts";
import { type Reach, reachOf } from "../core/machine/reach.ts";
import { eventsOf, type Timed } from "./event-order.ts";
import type { Known } from "./known.ts";
import { machineProblems } from "./machine-problems.ts";
import { nearestWord } from "./nearest-word.ts";
import type { Report } from "./report.ts";

/** The latest description under the latest name. Null, and said why, where there is none or it cannot be. */
export function machineFromEvents(ordered: readonly Timed[], report: Report): MachineDescription | null {
  const described = eventsOf(ordered, "machine-described").at(-1)?.event;
  if (described === undefined) {
    report.addOfWhole(ordered[0]?.event, refusal("logbook-without-machine", {}));
    return null;
  }
  report.add(described, machineProblems(described.machine), "machine");
  if (report.refuses) return null;
  const named = eventsOf(ordered, "machine-described", "machine-renamed").at(-1)!.event;
  const name = named.kind === "machine-renamed" ? named.name : named.machine.name;
  return { ...described.machine, name };
}

/**
 * The reach that was described at a time, by whose travel and edges a run then begun lays out its stations; null where it
 * is the newest one. Before the first description, the first counts: clocks of two devices differ.
 */
export function reachesFromEvents(ordered: readonly Timed[]): (at: number) => Reach | null {
  const described = eventsOf(ordered, "machine-described");
  const newest = JSON.stringify(reachOf(described.at(-1)!.event.machine));
  const reaches = described.map(({ event, at }) => {
    const reach = reachOf(event.machine);
    return { at, reach: JSON.stringify(reach) === newest ? null : reach };
  });
  return (at) => (reaches.filter((one) => one.at <= at).at(-1) ?? reaches[0]).reach;
}

/** Packing that is in place lies under adjusters that the machine has. */
export function reportStrangePacking(ordered: readonly Timed[], known: Known, report: Report): void {
  const event = eventsOf(ordered, "machine-described").at(-1)!.event;
  for (const [adjuster, mm] of Object.entries(event.machine.details?.packingNowMm ?? {})) {
    const own = known.adjusters.get(adjuster);
    const where = { field: `machine.details.packingNowMm.${adjuster}` };
    if (own === undefined) {
      const data = { adjuster, meant: nearestWord(adjuster, known.adjusters.keys()) ?? "" };
      report.add(event, [refusal("adjuster-unknown", where, data)]);
    } else if (mm < 0 && own.packing !== "top or bottom") {
      report.add(event, [refusal("packing-below-nothing", where, { adjuster, mm })]);
    }
  }
}

/**
 * When each packing was stated as the newest description has it: a description that repeats what an older one said of a
 * place does not state it anew, since a correction of other numbers carries the old packing along.
 */
export function packingStatedAt(ordered: readonly Timed[]): ReadonlyMap<string, number> {
  let stated: ReadonlyMap<string, { readonly mm: number; readonly at: number }> = new Map();
  for (const { event, at } of eventsOf(ordered, "machine-described")) {
    const packing = Object.entries(event.machine.details?.packingNowMm ?? {});
    stated = new Map(
      packing.map(([adjuster, mm]) => {
        const before = stated.get(adjuster);
        return [adjuster, before?.mm === mm ? before : { mm, at }];
      }),
    );
  }
  return new Map(Array.from(stated, ([adjuster, { at }]) => [adjuster, at]));
}

export function coordinatesFromEvents(ordered: readonly Timed[], report: Report): UserCoordinates | null {
  const event = eventsOf(ordered, "coordinates-set").at(-1)?.event;
  if (event === undefined) return null;
  const { axes, tried } = event;
  const names = new Set<string>();
  for (const axis of ["x", "y", "z"] as const) {
    const name = axes[axis].named;
    const where = { field: `axes.${axis}.named` };
    if (names.has(name)) report.add(event, [refusal("coordinates-axis-named-twice", where, { name })]);
    names.add(name);
  }
  return { axes, tried };
}
