import { useRef } from "preact/hooks";
import type { MachineDescription } from "../../../core/machine/description.ts";
import type { UserCoordinates } from "../../../core/machine/user-coordinates.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import type { Drawn } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";

interface LiveDrawingProps {
  readonly drawn: Drawn | null;
  readonly isWhole: boolean;
  /** The view that the number being typed belongs to; it is the one shown where there is room for one. */
  readonly view: "plan" | "front";
}

/** The machine as the form describes it at this moment; while a number is missing, as it was before. */
export function LiveDrawing({ drawn, isWhole, view }: LiveDrawingProps) {
  const last = useRef<Drawn | null>(null);
  if (drawn !== null && drawn.plan !== "") last.current = drawn;
  const shown = last.current;
  return (
    <section class="live-drawing" aria-label="The machine as described">
      {!isWhole && <p class="note">The drawing follows as soon as all eight numbers are there.</p>}
      {shown && (
        <>
          <div class="on-wide">
            <Drawing svg={shown.sheet} frame name="The machine in three views" />
          </div>
          <div class="on-narrow">
            <Drawing svg={shown.strips[view]} />
          </div>
          {shown.axes !== "" && (
            <div class="axes-picture">
              <Drawing svg={shown.axes} />
            </div>
          )}
        </>
      )}
      {drawn && <ToldList told={drawn.told} />}
    </section>
  );
}

/** Asks for the drawing of whatever the form describes now. */
export function useDrawn(machine: MachineDescription, coordinates: UserCoordinates | null): Drawn | null {
  const { projection } = preferences.value;
  return useAnswer("draw", { machine, coordinates, projection }).value;
}
