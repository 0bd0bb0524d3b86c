import { estimateProblem } from "../../src/core/fit/estimate.ts";
import { predictObservation } from "../../src/core/fit/linearise.ts";
import { placesTouched } from "../../src/core/fit/places.ts";
import { layOutProblem, type Problem } from "../../src/core/fit/problem.ts";
import type { Happening, Reading, Timeline } from "../../src/core/fit/timeline.ts";
import { adjustersOf } from "../../src/core/machine/adjusters/catalogue.ts";
import type { LayoutId } from "../../src/core/machine/description.ts";
import { valuesOnly } from "../../src/core/machine/kinematics.ts";
import { homingYaw, homingYawSd, type Machine } from "../../src/core/machine/machine.ts";
import { skimLeaves } from "../../src/core/machine/skimmed-bed.ts";
import { createRandom, type Random } from "../../src/core/numerics/random.ts";
import { type FoundMoves, findMoves } from "../../src/core/planning/find-moves.ts";
import { withFullCorrections } from "../../src/core/planning/full-correction.ts";
import type { ProgrammeSolver } from "../../src/core/planning/integer-programme.ts";
import type { PlanQuestion } from "../../src/core/planning/plan.ts";
import { demandFromGeneralWish } from "../../src/core/work/catalogue.ts";
import { type Demand, type DemandWish, reduceSamples } from "../../src/core/work/demand.ts";
import { judgeDemands } from "../../src/core/work/judge.ts";
import { type WorkState, workState } from "../../src/core/work/work-state.ts";
import { type PlannedRun, plannedTimeline, workedMachine } from "./simulate.ts";

/** Limits of the trial; places and sizes are the kinds' own. */
const yardstick: readonly DemandWish[] = [
  { kind: "depth-spread", sizes: {}, limit: 0.25 },
  { kind: "plunge-lean", sizes: { depthMm: 40 }, limit: 0.06 },
  { kind: "tram", sizes: { overMm: 200 }, limit: 0.1 },
  { kind: "sides", sizes: {}, limit: 0.25 },
  { kind: "diagonals", sizes: {}, limit: 0.3 },
  { kind: "circle", sizes: { radiusMm: 75 }, limit: 0.15 },
];

/** What a usual evening reads in every round. */
const round: readonly PlannedRun[] = [
  { check: "bed-touch", options: { columns: 5, rows: 5 } },
  { check: "tram-sweep" },
  { check: "hole-rectangle", options: { widthMm: 210, depthMm: 190 } },
  { check: "upright-sweep", objects: { square: "square" }, options: { towards: "side" } },
  {
    check: "upright-sweep",
    objects: { square: "square" },
    options: { towards: "side", stem: "left or front", square: "left or front" },
  },
  { check: "upright-sweep", objects: { square: "square" }, options: { towards: "fore" } },
  {
    check: "upright-sweep",
    objects: { square: "square" },
    options: { towards: "fore", stem: "left or front", square: "left or front" },
  },
  { check: "turnaround", options: { axis: "X" } },
  { check: "turnaround", options: { axis: "Y" } },
  { check: "turnaround", options: { axis: "Z" } },
];

const ROUNDS = 3;
const HOUR = 3_600_000;

/** Leaves of the trial: six of each but the thickest. */
const stockMm = [0.02, 0.05, 0.1, 0.2, 0.5, 1].flatMap((leaf) => Array<number>(leaf === 1 ? 4 : 8).fill(leaf));

/** How one random machine came out. Ratios are the worst of value over limit over all demands. */
export interface LoopResult {
  readonly before: number;
  readonly after: number;
  readonly clairvoyant: number;
  /** Which demand is the worst, by its kind. */
  readonly worst: string;
  /** The same in a homing that is drawn afresh. */
  readonly afterFresh: number;
  readonly clairvoyantFresh: number;
  readonly moves: number;
  readonly clairvoyantMoves: number;
  readonly minutes: number;
  readonly clairvoyantMinutes: number;
}

export function demandsOfTrial(machine: Machine): readonly Demand[] {
  return yardstick.map((wish) => {
    const made = demandFromGeneralWish(machine, wish);
    if (!made.ok) throw new Error(`the trial asks for what the machine has no room for: ${wish.kind}`);
    return made.value;
  });
}

