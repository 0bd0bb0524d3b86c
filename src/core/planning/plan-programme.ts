import type { Guess, IntegerProgramme, ProgrammeColumn, ProgrammeRow } from "./integer-programme.ts";
import type { Lever, PackingPlace } from "./lever.ts";
import type { LinearDemand, LinearSample } from "./linear-demand.ts";

/** One minute of work is the unit of cost. An excess of a hundredth of a limit outweighs any time. */
const PER_EXCESS = 1e4;
/** To eat into the guard is bad as well, but not as bad as to miss the limit itself. */
const PER_GUARD = 3e3;
/** Where a joint is open anyway it is set to the middle: in minutes for each whole limit that is left free. */
const PER_ROOM = 4;
const MOST_ROOM = 0.6;
const PER_UNIT_MOVED = 0.02;
const PER_LEAF = 0.05;
/** What opening a joint that carries the machine must earn beside its minutes. */
const STRUCTURAL_RISK = 2;
/** Deeper than this a skim takes the board's thickness over its screws. */
const DEEPEST_SKIM_MM = 1.5;
/** To level the bed roughly first is better than a skim of twice that depth, if it takes no longer than this. */
const PER_DEEP_SKIM = 60;

/** What the programme is made from: demands near a reference state, and what may be moved. */
export interface ProgrammeParts {
  readonly levers: readonly Lever[];
  /** Amounts at which the demands are linearised, by lever. */
  readonly reference: Float64Array;
  /** With the bed as it is, or as a skim after the moves leaves it: which of the two is for whoever asks. */
  readonly demands: readonly LinearDemand[];
  /** Height of the tip over the bed as it is, for what a skim would take off; null where the bed is not skimmed. */
  readonly skimDepth: LinearDemand | null;
  /** Each thickness that is at hand, with how often it is there. */
  readonly stock: ReadonlyMap<number, number>;
  /** "whole": packing is made of leaves; "smooth": any thickness up to what the stock comes to. */
  readonly packing: "whole" | "smooth";
  /** Levers that may be touched, by number; all when left out. */
  readonly only?: ReadonlySet<number>;
}

/** Where to find in the programme's solution what it says. */
export interface ProgrammeKey {
  /** How far a demand is over its guarded limit, as a share of the limit. */
  excessOf(demand: number, values: Float64Array): number;
  isTouched(lever: number, values: Float64Array): boolean;
  amountOf(lever: number, values: Float64Array): number;
  leavesOf(lever: number, values: Float64Array): readonly LaidLeaves[];
}

export interface LaidLeaves {
  readonly place: PackingPlace;
  readonly layMm: readonly number[];
  readonly takesOut: boolean;
}

/** Σ coefficient·column + constant */
interface Sum {
  readonly terms: readonly (readonly [column: number, coefficient: number])[];
  readonly constant: number;
}

interface PlaceColumns {
  readonly place: PackingPlace;
  /** Leaves by thickness, or one smooth thickness. */
  readonly leaves: readonly (readonly [thicknessMm: number, column: number])[];
  readonly out: number | null;
}

/**
 * The plan as a mixed-integer programme: demands within their limits less a guard, each with an excess of its own, at the
 * least time. A shared excess would let all go bad as soon as one demand is out of reach.
 */
export function planProgramme(parts: ProgrammeParts): { programme: IntegerProgramme; key: ProgrammeKey } {
  const build = new Builder();
  const { levers, demands, stock, packing } = parts;
  const may = (l: number) => parts.only === undefined || parts.only.has(l);
  const touched = levers.map(({ adjuster }, l) => {
    const risk = adjuster.cure === "structural" ? STRUCTURAL_RISK : 0;
    return may(l) ? build.column(`touch ${adjuster.id}`, adjuster.minutes + risk, 0, 1, true, "up") : null;
  });
  const places = levers.map((lever, l) =>
    may(l) ? lever.places.map((place) => placeColumns(build, place, stock, packing)) : [],
  );
  const amounts = levers.map((lever, l) => amountColumns(build, lever, places[l], touched[l]));
  limitToStock(build, places.flat(), stock, packing);
  readAgainOnce(build, levers, touched);
  const excess = demands.map(({ demand, areas }) => {
    const guard = Math.max(0, ...areas.flatMap((area) => [area.guard, ...area.samples.map((sample) => sample.guard)]));
    return {
      over: build.column(`excess ${demand.id}`, PER_EXCESS, 0, infinity, false),
      guard: build.column(`guard ${demand.id}`, PER_GUARD, 0, guard / demand.limit, false),
      room: build.column(`room ${demand.id}`, -PER_ROOM, 0, MOST_ROOM, false),
    };
  });
  const shared = { build, touched, amounts, reference: parts.reference };
  demands.forEach((linear, k) => {
    demandRows({ ...shared, excess: excess[k] }, linear);
  });
  if (parts.skimDepth) {
    const over = build.column("excess skim", PER_DEEP_SKIM, 0, infinity, false);
    demandRows({ ...shared, excess: { over } }, parts.skimDepth);
  }
  const amountFrom = ({ terms, constant }: Sum, values: Float64Array) =>
    terms.reduce((sum, [column, coefficient]) => sum + coefficient * values[column], constant);
  return {
    programme: build,
    key: {
      excessOf: (k, values) => values[excess[k].over] + values[excess[k].guard],
      isTouched: (l, values) => touched[l] !== null && values[touched[l]] > 0.5,
      amountOf: (l, values) => amountFrom(amounts[l], values),
      leavesOf: (l, values) =>
        places[l].map(({ place, leaves, out }) => ({
          place,
          takesOut: out !== null && values[out] > 0.5,
          layMm: leaves.flatMap(([thickness, column]) => Array(Math.round(values[column])).fill(thickness)),
        })),
    },
  };
}

