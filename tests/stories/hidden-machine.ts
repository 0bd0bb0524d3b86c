import { readFileSync } from "node:fs";
import { openSession } from "../../src/app/session.ts";
import { demandsAsked } from "../../src/app/wished-demands.ts";
import { checkById } from "../../src/core/checks/catalogue.ts";
import type { GeometricCheck, Setup } from "../../src/core/checks/check.ts";
import type { Adjuster } from "../../src/core/machine/adjusters/adjuster.ts";
import { adjustersOf } from "../../src/core/machine/adjusters/catalogue.ts";
import type { Scene } from "../../src/core/machine/kinematics.ts";
import { type Machine, nominalState } from "../../src/core/machine/machine.ts";
import { createRandom } from "../../src/core/numerics/random.ts";
import { reduceSamples } from "../../src/core/work/demand.ts";
import { done } from "./kilter.ts";

/** What a plan of the command line looks like to a program. */
export interface JsonPlan {
  readonly answer: string;
  readonly minutes: number;
  readonly chance: { readonly now: number; readonly after: number; readonly knownExactly: number };
  readonly moves: readonly JsonMove[];
  readonly demands: readonly {
    readonly before: JsonDemand;
    readonly after: JsonDemand;
    readonly excess: number;
    readonly cure: { readonly kind: string } | null;
  }[];
}

export interface JsonMove {
  readonly adjuster: string;
  readonly amount: number;
  readonly unit: string;
  readonly sentence: string;
  readonly stop: {
    readonly words: string;
    readonly check: string;
    readonly station: string;
    readonly run: string | null;
    readonly reads: number;
    readonly from: number;
    readonly to: number;
  } | null;
  readonly brings: readonly { readonly demand: string; readonly before: number; readonly after: number }[];
}

export interface JsonDemand {
  readonly id: string;
  readonly kind: string;
  readonly limit: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly verdict: string;
}

/** A machine whose truth only the test knows: it is read and moved through the command line. */
export class HiddenMachine {
  readonly file: string;
  readonly machine: Machine;
  private truth: Float64Array;
  private readonly random;

  constructor(file: string, offsets: Readonly<Record<string, number>>, seed: number) {
    this.file = file;
    this.machine = sessionOf(file).machine;
    this.random = createRandom(seed);
    this.truth = nominalState(this.machine);
    for (const [id, value] of Object.entries(offsets)) this.truth[this.indexOf(id)] += value;
  }

  /** Something gives way that nobody sees. */
  shift(mode: string, by: number): void {
    this.truth[this.indexOf(mode)] += by;
  }

  /** Reads every station of a check, with a scatter in the reading's unit, and types it; on another day where one is said. */
  read(id: string, tool: string, scatter: number, options: Readonly<Record<string, string>> = {}, at?: string): void {
    const readings = this.readingsOf(id, tool, scatter, options);
    const set = Object.entries(options).flatMap(([key, value]) => ["--set", `${key}=${value}`]);
    done(["read", this.file, id, ...readings, "--with", tool, ...set, ...(at === undefined ? [] : ["--at", at])]);
  }

  /** What would be read at every station, as it is typed. */
  readingsOf(
    id: string,
    tool: string,
    scatter: number,
    options: Readonly<Record<string, string>> = {},
  ): readonly string[] {
    const check = checkById(id) as GeometricCheck;
    const instrument = sessionOf(this.file).timeline.instruments.get(tool) ?? null;
    const setup: Setup = { machine: this.machine, options, instrument };
    return check.stations(setup).map((station) => {
      const unknowns = check.unknowns(setup, station);
      const { value } = check.predict(this.scene(), station, setup, (key) => ({
        value: unknowns.find((unknown) => unknown.key === key)?.mean ?? 0,
        gradient: new Float64Array(this.truth.length),
      }));
      return (value + (station.nominal ?? 0) + scatter * this.random.normal()).toFixed(3);
    });
  }

  /** Makes a move as a hand makes it, not quite as far as was meant, and notes it. */
  move(move: Pick<JsonMove, "adjuster" | "amount">): void {
    const adjuster = this.makeUnnoted(move);
    const far = adjuster.kind === "assign" ? [] : ["--amount", String(move.amount)];
    done(["done", this.file, adjuster.id, ...far]);
  }

  /** The same where it is noted elsewhere. */
  makeUnnoted({ adjuster: id, amount }: Pick<JsonMove, "adjuster" | "amount">): Adjuster {
    const adjuster = adjustersOf(this.machine).find((candidate) => candidate.id === id);
    if (!adjuster) throw new Error(`no adjuster ${id}`);
    const made = amount + adjuster.sd * this.random.normal();
    for (const [mode, perUnit] of Object.entries(adjuster.effect)) this.truth[this.indexOf(mode)] += perUnit * made;
    for (const [mode, sd] of Object.entries(adjuster.frees)) {
      this.truth[this.indexOf(mode)] += sd * this.random.normal();
    }
    for (const [mode, [mean]] of Object.entries(adjuster.leaves ?? {})) this.truth[this.indexOf(mode)] = mean;
    return adjuster;
  }

  /** The largest of true value over limit, over all that the logbook's work asks. */
  worst(): number {
    const { machine, timeline } = sessionOf(this.file);
    const ratios = demandsAsked(machine, timeline.wishes).map((demand) => {
      const values = demand.samples(this.scene()).map(({ value }) => value);
      return reduceSamples(demand, values) / demand.limit;
    });
    return Math.max(...ratios);
  }

  private scene(): Scene {
    return { machine: this.machine, state: this.truth, size: this.truth.length, skim: null };
  }

  private indexOf(mode: string): number {
    const index = this.machine.parameterIndex.get(mode);
    if (index === undefined) throw new Error(`no mode ${mode}`);
    return index;
  }
}

function sessionOf(file: string) {
  const session = openSession(readFileSync(file), file);
  if (!session.ok) throw new Error(`${file} cannot be read`);
  return session.value;
}
