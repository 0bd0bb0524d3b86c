/** Words that hold for every check, under a heading of their own. */
export interface StandingWords {
  readonly id: string;
  readonly title: string;
  readonly sentences: readonly string[];
}

// Figures: common practice, no source.
export const standingWords: readonly StandingWords[] = [
  {
    id: "where-you-stand",
    title: "Left and right, front and rear",
    sentences: [
      "All sides are named from the front of the machine, with your face towards it: left is where X is small, front is where Y is small.",
      "They keep these names when you walk round to the back.",
      "Where the table moves instead of the gantry, to the rear means that the tool goes to the rear over the table; the table then runs towards you.",
    ],
  },
  {
    id: "dial-sign",
    title: "Which way the dial counts",
    sentences: [
      "A stem that is pushed in makes the reading grow, and that is plus.",
      "On the tool, the stem points to the right, to the rear or down to the bed; it may point elsewhere if that is stated with the run.",
      "On the bed, the dial stands where the tool goes in plus, so that the tool coming in plus pushes the stem in.",
      "Try it with a fingertip before you begin: pushed in, the dial counts up.",
    ],
  },
  {
    id: "side-of-the-square",
    title: "Which side the square stands",
    sentences: [
      "With every square, straightedge and flank it is stated on which side it stands and which way round.",
      "Without that the sign is a guess, and half of the guesses are wrong.",
    ],
  },
  {
    id: "feeler-practice",
    title: "Feeling a gap with leaves",
    sentences: [
      "Wipe the leaves and both faces first.",
      "A leaf goes when it slides with the drag of writing paper between two fingers; the next thicker one does not go.",
      "Both are entered, the stack that goes and the next that does not.",
      "A stack has three leaves at most, with the thicker ones on its outside.",
      "Grip it far back, and let it find its own way in.",
    ],
  },
  {
    id: "hands-off",
    title: "Hands off before reading",
    sentences: [
      "Neither hand, hip nor elbow touches machine or bench while a number is read.",
      "A hand on the beam moves it by more than a leaf.",
    ],
  },
  {
    id: "first-station-again",
    title: "The first station again",
    sentences: [
      "Every run ends where it began: the first station is read a second time.",
      "Where the two disagree by more than double the feel of the tool, machine or tool has shifted.",
      "The run is then read afresh; a mean of two that do not agree is no reading.",
    ],
  },
  {
    id: "approach",
    title: "Arriving from one side",
    sentences: [
      "Under power each station is approached in the plus direction, unless the check asks for the other, so that play lies on the same side each time.",
      "An axis that has gone too far goes back by 5 mm and comes up again.",
    ],
  },
  {
    id: "parking",
    title: "Parking the carriage",
    sentences: [
      "Within a run the carriage stands at the same place, or at the station itself, and hose and cables are on for all readings or off for all.",
      "The weight of the carriage bends and twists a light beam by as much as a leaf shows.",
    ],
  },
  {
    id: "room",
    title: "Time in the room",
    sentences: [
      "Machine and tools have had some hours to take on the warmth of the room.",
      "Temperature and humidity are noted with the run, because a board moves with both and metal with the first.",
    ],
  },
];
