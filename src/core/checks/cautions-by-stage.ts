/** A kind of work at the machine that has dangers of its own. */
export type CautionStage =
  | "building"
  | "electrical"
  | "first power-on"
  | "measuring by hand"
  | "measuring under power"
  | "adjusting"
  | "holding the work"
  | "cutting"
  | "dust and noise"
  | "fire"
  | "leaving it alone"
  | "other people"
  | "after a knock";

export interface StageCautions {
  readonly stage: CautionStage;
  readonly title: string;
  readonly sentences: readonly string[];
}

// Common practice, no source. Each list is shown under `cautionHead`.
export const cautionsByStage: readonly StageCautions[] = [
  {
    stage: "building",
    title: "Lifting and building",
    sentences: [
      "Frame and gantry are lifted by two people in sturdy shoes.",
      "Profile ends are sharp as sawn: file them before anything else, and protect the eyes when you drill, saw or tap.",
      "No finger goes into a slot or between a block and its stop.",
      "Prop the gantry up before a side plate or a foot is loosened.",
      "A guide block stays on its rail or on its strip; off both, it loses its balls.",
      "A hex key is long enough as it is: no tube on it.",
      "The magnets in motors and the springs in clamps pinch.",
    ],
  },
  {
    stage: "electrical",
    title: "Electrical work",
    sentences: [
      "Mains wiring, earthing, enclosures, spindle drives and stop circuits belong to a person who is competent, and allowed to do it where you live.",
      "Pull the plug before a cover comes off, and wait as long as the maker states for what is stored inside to run down.",
      "The lead of a motor is never plugged or pulled while there is power.",
      "Frame and spindle are earthed as their makers state.",
      "Cables are fastened, unhurt, and led clear of dust and moving parts.",
      "Where the local code asks for a residual-current device, it is there before the first power-on.",
      "A stop in a program is not an emergency stop.",
    ],
  },
  {
    stage: "first power-on",
    title: "First power-on",
    sentences: [
      "No cutter, nothing on the bed, the gantry in the middle, and each axis free when turned or pushed by hand.",
      "One person has a hand at the stop, and nobody else is within reach.",
      "Try first of all that the stop takes the power from the drives, and see what Z does then.",
      "The first moves are the shortest and slowest there are.",
      "See which way each axis goes, and press each switch by hand, before anything is homed.",
      "Feel motors and drives for heat after five minutes and again after twenty.",
      "If it smells or smokes, cut the supply, and leave the cover shut until all is cold.",
    ],
  },
  {
    stage: "measuring by hand",
    title: "Measuring by hand",
    sentences: [
      "The plug is out; a switch alone does not count.",
      "The cutter is out of the collet, and Z is blocked so that it cannot come down.",
      "Dial, arm and square are off the machine and the bed is empty before power comes back.",
    ],
  },
  {
    stage: "measuring under power",
    title: "Measuring under power",
    sentences: [
      "The spindle cannot start: its plug is out and lies where you see it.",
      "Everything moves slowly, and you stand where the stop is.",
      "Keep clear of the end plates, where the gap closes.",
      "The clip of the touch plate goes on first, and the plate is tried by hand each time.",
      "Touching uses only the low voltage that the maker of the control provides for it.",
    ],
  },
  {
    stage: "adjusting",
    title: "Adjusting",
    sentences: [
      "Loosen one joint at a time, and mark it before you do.",
      "Support whatever drops when its screws are loose.",
      "Tighten each screw again to the stage that is stated, and count them: none stays loose.",
      "Keys, mallets and the free ends of shims are off the machine before power comes back.",
    ],
  },
  {
    stage: "holding the work",
    title: "Holding the work",
    sentences: [
      "Try by hand, and hard, whether the work holds before it is cut.",
      "Screws and clamps lie outside the path of the cutter, and are marked on the drawing.",
      "Small parts are held by tabs or tape, never by fingers.",
      "Vacuum and tape let go on dusty or bowed sheets.",
      "A piece that is cut free can fly: put a shield up, and stand out of the plane in which the cutter turns.",
    ],
  },
  {
    stage: "cutting",
    title: "Cutting",
    sentences: [
      "The cutter is sound and clean, sits deep enough in a collet of its own size, and turns no faster than its maker allows.",
      "The first run is in air, the next one shallow.",
      "Eyes and ears are protected; gloves, loose sleeves, jewellery and hanging hair are kept away.",
      "Nobody reaches in, brushes or sucks chips away until the cutter stands still.",
      "Metal, stone and unknown plastic are cut only if the makers of cutter and machine allow it; the fumes of some plastics do harm.",
    ],
  },
  {
    stage: "dust and noise",
    title: "Dust and noise",
    sentences: [
      "Dust is drawn off at the cutter first; a respirator that fits, of the class that local rules ask for with wood dust, comes on top of that.",
      "Dust of hardwood and of fibre board harms the lungs, and some of it causes asthma or cancer.",
      "Clean with a vacuum cleaner made for such dust, not with compressed air.",
      "Ears are protected from the first minute, and rooms next door hear it too.",
    ],
  },
  {
    stage: "fire",
    title: "Fire",
    sentences: [
      "A blunt or standing cutter sets chips aglow, and the extraction carries the ember into its bag.",
      "Look into the bag half an hour after the last cut and again after an hour, and empty it away from the building.",
      "An extinguisher that suits, and that may be used near live parts, hangs within reach.",
      "Solvents and finishes stand elsewhere.",
      "Fine dust in air can explode: a large collector is a matter for somebody qualified.",
    ],
  },
  {
    stage: "leaving it alone",
    title: "Leaving it alone",
    sentences: [
      "A machine that cuts is never left, not for a minute, not overnight and not to a camera.",
      "If you have to go, stop the program, wait for the spindle to stand still, and cut the supply.",
      "A telephone or a laptop that shares these pages shows readings: it starts nothing and stops nothing.",
    ],
  },
  {
    stage: "other people",
    title: "Children, pupils, helpers and animals",
    sentences: [
      "While anything moves they stay behind a line that is marked on the floor.",
      "A helper knows, before the first move, where the stop is and what it does not do.",
      "One person gives the word, and says it aloud.",
      "Young people work at it only as the rules of school and country allow, with a trained adult at arm's length.",
      "Lock the supply when you leave.",
      "Tired, after a drink or on strong medicine, leave the machine for another day.",
    ],
  },
  {
    stage: "after a knock",
    title: "After a knock, a crash, water or a repair",
    sentences: [
      "Cut the supply before you look.",
      "Look for a cracked cutter, a bent pin, a nicked cable.",
      "The fit-to-measure round and the short round come before the next cut.",
      "Electrical damage goes to a competent person.",
    ],
  },
];
