/** Stands before the cautions of every adjuster. */
export const adjustingHead =
  "What the maker of the machine says about this joint, its screws and their torque comes before anything here.";

/** For every joint that is opened by hand. */
export const handsIn = "Pull the plug and take the cutter out before a hand goes in.";

export const oneJoint = "Open this joint only: with two open at once nobody can tell which of them moved.";

export const markFirst = "Draw a fine line across the joint before it is loosened, so that there is a way back.";

export const noKeysLeft =
  "Count the screws that are tight again, and take keys and loose leaves away before the plug goes in.";

/** A belt lets its axis roll as soon as nothing holds it. */
export const axisRolls = "Without current an axis on a belt rolls at a touch: chock it where it stands.";
