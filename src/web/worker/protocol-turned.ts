import type { SolidMachine } from "../../core/drawing/solids.ts";
import type { Answer } from "./protocol-parts.ts";

/** The machine in space, with the numbers that the picture shows. */
export interface TurnedPage {
  readonly machine: string;
  readonly solids: SolidMachine;
  /** By how much its errors are drawn too large, in words. */
  readonly magnified: string;
  readonly numbers: readonly {
    readonly words: string;
    readonly value: string;
    readonly uncertainty: string;
    readonly unit: string;
  }[];
}

export interface TurnedRequests {
  turned: { ask: { machine: string }; answer: Answer<TurnedPage> };
}
