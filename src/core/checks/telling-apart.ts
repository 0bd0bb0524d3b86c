/** One way in which a deviation behaves, and what such behaviour points to. */
export interface TellingRule {
  readonly id: string;
  /** What a person sees when something is changed on purpose. */
  readonly shows: string;
  /** What it then is, in a word or two. */
  readonly cause: string;
  /** Why that cause behaves so, in one line. */
  readonly because: string;
}

// Common practice, no source.
/** How to tell causes apart by what a deviation does when length, direction, feed, time or the way round is changed. */
export const tellingApart: readonly TellingRule[] = [
  {
    id: "grows-with-length",
    shows: "It keeps its sign and is twice as big on twice the length.",
    cause: "scale",
    because: "Every millimetre of travel is short or long by the same share.",
  },
  {
    id: "turns-with-direction",
    shows: "It keeps its size and changes its sign when the axis arrives from the other side.",
    cause: "play",
    because: "The drive crosses the same gap each time it turns round, whatever the length.",
  },
  {
    id: "grows-with-moves",
    shows: "It becomes more with every trip and does not come back.",
    cause: "steps that get lost, or a pulley that slips on its shaft",
    because: "What motor or shaft has lost once, nothing gives back until the next homing.",
  },
  {
    id: "goes-when-slow",
    shows: "Lower the feed to a third, and it shrinks or is gone.",
    cause: "speed or bending",
    because: "Geometry does not know how fast the tool goes; forces do.",
  },
  {
    id: "has-a-pitch",
    shows: "It repeats at even distances along the travel.",
    cause: "the part whose turn or tooth has that pitch",
    because: "A screw, a pulley or a wheel that runs out of true does so once in each of its turns.",
  },
  {
    id: "new-at-power-on",
    shows: "It is another one each time the machine has been switched on.",
    cause: "homing",
    because: "Squareness and zero are then taken afresh from switches and from wherever the motors wake.",
  },
  {
    id: "follows-the-work",
    shows: "Turn the piece round, and it turns too.",
    cause: "the work, or how it lies",
    because: "A wedge or a bow of the piece moves with the piece.",
  },
  {
    id: "stays-with-the-machine",
    shows: "Turn over the square, the straightedge or the strip, and it has not budged.",
    cause: "the machine",
    because: "What belongs to the tool changes its sign when the tool is turned, and this did not.",
  },
];