/** A machine drawn from the prior, measured, planned for and moved three times, beside one whose planner knows the truth. */
export function closedLoop(layout: LayoutId, seed: number, solve: ProgrammeSolver): LoopResult {
  const machine = workedMachine(layout);
  const demands = demandsOfTrial(machine);
  const random = createRandom(seed);
  const world = new World(machine, random.fork("world"));
  const start = world.truthAfter([], []);
  const fresh = random.fork("fresh homing").normal() * homingYawSd(machine);
  const before = worstRatio(machine, demands, start, 0);
  const clear = clairvoyantLoop(machine, demands, start, random.fork("clairvoyant"), solve);
  let happenings: readonly Happening[] = [];
  let moves = 0;
  let minutes = 0;
  let truth = start;
  for (let number = 0; number < ROUNDS; number++) {
    const timeline = world.measure(happenings, number);
    const estimate = estimateProblem(layOutProblem(machine, timeline));
    const found = movesFor(questionFor(machine, workState(estimate), demands), solve);
    if (found.moves.length === 0 && !found.skim) break;
    happenings = [...happenings, ...happeningsFor(found, number)];
    moves += found.moves.length + (found.skim ? 1 : 0);
    minutes += minutesFor(machine, found);
    truth = world.truthAfter(happenings, world.readings);
  }
  return {
    before,
    after: worstRatio(machine, demands, truth, 0),
    worst: worstKind(machine, demands, truth),
    clairvoyant: worstRatio(machine, demands, clear.truth, 0),
    afterFresh: worstRatio(machine, demands, truth, fresh),
    clairvoyantFresh: worstRatio(machine, demands, clear.truth, fresh),
    moves,
    clairvoyantMoves: clear.moves,
    minutes,
    clairvoyantMinutes: clear.minutes,
  };
}

/** What a plan would move. */
function movesFor(question: PlanQuestion, solve: ProgrammeSolver): FoundMoves {
  const judge = (state: WorkState) => judgeDemands(state, question.demands, 2000);
  return withFullCorrections(question, findMoves(question, solve, judge), judge);
}

/** A random machine after one round of readings, as a question to the planner. */
export function questionAfterOneRound(layout: LayoutId, seed: number): PlanQuestion {
  const machine = workedMachine(layout);
  const world = new World(machine, createRandom(seed).fork("world"));
  world.truthAfter([], []);
  const estimate = estimateProblem(layOutProblem(machine, world.measure([], 0)));
  return questionFor(machine, workState(estimate), demandsOfTrial(machine));
}

/** What is true of one machine: its modes over its parameters, and those in which its bed was skimmed. */
interface Truth {
  readonly state: Float64Array;
  readonly skim: Float64Array | null;
}

/** Keeps what has been drawn of one machine and of the tools that read it, so that nothing is drawn twice. */
class World {
  readonly #machine: Machine;
  readonly #random: Random;
  readonly #drawn = new Map<string, number>();
  #readings: readonly Reading[] = [];
  #runs: Timeline["runs"] = [];

  constructor(machine: Machine, random: Random) {
    this.#machine = machine;
    this.#random = random;
  }

  get readings(): readonly Reading[] {
    return this.#readings;
  }

  /** Where these happenings leave the machine. */
  truthAfter(happenings: readonly Happening[], readings: readonly Reading[]): Truth {
    const problem = this.#problem(happenings, readings);
    const values = this.#valuesOf(problem);
    const stateOf = (columns: Int32Array) => Float64Array.from(columns, (c) => (c < 0 ? 0 : values[c]));
    const last = problem.modes[problem.modes.length - 1];
    return { state: stateOf(last.columns), skim: last.skim && stateOf(last.skim) };
  }