/** The depth of a skim is no demand of the work, but like one it has a limit and an excess. */
export const skimDepthLimitMm = DEEPEST_SKIM_MM;

const infinity = Number.POSITIVE_INFINITY;

class Builder implements IntegerProgramme {
  readonly columns: ProgrammeColumn[] = [];
  readonly rows: ProgrammeRow[] = [];

  column(name: string, cost: number, from: number, to: number, whole: boolean, guess?: Guess): number {
    return this.columns.push({ name, cost, from, to, whole, guess }) - 1;
  }

  /** from ≤ sum ≤ to; the sum's constant is brought over, a column that stands twice is added up. */
  row({ terms, constant }: Sum, from: number, to: number): void {
    const sums = new Map<number, number>();
    for (const [column, coefficient] of terms) sums.set(column, (sums.get(column) ?? 0) + coefficient);
    const kept = [...sums].filter(([, coefficient]) => coefficient !== 0);
    this.rows.push({
      columns: kept.map(([column]) => column),
      coefficients: kept.map(([, coefficient]) => coefficient),
      from: from - constant,
      to: to - constant,
    });
  }
}

function placeColumns(
  build: Builder,
  place: PackingPlace,
  stock: ProgrammeParts["stock"],
  packing: ProgrammeParts["packing"],
): PlaceColumns {
  const leaves: (readonly [number, number])[] =
    packing === "smooth"
      ? [[1, build.column("packing", 0, 0, Math.max(0, place.mostMm), false)]]
      : [...stock].map(([thickness, many]) => [
          thickness,
          build.column(
            `leaf ${thickness}`,
            PER_LEAF,
            0,
            Math.max(0, Math.min(many, Math.floor(place.mostMm / thickness + 1e-9))),
            true,
            // What thick leaves leave over is made good with thin ones.
            -thickness,
          ),
        ]);
  return { place, leaves, out: place.nowMm > 0 ? build.column("out", 0, 0, 1, true) : null };
}

/** The amount of a lever as a sum over columns, nothing unless it is touched. */
function amountColumns(build: Builder, lever: Lever, places: readonly PlaceColumns[], touched: number | null): Sum {
  if (touched === null) return { terms: [], constant: 0 };
  const { adjuster, from, to } = lever;
  if (adjuster.kind === "assign") return { terms: [[touched, 1]], constant: 0 };
  if (places.length === 2) oneSideOnly(build, places);
  if (places.length === 0) {
    const up = build.column("up", PER_UNIT_MOVED, 0, Math.max(0, to), false);
    const down = build.column("down", PER_UNIT_MOVED, 0, Math.max(0, -from), false);
    for (const [column, most] of [
      [up, to],
      [down, -from],
    ] as const)
      build.row(
        {
          terms: [
            [column, 1],
            [touched, -Math.max(0, most)],
          ],
          constant: 0,
        },
        -infinity,
        0,
      );
    return {
      terms: [
        [up, 1],
        [down, -1],
      ],
      constant: 0,
    };
  }
  const terms: (readonly [number, number])[] = [];
  for (const { place, leaves, out } of places) {
    for (const [thickness, column] of leaves) terms.push([column, place.sign * thickness]);
    if (out !== null) terms.push([out, -place.sign * place.nowMm]);
    // What lies there in the end: no more than fits, and no leaf is laid where nothing is touched.
    const laid = leaves.map(([thickness, column]) => [column, thickness] as const);
    const rest: Sum = {
      terms: [...laid, ...(out === null ? [] : [[out, -place.nowMm] as const])],
      constant: place.nowMm,
    };
    build.row(rest, 0, Math.max(place.mostMm, place.nowMm));
    build.row({ terms: [...laid, [touched, -place.mostMm]], constant: 0 }, -infinity, 0);
    if (out !== null)
      build.row(
        {
          terms: [
            [out, 1],
            [touched, -1],
          ],
          constant: 0,
        },
        -infinity,
        0,
      );
  }
  return { terms, constant: 0 };
}

