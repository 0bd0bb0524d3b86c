import { shapeNumbers } from "../../app/drawn-machine.ts";
import { solidMachine } from "../../core/drawing/solids.ts";
import { assessmentOf } from "./held.ts";
import type { Answer } from "./protocol.ts";
import type { TurnedPage } from "./protocol-turned.ts";
import { answerFrom } from "./told.ts";

/** The machine to be turned, by the same places and factors as its drawings. */
export function turnedPage(machine: string): Answer<TurnedPage> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const { machine: body, estimate, timeline } = assessment;
    const read = timeline.readings.length > 0;
    const solids = solidMachine(body, read ? estimate.state : null);
    const { factor, tooFarOut } = solids.exaggeration;
    return {
      machine: timeline.machine.name,
      solids,
      magnified: !read
        ? "Nothing has been measured yet: it stands here as it should be."
        : `Strong lines: as estimated, exaggerated ${factor} times${tooFarOut ? ", too far out to draw larger" : ""}. Faint lines: as it should be.`,
      numbers: read ? shapeNumbers(assessment) : [],
    };
  });
}
