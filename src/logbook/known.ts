import type { Diagnostic } from "../core/base/diagnostic.ts";
import type { Outcome } from "../core/base/outcome.ts";
import type { UnitId } from "../core/base/units.ts";
import type { ReadingQuantity } from "../core/checks/check.ts";
import type { Run } from "../core/fit/timeline.ts";
import type { Entry } from "../core/instruments/entry.ts";
import type { Instrument, OwnInstrument } from "../core/instruments/instrument.ts";
import type { MeasuringObject, OwnObject } from "../core/instruments/object.ts";
import type { Adjuster } from "../core/machine/adjusters/adjuster.ts";
import type { MachineDescription } from "../core/machine/description.ts";
import type { DemandWish } from "../core/work/demand.ts";

/** What is known of a check for reading its runs. */
export interface KnownCheck {
  readonly quantity: ReadingQuantity;
  /** 2 where a station takes two gaps or two lengths; one alone is then their difference. */
  readonly entries: 1 | 2;
  /** True where who reads it puts the sign. */
  readonly bothWays: boolean;
}

/** The names that one machine's logbook may use, with the unit that the core keeps their numbers in. */
export interface Known {
  readonly checks: ReadonlyMap<string, KnownCheck>;
  readonly adjusters: ReadonlyMap<string, Pick<Adjuster, "id" | "kind" | "packing" | "moves">>;
  readonly findings: ReadonlyMap<string, UnitId>;
  readonly modes: ReadonlySet<string>;
  readonly kindsOfWork: ReadonlySet<string>;
  /** Kinds of demand, each with the unit of its limit. */
  readonly demandKinds: ReadonlyMap<string, UnitId>;
  /** What is wrong with a demand of the user's own on this machine: its sizes, its place. */
  demandProblems(wish: DemandWish): readonly Diagnostic[];
  instrumentFrom(own: OwnInstrument): Outcome<Instrument>;
  objectFrom(own: OwnObject): Outcome<MeasuringObject>;
  /** What is wrong with a run as such: its check on this machine, its instrument, its objects, its choices. */
  runProblems(run: Run, instrument: Instrument | null): readonly Diagnostic[];
  /**
   * For one run: what is wrong with a station's key, or null. A key is one that the check lists or a place of the user's
   * own, such as "x=123 y=45 z=10" in mm of machine coordinates. Asked once for every reading, so it remembers.
   */
  stationProblems(run: Run, instrument: Instrument | null): (station: string) => Diagnostic | null;
  /** What is wrong with one entry as read (core units) on this instrument: out of its range, no stack of its leaves. */
  entryProblems(instrument: Instrument, entry: Entry): readonly Diagnostic[];
}

/** Everything that is known, once the machine is: adjusters, findings and stations depend on it. */
export type Catalogue = (machine: MachineDescription) => Known;
