import type { Carrier } from "../app/carriers.ts";
import { formatChance } from "../core/base/number-format.ts";
import { say, wrap } from "./terminal.ts";

/** A line for each that carries a part, its share before it. */
export function sayCarriers(carriers: readonly Carrier[]): void {
  for (const { what, share } of carriers) {
    say(wrap(`  ${formatChance(share).padStart(10)}  ${what}`, undefined, " ".repeat(14)));
  }
}
