import { refusal } from "../core/base/diagnostic.ts";
import type { Happening } from "../core/fit/timeline.ts";
import { eventsOf, type Timed } from "./event-order.ts";
import type { Known } from "./known.ts";
import { nearestWord } from "./nearest-word.ts";
import type { Report } from "./report.ts";

/** What changed the machine between readings, in order. A move that was entered by mistake has never been made. */
export function happeningsFromEvents(ordered: readonly Timed[], known: Known, report: Report): readonly Happening[] {
  const moves = new Set(eventsOf(ordered, "move-made").map(({ event }) => event.id));
  const undone = new Set<string>();
  for (const { event } of eventsOf(ordered, "move-undone")) {
    if (moves.has(event.move)) undone.add(event.move);
    else report.add(event, [refusal("move-unknown", { field: "move" }, { move: event.move })]);
  }
  const happenings: Happening[] = [];
  for (const { event, at } of eventsOf(
    ordered,
    "homed",
    "powered-on",
    "move-made",
    "skimmed",
    "knocked",
    "transported",
    "part-replaced",
  )) {
    const { id } = event;
    switch (event.kind) {
      case "move-made": {
        const { adjuster, amount } = event;
        if (!known.adjusters.has(adjuster)) {
          const data = { adjuster, meant: nearestWord(adjuster, known.adjusters) ?? "" };
          report.add(event, [refusal("adjuster-unknown", { field: "adjuster" }, data)]);
        }
        if (!undone.has(id)) happenings.push({ kind: "moved", id, at, adjuster, amount });
        break;
      }
      case "knocked":
      case "part-replaced":
        happenings.push({ kind: event.kind, id, at, members: event.members ?? [] });
        break;
      default:
        happenings.push({ kind: event.kind, id, at });
    }
  }
  return happenings;
}
