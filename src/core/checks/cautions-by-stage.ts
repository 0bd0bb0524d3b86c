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
      "Loosening a foot or a side plate lets the gantry fall, unless it is propped up first.",
      "A guide block stays on its rail or on its strip; off both, it loses its balls.",
      "A hex key is long enough as it is: no tube on it.",
      "The magnets in motors and the springs in clamps pinch.",
    ],
  },
  {
    stage: "electrical",
    title: "Electrical work",
    sentences: [
      "Whatever carries mains, the earth, the enclosure, the drive of the spindle and the circuit of the stop are work for a competent person whom the law of the place allows to do it.",
      "Pull the plug before a cover comes off, and wait as long as the maker states for what is stored inside to run down.",
      "The lead of a motor is never plugged or pulled while there is power.",
      "Frame and spindle are earthed as their makers state.",
      "Cables are fastened, unhurt, and led clear of dust and moving parts.",
      "Where the local code asks for a residual-current device, it is there before the first power-on.",
      "Pausing a program on a screen does not replace the emergency stop.",
    ],
  },
  {
    stage: "first power-on",
    title: "First power-on",
    sentences: [
      "No cutter, nothing on the bed, the gantry in the middle, and each axis free when turned or pushed by hand.",
      "Somebody stands ready at the stop, and the rest keep their distance.",
      "The stop is tried before anything else: it leaves the drives without power, and you know whether Z then holds or sinks.",
      "The first moves are the shortest and slowest there are.",
      "See which way each axis goes, and press each switch by hand, before anything is homed.",
      "Five minutes on, and once more after twenty, lay a hand on each motor and drive: warm is fine, hot is not.",
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
      "Speeds are low, and the stop is where your hand is.",
      "Keep clear of the end plates, where the gap closes.",
      "Before each descent the clip is on, and a touch by hand has shown that the control sees the plate.",
      "Plate and clip carry no voltage but the low one from the probe input of the control, as its maker intends.",
    ],
  },
  {
    stage: "adjusting",
    title: "Adjusting",
    sentences: [
      "Loosen one joint at a time, and mark it before you do.",
      "Whatever would fall is propped up beforehand.",
      "Tighten each screw again to the stage that is stated, and count them: none stays loose.",
      "Keys, mallets and the free ends of shims are off the machine before power comes back.",
    ],
  },
  {
    stage: "holding the work",
    title: "Holding the work",
    sentences: [
      "Try by hand, and hard, whether the work holds before it is cut.",
      "Draw in every clamp and screw, and keep them clear of where the cutter goes.",
      "Tabs or tape keep a small part in place; your fingers do not.",
      "Where a sheet is bowed or dusty, neither tape nor vacuum can be trusted.",
      "What is cut free may be thrown: set a shield before it, and do not stand level with the turning cutter's edge.",
    ],
  },
  {
    stage: "cutting",
    title: "Cutting",
    sentences: [
      "The cutter is sound and clean, sits deep enough in a collet of its own size, and turns no faster than its maker allows.",
      "Try the program above the work, then with a shallow cut.",
      "Eyes and ears are protected; nothing that a turning spindle can catch is worn, so no gloves, no jewellery, nothing loose.",
      "Nobody reaches in, brushes or sucks chips away until the cutter stands still.",
      "Keep metal, stone and any plastic you cannot name away from it, unless both makers permit them; certain plastics fume and do harm.",
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
      "Chips begin to glow where a cutter is blunt or stands in the wood, and the air draws the ember into the bag.",
      "Look into the bag half an hour after the last cut and again after an hour, and empty it away from the building.",
      "Within reach hangs an extinguisher fit for wood fires and safe where there is voltage.",
      "Solvents and finishes stand elsewhere.",
      "A cloud of fine dust explodes when it meets a spark, so have somebody qualified look at any large collector.",
    ],
  },
  {
    stage: "leaving it alone",
    title: "Leaving it alone",
    sentences: [
      "A machine that cuts is never left, not for a minute, not overnight and not to a camera.",
      "If you have to go, stop the program, wait for the spindle to stand still, and cut the supply.",
      "A telephone or a laptop that shares these pages shows readings: no machine obeys it.",
    ],
  },
  {
    stage: "other people",
    title: "Children, pupils, helpers and animals",
    sentences: [
      "While anything moves they stay behind a line that is marked on the floor.",
      "A helper knows, before the first move, where the stop is and what it does not do.",
      "Commands come from one mouth only, and loudly.",
      "For the young, school and country have rules: keep to them, and have a trained adult close enough to pull them back.",
      "Nobody can switch it on while you are away: a lock sees to that.",
      "Tired, after a drink or on strong medicine, leave the machine for another day.",
    ],
  },
  {
    stage: "after a knock",
    title: "After it was struck, crashed, wetted or mended",
    sentences: [
      "Cut the supply before you look.",
      "Look for a cracked cutter, a bent pin, a nicked cable.",
      "Do the fit-to-measure round, then the short round, and only then cut again.",
      "Leave whatever is hurt on the electrical side to somebody competent.",
    ],
  },
];
