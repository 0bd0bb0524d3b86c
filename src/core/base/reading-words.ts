type Data = Readonly<Record<string, string | number>>;
type Phrase = (data: Data) => { readonly what: string; readonly expected: string; readonly remedy: string };

/** A quantity named for what it is, and as what a reading is. */
const quantityWords: Readonly<Record<string, string>> = {
  length: "length",
  slope: "slope",
  force: "force",
  frequency: "pitch",
  temperature: "temperature",
  share: "parts in a hundred",
};

const articledQuantity: Readonly<Record<string, string>> = {
  length: "a length",
  slope: "a slope",
  force: "a force",
  frequency: "a pitch",
  temperature: "a temperature",
  share: "a share in per cent",
};

/** Words for numbers as they are typed and for readings that an instrument cannot give. */
export const readingPhrases = {
  "number-not-readable": (d) => ({
    what: `“${d.text}” is not a number`,
    expected: "digits with a comma or a point, or a fraction of an inch such as 3/16in",
    remedy: "type the reading again",
  }),
  "number-missing": (d) => ({
    what: "nothing is typed here",
    expected: `a number in ${d.unit}`,
    remedy: "type the reading, or skip the station",
  }),
  "number-with-two-marks": (d) => ({
    what: `“${d.text}” has more than one decimal mark`,
    expected: "one comma or one point, and nothing between thousands",
    remedy: "type it with one mark, such as 1000.5",
  }),
  "number-with-gap": (d) => ({
    what: `“${d.text}” has a gap between its digits and can be one number or two`,
    expected: "one number without a gap, or a fraction such as 1 3/16",
    remedy: "type it without the gap, or with + between two leaves",
  }),
  "comma-taken-as-decimal-mark": (d) => ({
    what: `“${d.text}” is taken as ${d.read}`,
    expected: "a comma is a decimal mark here, never a mark between thousands",
    remedy: "if thousands were meant, type it without the comma",
  }),
  "fraction-not-possible": (d) => ({
    what: `“${d.text}” is not a fraction that a rule can show`,
    expected: "whole numbers above and below, such as 3/16 or 1 3/16",
    remedy: "type the fraction again",
  }),
  "fraction-needs-unit": (d) => ({
    what: `“${d.text}” can be part of an inch or of a millimetre`,
    expected: `a decimal number in ${d.unit}, or a fraction with its unit`,
    remedy: "put in behind it, such as 3/16in",
  }),
  "sum-with-minus": (d) => ({
    what: `“${d.text}” adds to a number below zero`,
    expected: "a sum only of leaves in one stack, such as 0.20+0.15",
    remedy: "type the one number that is meant",
  }),
  "sum-with-unclear-units": (d) => ({
    what: `in “${d.text}” two units are named and some numbers have none`,
    expected: "one unit for the whole sum, or a unit behind every number",
    remedy: "put the unit behind each number",
  }),
  "unit-not-known": (d) => ({
    what: `“${d.text}” is not a unit that is known here`,
    expected: `one of ${d.expected}`,
    remedy: "type one of these units, or none",
  }),
  "unit-of-other-quantity": (d) => ({
    what: `“${d.text}” is a unit of ${quantityWords[d.typed as string] ?? d.typed}, and this reading is ${articledQuantity[d.asked as string] ?? d.asked}`,
    expected: `one of ${d.expected}`,
    remedy: "look whether the right instrument is chosen, then type the reading again",
  }),
} satisfies Record<string, Phrase>;
