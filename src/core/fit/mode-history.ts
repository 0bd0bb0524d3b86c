import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import { homingYaw, type Machine } from "../machine/machine.ts";
import type { Member, Mode } from "../machine/modes.ts";
import { skimLeaves } from "../machine/skimmed-bed.ts";
import type { Epoch } from "./epochs.ts";
import { adjustersAtMoves } from "./hand-scatter.ts";
import type { Happening, Timeline } from "./timeline.ts";
import type { VariableList } from "./variables.ts";

/** Which variable stands for each parameter of the machine during one epoch; −1 where there is none. */
export interface EpochModes {
  readonly columns: Int32Array;
  /** The parameters' variables at the moment when the bed was last skimmed; null when it never was. */
  readonly skim: Int32Array | null;
  /** Grows whenever the bed's surface is made anew: what its places were like before says nothing about now. */
  readonly bedSurface: number;
  /**
   * Standard deviation that each parameter would have without any reading, in its unit: what is usual, or what the last
   * cure left that made it anew whatever it was, with what has been done to it since. 0 where it is no mode.
   */
  readonly unreadSd: Float64Array;
  /** Grows with every new spindle: what belongs to its housing is then another. */
  readonly spindle: number;
}

/** What the changes before an epoch do to one mode: a new start, a known shift, and what is left to chance. */
interface ModeChange {
  restart: { readonly mean: number; readonly sd: number } | null;
  shift: number;
  variance: number;
  /** Columns of scatter variables that several modes share, with this mode's share. */
  shared: readonly { readonly column: number; readonly share: number }[];
}

/** Whatever it was and whatever happened to it before: nothing of that counts any more. */
function restart(change: ModeChange, mean: number, sd: number): void {
  Object.assign(change, { restart: { mean, sd }, shift: 0, variance: 0, shared: [] } satisfies ModeChange);
}

/**
 * Lays out the modes over the epochs: a mode keeps its variable for as long as nothing touched it; where something did,
 * the next epoch has a new one, tied to the old by what is known of the change.
 */
export function layOutModes(
  machine: Machine,
  timeline: Timeline,
  epochs: readonly Epoch[],
  list: VariableList,
): readonly EpochModes[] {
  const adjusterAt = adjustersAtMoves(machine, timeline);
  const count = machine.parameters.length;
  let columns = new Int32Array(count).fill(-1);
  const unreadSd = new Float64Array(count);
  /** Modes that a cure has made anew. */
  const cured = new Set<number>();
  const prior = (mode: Mode) => ({ mean: mode.priorMean, sd: timeline.priors.get(mode.id) ?? mode.priorSd });
  machine.modes.forEach((mode, index) => {
    const { mean, sd } = prior(mode);
    unreadSd[index] = sd;
    columns[index] = list.withPrior(0, { id: mode.id, words: mode.words, kind: "mode" }, mean, sd);
  });
  let skim: Int32Array | null = null;
  let bedSurface = 0;
  let spindle = 0;
  return epochs.map((epoch, stage) => {
    const changes = new Map<number, ModeChange>();
    const changeOf = (index: number): ModeChange => {
      const known = changes.get(index) ?? { restart: null, shift: 0, variance: 0, shared: [] };
      changes.set(index, known);
      return known;
    };
    for (const happening of epoch.changes) {
      if (happening.kind === "skimmed") {
        skim = Int32Array.from(columns);
        skim[machine.parameterIndex.get(homingYaw) as number] = -1;
        bedSurface += 1;
        restartBed(machine, changeOf);
      }
      if (happening.kind === "part-replaced" && touches(happening, "bed")) {
        bedSurface += 1;
        skim = null;
      }
      if (happening.kind === "part-replaced" && touches(happening, "spindle")) spindle += 1;
      if (happening.kind === "moved") {
        const adjuster = adjusterAt(happening);
        if (adjuster) applyMove(machine, adjuster, happening.amount, happening.id, stage, list, changeOf);
        for (const mode of Object.keys(adjuster?.leaves ?? {})) {
          const index = machine.parameterIndex.get(mode);
          if (index !== undefined) cured.add(index);
        }
      } else applyHappening(machine, happening, prior, changeOf);
    }
    if (epoch.driftMonths > 0) {
      machine.modes.forEach((mode, index) => {
        changeOf(index).variance += mode.driftSdPerMonth ** 2 * epoch.driftMonths;
      });
    }
    columns = applyChanges(machine, columns, changes, stage, list);
    for (const index of cured) {
      const { restart: anew = null, variance = 0 } = changes.get(index) ?? {};
      unreadSd[index] = Math.sqrt((anew === null ? unreadSd[index] : anew.sd) ** 2 + variance);
    }
    return { columns, skim, bedSurface, spindle, unreadSd: Float64Array.from(unreadSd) };
  });
}

