/** What a piece of work looks like, and the way from there to its cause. */
export interface Symptom {
  readonly id: string;
  /** What is seen or felt on the work. */
  readonly looks: string;
  /** The likeliest first. */
  readonly causes: readonly string[];
  readonly separatedBy: {
    /** Ids of the checks, in the order in which they are worth doing. */
    readonly checks: readonly string[];
    /** How these checks, or a trial besides them, tell the causes apart. */
    readonly sentence: string;
  };
}

// Common practice, no source.
export const symptoms: readonly Symptom[] = [
  {
    id: "oval-on-the-diagonal",
    looks: "A circle is oval on a diagonal, the same diagonal whichever way round it was cut.",
    causes: ["X and Y are not square to each other"],
    separatedBy: {
      checks: ["ring-diameters", "square-sweep"],
      sentence: "Skew keeps its diagonal in discs cut both ways round, and stays when the square is turned over.",
    },
  },
  {
    id: "oval-that-swaps",
    looks: "A circle is oval on a diagonal, and the long diagonal changes with the way round of the cut.",
    causes: ["X has more play than Y, or Y more than X", "the carriage rocks"],
    separatedBy: {
      checks: ["turnaround", "push-and-release"],
      sentence:
        "Play that is larger at the nose than at the carriage plate is rocking; equal at both it lies in the drive.",
    },
  },
  {
    id: "oval-along-an-axis",
    looks: "A circle is long or short along X or along Y.",
    causes: ["the scale of that axis", "bending under the cut", "its belt is slack"],
    separatedBy: {
      checks: ["ring-diameters", "travel", "belt-note"],
      sentence:
        "If a large and a small disc are out by the same share it is scale; if they are out by the same length it is not.",
    },
  },
  {
    id: "marks-at-quadrants",
    looks: "A circle has small flats or steps at left, right, front or rear.",
    causes: [
      "play in X, where they sit at left and right",
      "play in Y, where they sit at front and rear",
      "an axis that sticks before it moves",
    ],
    separatedBy: {
      checks: ["turnaround", "same-again-slower"],
      sentence: "Play makes the same step at any feed; sticking changes with the feed.",
    },
  },
  {
    id: "rhomb",
    looks: "What should be square comes out with two sharp corners and two blunt ones.",
    causes: ["the beam is racked", "homing leaves it racked", "the hose pushes the gantry askew"],
    separatedBy: {
      checks: ["hole-rectangle", "home-repeat", "hose-lift"],
      sentence: "A lasting rack is the same after each homing; what the hose does is gone once the hose hangs free.",
    },
  },
  {
    id: "rhomb-at-the-rear",
    looks: "A square is true at the front of the bed and a rhomb at its rear.",
    causes: ["left and right belt of Y are not equally tight", "a pulley of one side slips", "one side loses steps"],
    separatedBy: {
      checks: ["belt-note", "there-and-back", "square-sweep"],
      sentence:
        "Unequal notes point to tension, an offset that grows with the trips to slipping; sweep the square at the front and at the rear.",
    },
  },
  {
    id: "another-shape-next-day",
    looks: "What was square yesterday is a rhomb today, from the same program.",
    causes: ["homing", "the gantry was pushed while the drives were off"],
    separatedBy: {
      checks: ["home-repeat"],
      sentence: "Home several times with the power off in between: if the place scatters, it is homing.",
    },
  },
  {
    id: "deep-at-one-side",
    looks: "The cut is too deep at the left or at the right.",
    causes: ["hollows under the work", "the bed slopes", "the beam hangs low at that end"],
    separatedBy: {
      checks: ["work-flat", "gap-under-beam", "bed-touch"],
      sentence:
        "First try a leaf under the work; then feel the gap under the beam at front and rear, and touch the bed.",
    },
  },
  {
    id: "deep-at-front-or-rear",
    looks: "Towards the rear the cut grows deeper, or shallower.",
    causes: ["the bed slopes", "the rails are not at one height", "the spindle grew longer with warmth on the way"],
    separatedBy: {
      checks: ["bed-touch"],
      sentence:
        "Cut it again in the other order after half an hour of running: if the deep end changes places, it is warmth.",
    },
  },
  {
    id: "depth-in-the-middle",
    looks: "In the middle of the bed the depth is not what it is at the edges.",
    causes: ["a dome or a hollow in the board", "the work is bowed", "the beam rises or sags in its middle"],
    separatedBy: {
      checks: ["work-flat", "edge-traverse", "bed-touch"],
      sentence:
        "A straightedge that has been turned over shows the beam; a leaf under the work shows the work; what is left is the board.",
    },
  },
  {
    id: "ridges-both-ways",
    looks: "Surfacing leaves ridges along X and along Y.",
    causes: ["the axis of the cutter leans to the side and fore or aft", "a cutter with a chip or unequal edges"],
    separatedBy: {
      checks: ["tram-sweep", "pass-ridges"],
      sentence: "If the ridges go with a new cutter, it was the cutter; if the tram is out both ways, it is the axis.",
    },
  },
  {
    id: "ridges-one-way",
    looks: "A surfaced board shows ridges along X or along Y, not both.",
    causes: ["passes along X: the axis leans fore or aft", "passes along Y: the axis leans sideways"],
    separatedBy: {
      checks: ["tram-sweep", "pass-ridges"],
      sentence: "Front against rear, and left against right, read by themselves in the tram.",
    },
  },
  {
    id: "ridges-uneven",
    looks: "The ridges are uneven, and different each time.",
    causes: ["the slide rocks", "the mount is loose", "the work lifts"],
    separatedBy: {
      checks: ["push-and-release", "mount-line", "work-flat"],
      sentence:
        "A push at the nose that stays is the slide; a broken stroke is the mount; a leaf that goes under is the work.",
    },
  },
  {
    id: "walls-lean-outwards",
    looks: "Every wall stands off outwards at its foot, and each hole tightens on the way down.",
    causes: ["the cutter bends", "it is blunt", "chips pack in the cut", "the cutter is ground with a taper"],
    separatedBy: {
      checks: ["spring-pass"],
      sentence: "If a second pass or a shorter cutter takes the lean away, it was bending.",
    },
  },
  {
    id: "walls-lean-one-way",
    looks: "Whichever way a wall faces, it leans towards one and the same side of the machine.",
    causes: ["the tool does not come straight down", "the axis of the cutter leans"],
    separatedBy: {
      checks: ["two-level-marks", "tram-sweep"],
      sentence: "Marks at two heights show the way down, the tram shows the axis.",
    },
  },
  {
    id: "wavy-walls",
    looks: "A straight wall is wavy, with waves of even length.",
    causes: ["the lead of the screw", "a pulley out of centre", "a flat on a wheel", "the teeth of the belt"],
    separatedBy: {
      checks: ["position-runs", "wheel-preload"],
      sentence: "Measure the length of a wave, and look for the part with that lead, that turn or that tooth.",
    },
  },
  {
    id: "chatter",
    looks: "Fine lines stand across the wall, and the cut is loud.",
    causes: [
      "the cutter sticks out too far",
      "wheels are loose",
      "the feed is too low or too high",
      "the cutter is blunt",
    ],
    separatedBy: {
      checks: ["same-again-slower", "push-and-release", "wheel-preload"],
      sentence:
        "Never change two things together: shorten the cutter first, then alter the feed, and only then look for what rocks.",
    },
  },
  {
    id: "size-out-one-way",
    looks: "Pieces have the wrong size along one axis only.",
    causes: ["the scale of that axis", "its play", "lost steps"],
    separatedBy: {
      checks: ["travel", "turnaround", "there-and-back"],
      sentence: "On twice the length scale doubles and play stays; lost steps depend on how often the axis went.",
    },
  },
  {
    id: "outside-big-pocket-small",
    looks: "Pockets come out too small and the parts for them too big, both by as much.",
    causes: ["a cutter under its stated size", "bending under the cut", "play"],
    separatedBy: {
      checks: ["slot-width", "spring-pass", "turnaround"],
      sentence: "A narrow slot is the cutter; chips in a second pass are bending; what is then left is play.",
    },
  },
  {
    id: "outside-small-pocket-big",
    looks: "Pockets come out too big, and the parts for them too small.",
    causes: ["runout", "a cutter over its stated size", "cutting with the feed pulled the tool into the work"],
    separatedBy: {
      checks: ["slot-width", "runout"],
      sentence: "If the piece comes right when it is cut the other way round, the cutter was pulling in.",
    },
  },
  {
    id: "corners-rounded",
    looks: "Corners come out rounded, or the tool shoots past them.",
    causes: ["too much speed in the corner", "slack belts", "a carriage that rocks"],
    separatedBy: {
      checks: ["same-again-slower", "belt-note", "push-and-release"],
      sentence: "Lower feed cures what speed and belts do; what is left, and gives at the nose, is rocking.",
    },
  },
  {
    id: "drift-in-a-long-job",
    looks: "The longer the program runs, the further its cuts stand off.",
    causes: ["lost steps", "a slipping pulley", "a warm spindle, in Z", "a board that moves"],
    separatedBy: {
      checks: ["there-and-back", "grub-screws", "bed-touch"],
      sentence:
        "Look at the paint lines, and touch off again while the spindle is hot: a new Z alone is warmth or board.",
    },
  },
  {
    id: "one-sudden-shift",
    looks: "The cut jumps once to the side, and runs on true from there.",
    causes: ["hose or cable caught on something", "the axis rode over a chip", "somebody knocked the machine"],
    separatedBy: {
      checks: ["there-and-back", "hose-lift"],
      sentence: "Run the trips with the hose on, and look along hose, rail and cable for the mark of the snag.",
    },
  },
  {
    id: "first-cut-deeper",
    looks: "The depth of the opening cut is never reached again afterwards.",
    causes: [
      "the cutter pulls Z through its play",
      "the slide sags once the motor lets go",
      "the work is thicker there",
    ],
    separatedBy: {
      checks: ["turnaround", "mount-line"],
      sentence: "Read the play of Z, and watch a dial on Z while the drive goes off and on.",
    },
  },
  {
    id: "deeper-and-deeper",
    looks: "The cut goes deeper from pass to pass.",
    causes: ["the collet lets the cutter creep down", "the mount lets the router slide", "Z loses steps on the way up"],
    separatedBy: {
      checks: ["shank-line", "mount-line", "there-and-back"],
      sentence: "The two lines show what has slipped; if both are whole, run Z up and down under its weight.",
    },
  },
  {
    id: "lettering-thick-at-one-end",
    looks: "The strokes of a line of lettering grow thicker towards one end.",
    causes: ["the piece is a wedge or does not lie flat", "the bed slopes", "the beam hangs low at that end"],
    separatedBy: {
      checks: ["groove-widths", "gap-under-beam"],
      sentence: "Swap the ends of the strip: a thick end that comes along belongs to the strip.",
    },
  },
  {
    id: "lettering-thick-all-over",
    looks: "All strokes are too thick.",
    causes: ["the zero of Z is too low", "the angle of the cutter, or the flat at its tip, is not as stated"],
    separatedBy: {
      checks: ["groove-widths"],
      sentence:
        "Touch off again; then make a groove twice as deep in its second half: how much it widens tells the angle.",
    },
  },
  {
    id: "holes-off-after-tool-change",
    looks: "A pattern of holes sits beside its place after the cutter was changed.",
    causes: [
      "the drill wandered",
      "the router was nudged",
      "a bent or dirty seat of the tool",
      "the home place was lost",
    ],
    separatedBy: {
      checks: ["runout", "home-repeat"],
      sentence:
        "Go back to the first cutter and prick a hole that it made: off once more, it is the machine; in its place, the drill.",
    },
  },
  {
    id: "two-sides-do-not-match",
    looks: "Work that is cut from both sides does not meet.",
    causes: [
      "X and Y are not square to each other, which counts twice after turning",
      "the pins are not on the axis of turning",
      "play",
    ],
    separatedBy: {
      checks: ["hole-rectangle", "turnaround"],
      sentence: "Turn the piece over on its pins without cutting, and see whether the point comes to its own mark.",
    },
  },
  {
    id: "inlay-tight-on-two-sides",
    looks: "An inlay is tight on two sides that face each other, and loose on the others.",
    causes: ["play in that axis", "the scale of that axis", "piece and pocket were cut in different ways round"],
    separatedBy: {
      checks: ["turnaround", "travel", "spring-pass"],
      sentence: "Play shows on turning round, scale on a long travel; chips in a second pass speak for the way round.",
    },
  },
  {
    id: "inlay-tight-in-corners",
    looks: "An inlay is tight in two corners that face each other.",
    causes: ["X and Y are not square to each other, counted twice because one of the parts is mirrored"],
    separatedBy: {
      checks: ["ring-diameters", "hole-rectangle"],
      sentence: "Both show the skew by itself, without the mirror.",
    },
  },
  {
    id: "not-through-in-a-corner",
    looks: "A cut that should part the sheet does not go through in one corner.",
    causes: ["the work has lifted", "a low corner or a twist of the bed", "the rails are in wind"],
    separatedBy: {
      checks: ["work-flat", "bed-touch", "rail-wind"],
      sentence:
        "A leaf settles the work; the touched field shows the corner; a bar across the rails shows whether they do it.",
    },
  },
];
