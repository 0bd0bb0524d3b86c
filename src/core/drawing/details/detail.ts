import type { Check, Setup, Station } from "../../checks/check.ts";
import type { Point } from "../lines.ts";
import type { StationState } from "../marks.ts";
import type { Svg } from "../svg.ts";

/** A station with the number that drawing, table and sentences share. */
export interface NumberedStation {
  readonly station: Station;
  readonly number: number;
  readonly state: StationState;
}

/** What a picture of the place that is read is drawn from. */
export interface DetailInput {
  readonly check: Check;
  readonly setup: Setup;
  readonly stations: readonly NumberedStation[];
}

/** The picture of what is read at a station: not to scale. */
export interface Detail {
  readonly body: Svg;
  /** What a person who cannot see it is told. */
  readonly shows: string;
  /** The arrow that says which way reads plus, on the sheet; null where no reading has a direction. */
  readonly plus: { readonly from: Point; readonly to: Point } | null;
}

export const detailSize = { width: 320, height: 226 } as const;