function applyChanges(
  machine: Machine,
  before: Int32Array,
  changes: ReadonlyMap<number, ModeChange>,
  stage: number,
  list: VariableList,
): Int32Array<ArrayBuffer> {
  const after = Int32Array.from(before);
  for (const [index, { restart, shift, variance, shared }] of changes) {
    const mode = machine.modes[index];
    if (!restart && shift === 0 && variance === 0 && shared.length === 0) continue;
    // A mode goes on from what it was, or begins anew.
    const was = restart ? restart.mean : list.variables[before[index]].start;
    const column = list.add({
      id: `${mode.id} @${stage}`,
      words: mode.words,
      kind: "mode",
      start: was + shift,
      usualSd: restart ? Math.sqrt(restart.sd ** 2 + variance) : mode.priorSd,
    });
    // What moves together is tied by the shared scatter; what is left of each alone is next to nothing.
    const sd = Math.max(Math.sqrt((restart ? restart.sd ** 2 : 0) + variance), 1e-5 * mode.priorSd);
    list.ties.push({
      stage,
      columns: [column, ...(restart ? [] : [before[index]]), ...shared.map((s) => s.column)],
      coefficients: [1, ...(restart ? [] : [-1]), ...shared.map((s) => -s.share)],
      target: restart ? restart.mean + shift : shift,
      sd,
    });
    after[index] = column;
  }
  return after;
}

function applyHappening(
  machine: Machine,
  happening: Happening,
  prior: (mode: Mode) => { mean: number; sd: number },
  changeOf: (index: number) => ModeChange,
): void {
  machine.modes.forEach((mode, index) => {
    const { mean, sd } = prior(mode);
    const share = shareShifted(happening, mode);
    if (share === 0) return;
    if (happening.kind === "part-replaced") restart(changeOf(index), mean, sd);
    else changeOf(index).variance += (share * sd) ** 2;
  });
}

/** By how much of its prior's standard deviation a happening may have shifted a mode; 0 where it leaves it alone. */
export function shareShifted(happening: Happening, { member, asMade }: Mode): number {
  switch (happening.kind) {
    case "part-replaced":
      return touches(happening, member) ? 1 : 0;
    // By as much as building it left out.
    case "knocked":
      return touches(happening, member) && (happening.members.length > 0 || !asMade) ? 1 : 0;
    // Twists what the rails stand on.
    case "transported":
      return member === "rails" || member === "bed" ? 0.5 : 0;
    default:
      return 0;
  }
}

function applyMove(
  machine: Machine,
  adjuster: Adjuster,
  amount: number,
  id: string,
  stage: number,
  list: VariableList,
  changeOf: (index: number) => ModeChange,
): void {
  for (const [modeId, [mean, sd]] of Object.entries(adjuster.leaves ?? {})) {
    const index = machine.parameterIndex.get(modeId);
    if (index !== undefined) restart(changeOf(index), mean, sd);
  }
  const effects = Object.entries(adjuster.effect).filter(([modeId]) => machine.parameterIndex.has(modeId));
  const shared = effects.length > 1 && adjuster.sd > 0;
  const scatter = shared
    ? list.withPrior(
        stage,
        { id: `scatter of ${id}`, words: `what ${adjuster.words} left to chance`, kind: "scatter" },
        0,
        adjuster.sd,
      )
    : -1;
  for (const [modeId, perUnit] of effects) {
    const change = changeOf(machine.parameterIndex.get(modeId) as number);
    change.shift += perUnit * amount;
    if (shared) change.shared = [...change.shared, { column: scatter, share: perUnit }];
    else change.variance += (perUnit * adjuster.sd) ** 2;
  }
  for (const [modeId, sd] of Object.entries(adjuster.frees)) {
    const index = machine.parameterIndex.get(modeId);
    if (index !== undefined) changeOf(index).variance += sd ** 2;
  }
}

/** Skimming leaves the surface of motion: its depth is free, its shape nearly true, and the print is gone. */
function restartBed(machine: Machine, changeOf: (index: number) => ModeChange): void {
  for (const [mode, sd] of skimLeaves(machine)) {
    const index = machine.parameterIndex.get(mode);
    if (index !== undefined) restart(changeOf(index), 0, sd);
  }
}

function touches(happening: Extract<Happening, { members: readonly string[] }>, member: Member): boolean {
  return happening.members.length === 0 || happening.members.includes(member);
}
