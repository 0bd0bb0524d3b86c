import { refusal } from "../core/base/diagnostic.ts";
import type { UserCoordinates } from "../core/fit/timeline.ts";
import type { MachineDescription } from "../core/machine/description.ts";
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

/** Packing that is in place lies under adjusters that the machine has. */
export function reportStrangePacking(ordered: readonly Timed[], known: Known, report: Report): void {
  const event = eventsOf(ordered, "machine-described").at(-1)!.event;
  for (const adjuster of Object.keys(event.machine.details?.packingNowMm ?? {})) {
    if (known.adjusters.has(adjuster)) continue;
    const where = { field: `machine.details.packingNowMm.${adjuster}` };
    const data = { adjuster, meant: nearestWord(adjuster, known.adjusters) ?? "" };
    report.add(event, [refusal("adjuster-unknown", where, data)]);
  }
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
