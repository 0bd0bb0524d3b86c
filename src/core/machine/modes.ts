import type { Dimensions } from "./dimensions.ts";

/** The parts that checks, findings and happenings may name. */
export type Member = "frame" | "rails" | "bed" | "bridge" | "table" | "beam" | "carriage" | "slide" | "spindle";

/** mm for lengths, mm/m for small angles and scales (1 mm/m = 1 mrad). */
export type ModeUnit = "mm" | "mm/m";

/** One way in which a joint or a member can be out. */
export interface Mode {
  readonly id: string;
  readonly unit: ModeUnit;
  /** Whose joint or shape it is: a knock to this member, or a new one, frees the mode. */
  readonly member: Member;
  /** What plus means, to be read after "plus: ". */
  readonly plus: string;
  /** The name a person reads. */
  readonly words: string;
  /** Standard deviation over carefully assembled, unchecked machines (common practice, no source). */
  readonly priorSd: number;
  /** Mean over such machines; 0 except for what cannot be negative. */
  readonly priorMean: number;
  /** Play and runout cannot be less than nothing: half-normal, matched in mean and sd. */
  readonly neverNegative: boolean;
  /** Boards move with the season, metal hardly: standard deviation of the drift in a month. */
  readonly driftSdPerMonth: number;
  /**
   * Whether it is what a part was made to: the pitch of a drive, the size of a print, the collet. A knock that nobody saw
   * land leaves it as it is; one that hit the part frees it like all else.
   */
  readonly asMade: boolean;
}

type Draft = readonly [id: string, unit: ModeUnit, member: Member, sd: number, words: string, plus: string];

/** Modes that both layouts have. */
export function commonModes(d: Dimensions): readonly Mode[] {
  const alongY = lengthFactor(d.Ly);
  const span = lengthFactor(d.W);
  const drafts: readonly Draft[] = [
    ["rail.left.front", "mm", "rails", 0.5 * alongY, "left rail's front end", "high"],
    ["rail.left.rear", "mm", "rails", 0.5 * alongY, "left rail's rear end", "high"],
    ["rail.right.front", "mm", "rails", 0.5 * alongY, "right rail's front end", "high"],
    ["rail.right.rear", "mm", "rails", 0.5 * alongY, "right rail's rear end", "high"],
    ["rail.left.crown", "mm", "rails", 0.15 * alongY, "left rail's crown", "high in the middle"],
    ["rail.right.crown", "mm", "rails", 0.15 * alongY, "right rail's crown", "high in the middle"],
    ["rail.wander", "mm", "rails", 0.15 * alongY, "sideways bow of the guided path", "to the right in the middle"],
    ["rail.toe", "mm", "rails", 0.5, "toe of the rails", "wider at the rear"],
    ["rail.belly", "mm", "rails", 0.3, "belly of the rails", "wider in the middle"],
    ["beam.left", "mm", "beam", 0.4, "beam's seat at the left", "high"],
    ["beam.right", "mm", "beam", 0.4, "beam's seat at the right", "high"],
    ["beam.roll", "mm/m", "beam", 3, "roll of the beam", "top of the face to the rear"],
    ["beam.crown", "mm", "beam", 0.15 * span, "crown of the beam", "high at mid span"],
    ["beam.bow", "mm", "beam", 0.15 * span, "bow of the beam", "to the rear at mid span"],
    ["beam.twist", "mm/m", "beam", 1.5, "twist of the beam", "right end rolled further to the rear"],
    ["slide.lean.side", "mm/m", "slide", 4, "plunge, side to side", "going up carries the tool to the right"],
    ["slide.lean.fore", "mm/m", "slide", 4, "plunge, front to rear", "going up carries the tool to the rear"],
    [
      "spindle.tilt.side",
      "mm/m",
      "spindle",
      3,
      "cutter's axis against the slide, side to side",
      "upper end to the right",
    ],
    [
      "spindle.tilt.fore",
      "mm/m",
      "spindle",
      3,
      "cutter's axis against the slide, front to rear",
      "upper end to the rear",
    ],
    ["scale.x", "mm/m", "carriage", 5, "scale of X", "moves further than commanded"],
    ["scale.y", "mm/m", "rails", 5, "scale of Y", "moves further than commanded"],
    ["scale.z", "mm/m", "slide", 5, "scale of Z", "moves further than commanded"],
    ["backlash.x", "mm", "carriage", 0.15, "play of X", "lost motion"],
    ["backlash.y", "mm", "rails", 0.15, "play of Y", "lost motion"],
    ["backlash.z", "mm", "slide", 0.15, "play of Z", "lost motion"],
    ["bed.height", "mm", "bed", 1, "height of the bed", "high"],
    ["bed.tilt.x", "mm/m", "bed", 2, "bed, left to right", "rises to the right"],
    ["bed.tilt.y", "mm/m", "bed", 2, "bed, front to rear", "rises to the rear"],
    ["bed.twist", "mm", "bed", 0.5, "twist of the bed", "front left and rear right corners high"],
    ["bed.dome.x", "mm", "bed", 0.3, "dome of the bed, left to right", "high in the middle"],
    ["bed.dome.y", "mm", "bed", 0.3, "dome of the bed, front to rear", "high in the middle"],
    ["grid.yaw", "mm/m", "bed", 3, "printed grid against the travel", "turned counter-clockwise"],
    ["grid.skew", "mm/m", "bed", 1, "skew of the printed grid", "corner wider than 90°"],
    ["grid.scale.x", "mm/m", "bed", 1, "printed grid's scale along X", "printed too large"],
    ["grid.scale.y", "mm/m", "bed", 1, "printed grid's scale along Y", "printed too large"],
    ["spindle.runout", "mm", "spindle", 0.05, "runout", "total indicated"],
  ];
  return drafts.map(modeFromDraft);
}

export function modeFromDraft(draft: Draft): Mode {
  const [id, unit, member, sd, words, plus] = draft;
  const neverNegative = id.startsWith("backlash.") || id === "spindle.runout";
  const board = id.startsWith("bed.") || id.startsWith("grid.");
  // |N(0, s²)| has the mean s√(2/π) and the standard deviation s√(1 − 2/π).
  const priorMean = neverNegative ? sd * Math.sqrt(2 / Math.PI) : 0;
  const priorSd = neverNegative ? sd * Math.sqrt(1 - 2 / Math.PI) : sd;
  // A month moves metal by 0.02 mm and 0.05 mm/m, a board by 0.15 mm and 0.3 mm/m (common practice, no source).
  const driftSdPerMonth = unit === "mm" ? (board ? 0.15 : 0.02) : board ? 0.3 : 0.05;
  const asMade = /^(?:scale|grid\.scale)\.|^grid\.skew$|^spindle\.runout$/.test(id);
  return { id, unit, member, words, plus, priorSd, priorMean, neverNegative, driftSdPerMonth, asMade };
}

/** Rails and spans of half a metre to a metre are taken alike; outside, what is usual grows with the length. */
export function lengthFactor(lengthMm: number): number {
  if (lengthMm < 500) return lengthMm / 500;
  return lengthMm > 1000 ? lengthMm / 1000 : 1;
}
