import { Link } from "../../parts/link.tsx";
import { machineAddress } from "../../router.ts";
import type { NextThing } from "../../worker/protocol.ts";

/** Things to do, each with why, how long and with what; where asked for, the first is the one to act on. */
export function ThingList({
  machine,
  things,
  act = false,
}: {
  machine: string;
  things: readonly NextThing[];
  act?: boolean;
}) {
  if (things.length === 0) return null;
  return (
    <ol class="thing-list">
      {things.map((thing, i) => (
        <li key={thing.path}>
          <Link class={act && i === 0 ? "button act" : undefined} to={`${machineAddress(machine)}/${thing.path}`}>
            {thing.title}
          </Link>
          <p class="small second">
            {keptTogether([timeAndTools(thing), thing.why].filter((part) => part !== "").join(" "))}
          </p>
        </li>
      ))}
    </ol>
  );
}

/** A sign stays with its number at the end of a line. */
export function keptTogether(sentence: string): string {
  return sentence.replaceAll("± ", "±\u00a0");
}

/** "15 minutes, with the dial indicator." */
export function timeAndTools({ minutes, tools }: Pick<NextThing, "minutes" | "tools">): string {
  const time = minutes === null ? "" : minutes === 1 ? "1 minute" : `${minutes} minutes`;
  const parts = [time, tools === "" ? "" : `with ${tools}`].filter((part) => part !== "").join(", ");
  return parts === "" ? "" : `${parts[0].toUpperCase()}${parts.slice(1)}.`;
}
