import type { Entry } from "../instruments/entry.ts";
import type { Instrument } from "../instruments/instrument.ts";
import type { MeasuringObject } from "../instruments/object.ts";
import type { AdjusterChange } from "../machine/adjusters/change.ts";
import type { MachineDescription } from "../machine/description.ts";
import type { Reach } from "../machine/reach.ts";
import type { UserCoordinates } from "../machine/user-coordinates.ts";

export type { UserCoordinates };

/**
 * What the logbook comes to when it is read from its first event to its last: the ground for every estimate.
 * Times are milliseconds since 1970-01-01T00:00Z, taken from the events' own time.
 */
export interface Timeline {
  readonly machine: MachineDescription;
  readonly coordinates: UserCoordinates | null;
  readonly instruments: ReadonlyMap<string, Instrument>;
  readonly objects: ReadonlyMap<string, MeasuringObject>;
  readonly runs: readonly Run[];
  /** Readings in the order in which they were taken. */
  readonly readings: readonly Reading[];
  readonly happenings: readonly Happening[];
  /** The user's own limits, by finding, in the finding's unit. */
  readonly limits: ReadonlyMap<string, number>;
  /** The user's own idea of what is usual: standard uncertainty by mode, in the mode's unit. */
  readonly priors: ReadonlyMap<string, number>;
  /** The user's own figures for adjusters, by adjuster. */
  readonly adjusterChanges: ReadonlyMap<string, AdjusterChange>;
  /** When the description's packing was stated, by adjuster: moves before that are in it already. */
  readonly packingStatedAt: ReadonlyMap<string, number>;
}

/** One carrying-out of a check. */
export interface Run {
  readonly id: string;
  readonly check: string;
  readonly at: number;
  readonly instrument: string | null;
  /** Object id by the role it plays in the check: square, straightedge, block, rule, cutter … */
  readonly objects: Readonly<Record<string, string>>;
  /** Which way things stood, along which axis …: the check says which options it has. */
  readonly options: Readonly<Record<string, string | number | boolean>>;
  readonly conditions: RunConditions;
  /** Applied to every reading of the run: 1, or what a whole run in the wrong unit or sign needs. */
  readonly factor: number;
  readonly withdrawn: string | null;
  /** The reach that was described when it was begun; left out where it still is. */
  readonly reach?: Reach;
}

export interface RunConditions {
  readonly carriageParkedMm?: number;
  readonly hose?: "on" | "off";
  readonly temperatureC?: number;
  readonly humidityPercent?: number;
  readonly note?: string;
}

/** One reading at one station, in core units and as read (the check's formula says what it is compared with). */
export interface Reading {
  readonly id: string;
  readonly run: string;
  readonly at: number;
  /** Key of a station of the run's check, or a place of the user's own: see `stationFromKey`. */
  readonly station: string;
  /** One entry, or two where a station is read as two gaps or two lengths (first minus second). */
  readonly entries: readonly [Entry] | readonly [Entry, Entry];
  /** Reason, when the user has withdrawn it. */
  readonly withdrawn: string | null;
}

/** Something that changed the machine, or what is known of it, between readings. */
export type Happening =
  | { readonly kind: "homed"; readonly id: string; readonly at: number }
  | { readonly kind: "powered-on"; readonly id: string; readonly at: number }
  | {
      readonly kind: "moved";
      readonly id: string;
      readonly at: number;
      readonly adjuster: string;
      readonly amount: number;
      /** What was advised, in the same unit; left out where nothing was. */
      readonly planned?: number;
      readonly gauge?: MoveGauge;
    }
  | { readonly kind: "skimmed"; readonly id: string; readonly at: number }
  /** Members whose joints may have shifted; an empty list means the whole machine. */
  | { readonly kind: "knocked"; readonly id: string; readonly at: number; readonly members: readonly string[] }
  | { readonly kind: "transported"; readonly id: string; readonly at: number }
  | { readonly kind: "part-replaced"; readonly id: string; readonly at: number; readonly members: readonly string[] };

/**
 * What a gauge read at one station while a joint was made fast, with the zero of one run: with its screws loose, nipped,
 * and tightened for good. In core units, as read.
 */
export interface MoveGauge {
  readonly run: string;
  readonly station: string;
  readonly loose: Entry | null;
  readonly nipped: Entry | null;
  readonly final: Entry | null;
}
