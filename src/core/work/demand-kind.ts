import { refusal } from "../base/diagnostic.ts";
import { formatTrimmed } from "../base/number-format.ts";
import { type Outcome, refuse, succeed } from "../base/outcome.ts";
import type { Scene } from "../machine/kinematics.ts";
import type { Machine } from "../machine/machine.ts";
import type { Dual } from "../numerics/dual.ts";
import type { Demand, DemandKindId, DemandWish } from "./demand.ts";

/** What can be demanded of a piece of work: the questions it asks, and how a wish becomes a demand on one machine. */
export interface DemandKind {
  readonly id: DemandKindId;
  /** As a person calls it, to be read after "a limit for": "the spread of depth over an area". */
  readonly words: string;
  readonly unit: Demand["unit"];
  readonly form: Demand["form"];
  readonly againstBed: boolean;
  readonly sizes: readonly DemandSize[];
  /** "middle": one piece of work. "five places": the worst of them, or the one that is wished. "none": the same everywhere. */
  readonly place: "middle" | "five places" | "none";
  draft(chosen: Chosen): DemandDraft;
}

export type DemandSize = NumberSize | AnswerSize;

/** A size in mm or degrees, asked for by its key. */
export interface NumberSize {
  readonly key: string;
  readonly words: string;
  readonly unit: "mm" | "°";
  /** Anything outside is a slip of typing on every machine. */
  readonly from: number;
  readonly to: number;
  /** Taken when nothing is said; shrunk to what there is room for. */
  usual(chosen: Chosen): number;
  /** The most there is room for on this machine at this place; no bound when left out. */
  most?(chosen: Chosen): number;
}

/** One of a few words. */
export interface AnswerSize {
  readonly key: string;
  readonly words: string;
  readonly answers: readonly string[];
  readonly usual: string;
}

/** A wish with everything filled in. While sizes are being filled in, those that come later are still missing. */
export interface Chosen {
  readonly machine: Machine;
  readonly numbers: Readonly<Record<string, number>>;
  readonly answers: Readonly<Record<string, string>>;
  /** Middle of the work in the work frame, mm. */
  readonly middle: { readonly x: number; readonly y: number };
  /** Whether the middle was wished for. */
  readonly placed: boolean;
}

/** What a kind adds to what all demands share. */
export interface DemandDraft {
  /** Sizes included; the place is added to it. */
  readonly title: string;
  readonly groups?: Demand["groups"];
  readonly enoughToPlan?: Demand["enoughToPlan"];
  samples(scene: Scene): readonly Dual[];
  meaning(value: number): string;
}

/** Refuses with codes what cannot be meant, and what there is no room for on the machine. */
export function demandFromKind(kind: DemandKind, machine: Machine, wish: DemandWish): Outcome<Demand> {
  const chosen = chooseSizes(kind, machine, wish);
  if (!chosen.ok) return chosen;
  if (!(Number.isFinite(wish.limit) && wish.limit > 0)) {
    return refuse(refusal("demand-limit-impossible", { field: "limit" }, { kind: kind.id, unit: kind.unit }));
  }
  const { id, unit, form, againstBed } = kind;
  const { title, ...draft } = kind.draft(chosen.value);
  const { middle, placed } = chosen.value;
  const at = placed ? ` at x ${show(middle.x)}, y ${show(middle.y)}` : "";
  return succeed({
    id: `${[id, sizesInId(kind, chosen.value)].join(" ").trimEnd()}${at}`,
    kind: id,
    title: `${title}${at}`,
    unit,
    limit: wish.limit,
    form,
    againstBed,
    ...draft,
  });
}

