// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Square laid on the bed, X against Y",
  settles:
    "It shows whether the motion in Y stands square to the motion in X, and whether the square itself tells the truth.",
  minutes: 15,
  stage: "powered",
  tools: [
    "Square, the larger the better",
    "Dial or test indicator with a holder for the collet",
    "Two packers of equal height",
    "Two light clamps",
    "Small mallet",
  ],
  steps: [
    "Home the machine, and leave its drives on until both halves of the check are done.",
    "Lay the square flat on the two packers in the middle of the bed, with its corner towards you at the left: the stock then lies along X, and the blade runs away from you along Y.",
    "Put the dial in the collet, its stem to the rear against the long outside of the stock, which faces you.",
    "Travel along the stock with the X axis, and tap the square round until its two ends agree.",
    "Clamp lightly, and look at both ends again.",
    "Read the stations of the stock, moving to the right.",
    "Turn the stem to the right, against the outside of the blade, and read there from the corner to the rear.",
    "Move back past the corner, and read the first station of the blade once more.",
    "Free the dial, and turn the square over like the page of a book: corner at the front right, stock to the left, blade still to the rear.",
    "Set it by the stock again, with the stem to the rear; on the blade the stem now points to the left: state that, and read both legs.",
    "On a machine with two motors for Y, home again and do both halves a second time.",
  ],
  setUp:
    "Lay the square on its two packers, stock along X and blade along Y, tap it round until both ends of the stock read alike, and clamp it lightly.",
  sign: "Corner at the front left, stem to the right on the blade: a number that grows towards the rear means that the tool drifts to the right. Turned over, with the stem to the left, growing means drift to the left. On the stock, growing to the right means drift to the rear.",
  goesWrong: [
    "The square is not turned over: a workshop square is often out by 0.1–0.3 mm/m and a cheap one by 2 mm/m, and all of that then counts against the machine.",
    "The square rocks on its packers.",
    "The clamp shifts it after it has been set.",
  ],
  typical: "1–5 mm/m just built, 0.3 mm/m once set. Most squares prove nothing finer than 0.15 mm/m.",
  cautions: [
    "under power",
    { sentence: "The plug of the router stays out as long as a dial sits in its collet." },
    { sentence: "Swing the dial clear before the square is lifted, turned or tapped." },
  ],
};
