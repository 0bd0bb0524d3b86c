// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Wind of the rails",
  settles: "It shows whether both rails lie in one plane or are twisted against each other between front and rear.",
  minutes: 10,
  stage: "bare frame",
  tools: [
    "Stiff straight bar that reaches over both rails",
    "Level of 0.1 mm/m",
    "Or two winding sticks (a pair of straight strips of equal height) and feeler leaves",
    "Pencil",
  ],
  steps: [
    "Stand the machine where it will work, every foot bearing, and keep your weight off bench and frame from here on.",
    "Mark the stations on both rails: front, rear, the middle and the two quarter points.",
    "If gantry or table is on the rails already, move it away from the station you read and back to the same place each time.",
    "Begin at the front: bar over both rails, level half way along the bar.",
    "Wait until the bubble is at rest; note how far it stands off centre and towards which end.",
    "Enter the reading in mm/m, plus if the bubble has run to the right.",
    "Carry bar and level to the next station with the same ends to the right, and read again; what the level itself is out stays alike in all readings and drops out.",
    "Read the front station once more after the rear one.",
    "With winding sticks, lay one across at the front and one at the station, and look over the front one from two metres away.",
    "Put leaves between rail and far stick at its low end until both edges run parallel; divide the leaves by the distance of the rails in metres, and enter that as plus if they lie at the left. The front station is then 0.",
  ],
  sign: "Plus: the right rail is high at that station. A lean of the whole machine drops out, and only the change along the rails remains.",
  goesWrong: [
    "The level or the bar is turned round between two stations.",
    "Somebody leans on the bench while the bubble settles.",
    "A chip or a burr lies under the bar.",
    "A telephone stands in for the level: the tenth of a degree that it shows is 1.7 mm/m.",
  ],
  typical:
    "Just built, the two ends of the rails differ by 0.5–2 mm over the span; once set, by 0.2 mm. A level with 0.5 mm/m to the mark is too coarse for 0.2 mm; with winding sticks you come nearer to it.",
  cautions: [
    "hands in",
    { sentence: "A steel bar that slips goes through a board or on to a foot: carry it with two hands." },
  ],
};
