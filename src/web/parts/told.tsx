import { wordsForDiagnostic } from "../../core/base/diagnostic-words.ts";
import type { Told } from "../worker/protocol.ts";

interface ToldListProps {
  readonly told: readonly Told[];
  /** What a line is called where it was no line of a text. */
  readonly nameOf?: (line: number) => string;
}

/** What is wrong and what to do, each as sentences. */
export function ToldList({ told, nameOf = (line) => `Line ${line}` }: ToldListProps) {
  if (told.length === 0) return null;
  return (
    <ul class="told">
      {told.map((one) => {
        const { what, expected, remedy } = wordsForDiagnostic(one.code, one.data);
        return (
          <li key={`${one.code} ${one.field} ${one.line} ${what}`} class={one.refuses ? "refuses" : ""}>
            <strong>{one.line === null ? asSentence(what) : `${nameOf(one.line)}: ${withStop(what)}`}</strong>{" "}
            {expected !== "" && `Expected: ${withStop(expected)}`} {asSentence(remedy)}
          </li>
        );
      })}
    </ul>
  );
}

/** What is wrong, and what to do: two sentences for where there is room for two lines. */
export function toldInLines(told: Told): readonly [what: string, remedy: string] {
  const { what, remedy } = wordsForDiagnostic(told.code, told.data);
  return [asSentence(what), asSentence(remedy)];
}

export function asSentence(text: string): string {
  if (text === "") return "";
  return withStop(text[0].toUpperCase() + text.slice(1));
}

function withStop(text: string): string {
  return /[.!?…]$/.test(text) ? text : `${text}.`;
}
