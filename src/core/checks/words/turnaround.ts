// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Play on turning round",
  settles:
    "It shows how much of a move is lost when an axis turns round, at the nose of the spindle and at the carriage plate.",
  minutes: 6,
  stage: "powered",
  tools: ["Dial with a holder", "Or a block with a clamp, and feeler leaves"],
  steps: [
    "Fix the dial to the bed on the plus side of the spindle nose, in line with the axis, so that a move in plus pushes its stem in.",
    "Start 5 mm short of the place, move on to it in plus, and zero the dial.",
    "Overrun it by 5 mm, turn round, and stop at that place again, now in minus.",
    "Read the dial.",
    "Go 5 mm back in minus, arrive in plus again, and see that the dial reads zero.",
    "Read three times at the least.",
    "Move the dial to the carriage plate, close to the rail, and do the same there; if the nose loses more than the plate, something rocks in between.",
    "State the play take-up if the control has one switched on.",
    "Without a dial, clamp a block to the bed on the plus side of the nose, 6 mm clear of it at the place itself, so that 5 mm of overshoot still fit.",
    "Fill the gap with one loose packer of 5 mm and leaves after arriving in plus, and with the same packer and leaves after arriving in minus; the first stack of leaves less the second is the reading.",
  ],
  setUp: "Fix the dial to the bed with its stem against the spindle nose, arrive in plus, and zero it.",
  sign: "The place reached in minus less the place reached in plus. Plus: motion is lost on turning round.",
  goesWrong: [
    "The axis overshoots by too little, and the play is not taken up.",
    "The holder of the dial gives.",
    "The control takes play up already, nobody states it, and the reading is nought or below.",
  ],
  typical:
    "Belt 0.05–0.25 mm at first and 0.05 mm once set; plain nut 0.05–0.3 mm; sprung nut 0.03 mm. Where the play changes along the travel, no take-up number helps: something is loose, or the nut is worn.",
  cautions: ["under power"],
};
