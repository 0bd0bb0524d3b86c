import { poseAt } from "../machine/joint.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type CheckUnknown, type GeometricCheck, optionOf, type Setup } from "./check.ts";
import { leanOfMember } from "./lean.ts";
import { squareStands, squareUnknown } from "./square.ts";
import { words } from "./words/upright-gap.ts";

/**
 * top gap − bottom gap = −q·[lean·H + q·square·H/100 + flank·H/1000] between a square on the bed and the flank of the
 * spindle's housing, or of the slide (which has no flank term). Square to the left, or in front: q = −1, so plus is a
 * lean to the right, or to the rear.
 */
export const uprightGap: GeometricCheck = {
  id: "upright-gap",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["feeler"],
  roles: ["square"],
  lastingError: "cancels",
  atTip: false,
  options: [
    { key: "towards", question: "Which lean is looked at?", answers: ["side", "fore"], usual: "side" },
    { key: "flank", question: "Whose flank is it?", answers: ["spindle", "slide"], usual: "spindle" },
    squareStands("Where does the square stand?", ["left or in front", "right or behind"], "left or in front"),
    {
      key: "heightMm",
      question: "How far is the upper place above the lower one?",
      number: { unit: "mm", from: 10, to: 300 },
      usual: 80,
    },
  ],
  entries: ["top gap", "bottom gap"],
  oneTouches: true,
  stations: ({ machine }) => {
    const { Lx, Ly, Lz } = machine.dimensions;
    return [{ key: "centre", words: "tool over the middle of the bed", at: [Lx / 2, Ly / 2, Math.min(20, Lz)] }];
  },
  stationAt: (_, [x, y, z]) => ({ key: `x=${x} y=${y} z=${z}`, words: `tool at X ${x}, Y ${y}`, at: [x, y, z] }),
  unknowns: (setup) => [squareUnknown, ...flankUnknowns(setup)],
  predict: (scene, { at: [x, y, z] }, setup, unknown) => {
    const towards = optionOf(uprightGap, setup, "towards") === "fore" ? "fore" : "side";
    const member = optionOf(uprightGap, setup, "flank") === "slide" ? "slide" : "spindle";
    const q = optionOf(uprightGap, setup, "square") === "left or in front" ? -1 : 1;
    const H = Number(optionOf(uprightGap, setup, "heightMm"));
    const lean = leanOfMember(scene, member, [x, y, z + scene.machine.dimensions.zm], H, towards, poseAt(x, y, z));
    const own = flankUnknowns(setup).map(({ key }) => unknown(key));
    return weightedSum([-q * H, -H / 100, ...own.map(() => (-q * H) / 1000)], [lean, unknown("square"), ...own]);
  },
};

function flankUnknowns(setup: Setup): readonly CheckUnknown[] {
  if (optionOf(uprightGap, setup, "flank") === "slide") return [];
  const towards = optionOf(uprightGap, setup, "towards");
  const words = "the housing's flank against the spindle's axis";
  return [{ key: `flank.${towards}`, scope: "part", words, mean: 0, sd: 0.5 }];
}