/** Leaves at the top and at the bottom work against each other: new ones are laid at one of the two. */
function oneSideOnly(build: Builder, places: readonly PlaceColumns[]): void {
  const atFirst = build.column("side", 0, 0, 1, true);
  places.forEach(({ place, leaves }, p) => {
    const laid = leaves.map(([thickness, column]) => [column, thickness] as const);
    const switched = [atFirst, p === 0 ? -place.mostMm : place.mostMm] as const;
    build.row({ terms: [...laid, switched], constant: 0 }, -infinity, p === 0 ? 0 : place.mostMm);
  });
}

/** The same leaf is never used twice. */
function limitToStock(
  build: Builder,
  places: readonly PlaceColumns[],
  stock: ProgrammeParts["stock"],
  packing: ProgrammeParts["packing"],
): void {
  if (packing === "smooth") {
    const all = [...stock].reduce((sum, [thickness, many]) => sum + thickness * many, 0);
    const terms = places.flatMap(({ leaves }) => leaves.map(([, column]) => [column, 1] as const));
    if (terms.length > 0) build.row({ terms, constant: 0 }, 0, all);
    return;
  }
  for (const [thickness, many] of stock) {
    const terms = places.flatMap(({ leaves }) =>
      leaves.filter(([t]) => t === thickness).map(([, column]) => [column, 1] as const),
    );
    if (terms.length > 0) build.row({ terms, constant: 0 }, 0, many);
  }
}

/** Checks that several joints share are read again once. Costs something, so it is no larger than it must be. */
function readAgainOnce(build: Builder, levers: readonly Lever[], touched: Touched): void {
  const groups = new Map<string, number>();
  levers.forEach(({ adjuster: { readAgain } }, l) => {
    const at = touched[l];
    if (!readAgain || at === null) return;
    const known = groups.get(readAgain.group);
    const column = known ?? build.column(`read again ${readAgain.group}`, readAgain.minutes, 0, 1, false);
    groups.set(readAgain.group, column);
    build.row(
      {
        terms: [
          [at, 1],
          [column, -1],
        ],
        constant: 0,
      },
      -infinity,
      0,
    );
  });
}

interface DemandRows {
  readonly build: Builder;
  readonly touched: Touched;
  readonly amounts: readonly Sum[];
  readonly reference: Float64Array;
  readonly excess: Excess;
}

/** Column by lever that says whether it is touched; null where it must not be. */
type Touched = readonly (number | null)[];

function guardTermsOf(touched: Touched, more: Float64Array): Sum["terms"] {
  return touched.flatMap((column, l) => (column === null ? [] : [[column, more[l]] as const]));
}

/** What a demand may be over its guarded limit, dear beyond its guard, and what it may be under it. */
interface Excess {
  readonly over: number;
  readonly guard?: number;
  readonly room?: number;
}

function excessTerms({ over, guard, room }: Excess, t: number): Sum["terms"] {
  return [
    [over, -t],
    ...(guard === undefined ? [] : [[guard, -t] as const]),
    ...(room === undefined ? [] : [[room, t] as const]),
  ];
}

function demandRows(rows: DemandRows, { demand, areas }: LinearDemand): void {
  const { build, excess, touched } = rows;
  const t = demand.limit;
  for (const { samples, guard, touched: areaTouched } of areas) {
    if (demand.form === "largest") {
      for (const sample of samples) {
        const value = sampleSum(rows, sample);
        const guardTerms = guardTermsOf(touched, sample.touched);
        for (const sign of [1, -1] as const) {
          const terms = [
            ...value.terms.map(([c, k]) => [c, sign * k] as const),
            ...guardTerms,
            ...excessTerms(excess, t),
          ];
          build.row({ terms, constant: sign * value.constant + sample.guard }, -infinity, t);
        }
      }
      continue;
    }
    const top = build.column("top", 0, -infinity, infinity, false);
    const bottom = build.column("bottom", 0, -infinity, infinity, false);
    for (const sample of samples) {
      const { terms, constant } = sampleSum(rows, sample);
      build.row({ terms: [...terms, [top, -1]], constant }, -infinity, 0);
      build.row({ terms: [...terms, [bottom, -1]], constant }, 0, infinity);
    }
    const guardTerms = guardTermsOf(touched, areaTouched);
    const terms = [[top, 1], [bottom, -1], ...excessTerms(excess, t), ...guardTerms] as const;
    build.row({ terms, constant: guard }, -infinity, t);
  }
}

/** A sample's value as a sum over the levers' amounts. */
function sampleSum({ amounts, reference }: DemandRows, { value, perLever }: LinearSample): Sum {
  const terms: (readonly [number, number])[] = [];
  let constant = value;
  amounts.forEach((amount, l) => {
    const share = perLever[l];
    if (Math.abs(share) < 1e-9) return;
    constant += share * (amount.constant - reference[l]);
    for (const [column, coefficient] of amount.terms) terms.push([column, share * coefficient]);
  });
  return { terms, constant };
}
