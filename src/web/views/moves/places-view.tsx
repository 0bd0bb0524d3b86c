import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { machineAddress } from "../../router.ts";
import type { AdjusterPlace } from "../../worker/protocol-moves.ts";
import { useAnswer } from "../../worker/use-answer.ts";

/** All places where the machine can be changed, by the letters of the drawing. */
export function PlacesView({ machine }: { machine: string }) {
  const board = useAnswer("movesBoard", { machine }).value;
  if (!board?.ok) return <NotThere answer={board} />;
  const { places, placesPicture } = board.value;
  return (
    <main class="places">
      <Heading words="Where the machine can be changed" of={board.value.machine} />
      <p class="small second">
        Open one to note a move that no plan has asked for, to keep it as it is, or to free it. How far each goes counts
        from where it stands now.
      </p>
      <div class="places-columns">
        <div class="places-picture">
          <Drawing svg={placesPicture} />
        </div>
        <table class="places-table">
          <thead>
            <tr>
              <th scope="col">
                <span class="hide">letter</span>
              </th>
              <th scope="col">place</th>
              <th scope="col">goes</th>
              <th scope="col" class="num">
                lies there
              </th>
              <th scope="col" class="num">
                takes
              </th>
            </tr>
          </thead>
          <tbody>
            {places.map((place) => (
              <tr key={place.id}>
                <td class="strong">{place.letter}</td>
                <th scope="row">
                  <Link to={machineAddress(machine, "moves", place.id)}>{place.words}</Link>
                  <PlaceState place={place} />
                </th>
                <td>{place.reach}</td>
                <td class="num">{place.lies}</td>
                <td class="num">{place.minutes}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="links">
        <Link to={machineAddress(machine, "moves")}>Back to the moves</Link>
      </p>
    </main>
  );
}

function PlaceState({ place: { locked, available } }: { place: AdjusterPlace }) {
  if (locked !== null) return <span class="small block">kept as it is: {locked}</span>;
  return available ? null : <span class="small second block">not there, or nobody gets at it</span>;
}
