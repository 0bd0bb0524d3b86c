import { kindsOfWork } from "../app/kinds-of-work.ts";
import { refusal } from "../core/base/diagnostic.ts";
import { nearestWord } from "../logbook/nearest-word.ts";
import { BadInput } from "./report.ts";

/** A kind of work of the catalogue by its id; "usual" for the usual one. */
export function kindOfWorkFrom(text: string): string | null {
  if (text === "usual") return null;
  if (kindsOfWork.has(text)) return text;
  const listed = [...kindsOfWork.keys()];
  const data = { word: text, of: "a kind of work", listed: listed.join(", ") };
  throw new BadInput([refusal("word-unknown", {}, { ...data, meant: nearestWord(text, listed) ?? "" })]);
}