/** The same wish with its sizes cut down to what there is room for: how a wish made for any machine is put to one. */
export function fitToMachine(kind: DemandKind, machine: Machine, wish: DemandWish): DemandWish {
  const sizes: Record<string, number | string> = {};
  let chosen = start(machine, wish);
  for (const size of kind.sizes) {
    const given = wish.sizes[size.key];
    if ("answers" in size) {
      if (given !== undefined) sizes[size.key] = given;
      continue;
    }
    const most = size.most?.(chosen) ?? Number.POSITIVE_INFINITY;
    const value = typeof given === "number" ? Math.min(given, most) : Math.min(size.usual(chosen), most);
    if (given !== undefined) sizes[size.key] = value;
    chosen = { ...chosen, numbers: { ...chosen.numbers, [size.key]: value } };
  }
  return { ...wish, sizes };
}

/** A size in a title or an id: no more than a hundredth, no idle zeros. */
export function show(value: number): string {
  return formatTrimmed(value, 2);
}

function chooseSizes(kind: DemandKind, machine: Machine, wish: DemandWish): Outcome<Chosen> {
  const known = kind.sizes.map(({ key }) => key);
  for (const key of Object.keys(wish.sizes)) {
    if (!known.includes(key)) {
      const data = { size: key, kind: kind.id, listed: known.join(", ") };
      return refuse(refusal("demand-size-unknown", { field: `sizes.${key}` }, data));
    }
  }
  const place = refusalOfPlace(kind, machine, wish);
  if (place !== null) return refuse(place);
  let chosen = start(machine, wish);
  for (const size of kind.sizes) {
    const next = chooseSize(size, wish.sizes[size.key], chosen);
    if (!next.ok) return next;
    chosen = next.value;
  }
  return succeed(chosen);
}

function chooseSize(size: DemandSize, given: number | string | undefined, chosen: Chosen): Outcome<Chosen> {
  const where = { field: `sizes.${size.key}` };
  if ("answers" in size) {
    const answer = given ?? size.usual;
    if (typeof answer !== "string" || !size.answers.includes(answer)) {
      return refuse(refusal("demand-answer-unknown", where, { size: size.words, listed: size.answers.join(", ") }));
    }
    return succeed({ ...chosen, answers: { ...chosen.answers, [size.key]: answer } });
  }
  const most = size.most?.(chosen) ?? Number.POSITIVE_INFINITY;
  const value = given ?? Math.min(size.usual(chosen), most);
  const { words, unit, from, to } = size;
  // A usual size that was cut down to the room there is may be smaller than what somebody would type.
  if (given !== undefined && !(typeof value === "number" && value >= from && value <= to)) {
    return refuse(refusal("demand-size-impossible", where, { size: words, unit, from, to }));
  }
  if (Number(value) > most * (1 + 1e-9)) {
    const room = { size: words, unit, value: show(Number(value)), most: show(Math.floor(100 * most) / 100) };
    return refuse(refusal("demand-size-beyond-reach", where, room));
  }
  return succeed({ ...chosen, numbers: { ...chosen.numbers, [size.key]: Number(value) } });
}

function refusalOfPlace(kind: DemandKind, machine: Machine, { place }: DemandWish) {
  if (place === undefined) return null;
  const { Lx, Ly } = machine.dimensions;
  if (kind.place === "none") return refusal("demand-place-idle", { field: "place" }, { kind: kind.id });
  const inside = place.x >= 0 && place.x <= Lx && place.y >= 0 && place.y <= Ly;
  return inside ? null : refusal("demand-place-outside", { field: "place" }, { x: show(Lx), y: show(Ly) });
}

function start(machine: Machine, { place }: DemandWish): Chosen {
  const { Lx, Ly } = machine.dimensions;
  const middle = place ?? { x: Lx / 2, y: Ly / 2 };
  return { machine, numbers: {}, answers: {}, middle, placed: place !== undefined };
}

function sizesInId(kind: DemandKind, { numbers, answers }: Chosen): string {
  const shown = kind.sizes.flatMap(({ key }) => (key in numbers ? [show(numbers[key])] : []));
  const said = kind.sizes.flatMap(({ key }) => (key in answers ? [answers[key]] : []));
  return [...(shown.length > 0 ? [shown.join("×")] : []), ...said].join(" ");
}