  /** One more round of readings after these happenings. */
  measure(happenings: readonly Happening[], number: number): Timeline {
    const planned = plannedTimeline(
      this.#machine,
      round.map((run, i) => ({ ...run, atMs: 2 * number * HOUR + i * 60_000 })),
    );
    const rename = (id: string) => `round ${number} ${id}`;
    const ahead = planned.readings.map((reading) => ({ ...reading, id: rename(reading.id), run: rename(reading.run) }));
    this.#runs = [...this.#runs, ...planned.runs.map((run) => ({ ...run, id: rename(run.id) }))];
    const problem = this.#problem(happenings, [...this.#readings, ...ahead]);
    const values = this.#valuesOf(problem);
    const fresh = new Set(ahead.map(({ id }) => id));
    const typed = new Map<string, number>();
    const spots = this.#spotsOf(problem);
    problem.observations.forEach((observation, index) => {
      if (!observation.values.some(({ reading }) => fresh.has(reading.id))) return;
      const predicted = predictObservation(problem, observation, values).value + spots[index];
      for (const { reading, sd } of observation.values)
        typed.set(reading.id, predicted + sd * this.#random.normal() + (observation.station.nominal ?? 0));
    });
    const taken = ahead.map((reading): Reading => {
      const value = typed.get(reading.id);
      if (value === undefined) throw new Error(`no reading was made at ${reading.id}`);
      return { ...reading, entries: [{ form: "value", value }] };
    });
    this.#readings = [...this.#readings, ...taken];
    return this.#timeline(happenings, this.#readings);
  }

  #timeline(happenings: readonly Happening[], readings: readonly Reading[]): Timeline {
    return { ...plannedTimeline(this.#machine, []), runs: this.#runs, readings, happenings };
  }

  #problem(happenings: readonly Happening[], readings: readonly Reading[]): Problem {
    return layOutProblem(this.#machine, this.#timeline(happenings, readings));
  }

  /** The truth of every variable: what is known from before, and the rest drawn by its ties. */
  #valuesOf(problem: Problem): Float64Array {
    const never = new Set(problem.machine.modes.filter((mode) => mode.neverNegative).map(({ id }) => id));
    const values = new Float64Array(problem.variables.length);
    for (const { columns, coefficients, target, sd } of problem.ties) {
      const [own, ...others] = columns;
      const { id } = problem.variables[own];
      let from = target;
      others.forEach((column, j) => {
        from -= coefficients[j + 1] * values[column];
      });
      const known = this.#drawn.get(id);
      const draw = () =>
        never.has(id)
          ? Math.abs(this.#random.normal()) * (sd / Math.sqrt(1 - 2 / Math.PI))
          : from + sd * this.#random.normal();
      values[own] = known ?? draw();
      this.#drawn.set(id, values[own]);
    }
    return values;
  }

  /** Shape of the places that only one observation touches; the others are variables of the problem. */
  #spotsOf(problem: Problem): Float64Array {
    const spots = new Float64Array(problem.observations.length);
    for (const { key, sd, touchedBy } of placesTouched(problem.observations, problem.modes)) {
      const id = `place ${key}`;
      const shared = new Set(touchedBy.map(({ observation }) => observation)).size > 1;
      if (shared) continue;
      const shape = this.#drawn.get(id) ?? sd * this.#random.normal();
      this.#drawn.set(id, shape);
      for (const { observation, weight } of touchedBy) spots[observation] += weight * shape;
    }
    return spots;
  }
}

function questionFor(machine: Machine, state: WorkState, demands: readonly Demand[]): PlanQuestion {
  return {
    state,
    demands,
    adjusters: adjustersOf(machine),
    packingNow: new Map(),
    stockMm,
    locks: new Set(),
    willSkim: null,
  };
}

function happeningsFor({ moves, skim }: FoundMoves, number: number): readonly Happening[] {
  const at = (2 * number + 1) * HOUR;
  const inOrder = [...moves].sort((a, b) => a.lever.adjuster.level - b.lever.adjuster.level);
  const made: Happening[] = inOrder.map(({ lever, amount }, i) => ({
    kind: "moved",
    id: `move ${number} ${String(i).padStart(2, "0")}`,
    at: at + i,
    adjuster: lever.adjuster.id,
    amount,
  }));
  return skim ? [...made, { kind: "skimmed", id: `skim ${number}`, at: at + 1000 }] : made;
}

function minutesFor(machine: Machine, { moves, skim }: FoundMoves): number {
  const own = moves.reduce((sum, { lever }) => sum + lever.adjuster.minutes, 0);
  const groups = new Map(
    moves.flatMap(({ lever: { adjuster } }) =>
      adjuster.readAgain ? [[adjuster.readAgain.group, adjuster.readAgain.minutes] as const] : [],
    ),
  );
  const again = [...groups.values()].reduce((sum, minutes) => sum + minutes, 0);
  const skimming = skim ? (adjustersOf(machine).find(({ kind }) => kind === "skim")?.minutes ?? 0) : 0;
  return own + again + skimming;
}

/** The same planner, told the truth before every round; its moves scatter as anybody's. */
function clairvoyantLoop(
  machine: Machine,
  demands: readonly Demand[],
  start: Truth,
  random: Random,
  solve: ProgrammeSolver,
): { readonly truth: Truth; readonly moves: number; readonly minutes: number } {
  let truth = start;
  let moves = 0;
  let minutes = 0;
  for (let number = 0; number < ROUNDS; number++) {
    const found = movesFor(questionFor(machine, knownState(machine, truth), demands), solve);
    if (found.moves.length === 0 && !found.skim) break;
    truth = movedTruth(machine, truth, found, random);
    moves += found.moves.length + (found.skim ? 1 : 0);
    minutes += minutesFor(machine, found);
  }
  return { truth, moves, minutes };
}

function knownState(machine: Machine, { state, skim }: Truth): WorkState {
  const count = machine.parameters.length;
  const size = skim ? 2 * count : count;
  const covariance = new Float64Array(size * size);
  const home = machine.parameterIndex.get(homingYaw) as number;
  covariance[home * size + home] = homingYawSd(machine) ** 2;
  const still = Float64Array.from(state);
  still[home] = 0;
  return { scene: { machine, state: still, size, skim: skim && { state: skim, column: count } }, covariance };
}

function movedTruth(machine: Machine, truth: Truth, { moves, skim }: FoundMoves, random: Random): Truth {
  const state = Float64Array.from(truth.state);
  for (const { lever, amount } of moves) {
    const { adjuster, change, frees } = lever;
    if (adjuster.kind === "assign") {
      for (const [id, [mean, sd]] of Object.entries(adjuster.leaves ?? {}))
        state[machine.parameterIndex.get(id) as number] = mean + sd * random.normal();
      continue;
    }
    const real = amount + adjuster.sd * random.normal();
    for (let i = 0; i < state.length; i++) state[i] += change[i] * real + frees[i] * random.normal();
  }
  if (!skim) return { state, skim: truth.skim };
  const cut = Float64Array.from(state);
  cut[machine.parameterIndex.get(homingYaw) as number] = 0;
  for (const [id, sd] of skimLeaves(machine)) {
    const index = machine.parameterIndex.get(id);
    if (index !== undefined) state[index] = sd * random.normal();
  }
  return { state, skim: cut };
}

function worstRatio(machine: Machine, demands: readonly Demand[], truth: Truth, yaw: number): number {
  return Math.max(...ratiosOf(machine, demands, truth, yaw));
}

function worstKind(machine: Machine, demands: readonly Demand[], truth: Truth): string {
  const ratios = ratiosOf(machine, demands, truth, 0);
  return demands[ratios.indexOf(Math.max(...ratios))].kind;
}

function ratiosOf(machine: Machine, demands: readonly Demand[], truth: Truth, yaw: number): readonly number[] {
  const state = Float64Array.from(truth.state);
  state[machine.parameterIndex.get(homingYaw) as number] = yaw;
  const scene = valuesOnly(machine, state, truth.skim);
  return demands.map((demand) => {
    const values = demand.samples(scene).map((sample) => sample.value);
    return reduceSamples(demand, values) / demand.limit;
  });
}

/** 95 % interval of a share after Wilson [Wilson 1927]: k of n, z = 1.96. */
export function wilsonInterval(k: number, n: number): readonly [low: number, high: number] {
  const z = 1.959964;
  const p = k / n;
  const middle = (p + z ** 2 / (2 * n)) / (1 + z ** 2 / n);
  const half = (z / (1 + z ** 2 / n)) * Math.sqrt((p * (1 - p)) / n + z ** 2 / (4 * n ** 2));
  return [middle - half, middle + half];
}
