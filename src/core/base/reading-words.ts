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

function meant(data: Data): string {
  return `was it ${data.meant}? type it again`;
}

function outsideLeaves(data: Data): string {
  return data.side === "above"
    ? "if even the thickest stack goes in, say that it goes and leave the other field empty; or put a known block in the gap"
    : "if not even the thinnest goes in, say that it does not go and leave the other field empty";
}

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
  "reading-out-of-range": (d) => ({
    what: `${d.text} lies outside what this tool shows (${d.name})`,
    expected: `from ${d.from} to ${d.to} ${d.unit}`,
    remedy: d.meant === undefined ? "read it again, or choose the tool that it was read with" : meant(d),
  }),
  "leaves-out-of-range": (d) => ({
    what: `${d.text} is ${d.side === "above" ? "thicker than any stack" : "thinner than the thinnest"} of these leaves`,
    expected: `from ${d.from} to ${d.to} ${d.unit}, no leaf twice and ${d.largestStack} at most`,
    remedy: d.meant === undefined ? outsideLeaves(d) : meant(d),
  }),
  "leaves-cannot-make": (d) => ({
    what: `no stack of these leaves is ${d.text}`,
    expected: `the nearest are ${d.below} and ${d.above} ${d.unit}`,
    remedy: d.meant === undefined ? "look at the numbers on the leaves again" : meant(d),
  }),
  "leaves-crossed": (d) => ({
    what: `${d.goes} goes and ${d.doesNotGo} does not: a thinner stack cannot be refused where a thicker one goes in`,
    expected: "the stack that goes thinner than the one that does not go",
    remedy: "look which of the two went in, and type both again",
  }),
  "leaf-that-goes-missing": (d) => ({
    what: `${d.text} does not go, and thinner stacks have not been tried`,
    expected: `the thickest stack that goes, from ${d.from} ${d.unit} upwards`,
    remedy: "try the next thinner stack until one goes in",
  }),
  "leaf-not-in-set": (d) => ({
    what: `“${d.text}” names a leaf of ${d.name} ${d.unit}, and this set has none`,
    expected: "leaves of this set, or their sum alone",
    remedy: "look at the numbers on the leaves again",
  }),
  "stack-not-allowed": (d) => ({
    what: `“${d.text}” names a leaf twice, or more than ${d.largestStack} leaves`,
    expected: `no leaf twice and ${d.largestStack} at most`,
    remedy: "look at the numbers on the leaves again, or try thicker ones",
  }),
  "leaves-missing": (d) => ({
    what: "no leaf is listed",
    expected: `every leaf of the set, such as 0.05 0.10 0.15, in ${d.unit}`,
    remedy: "list them all, or leave the list away where the set is a usual one",
  }),
  "leaf-not-possible": (d) => ({
    what: `“${d.text}” is not the thickness of a leaf`,
    expected: `a decimal number, from ${d.from} to ${d.to} mm`,
    remedy: "look at the number on the leaf, and at the unit that is taken",
  }),
  "leaf-listed-twice": (d) => ({
    what: `${d.text} stands in the list twice`,
    expected: "each leaf once, as it lies in the set",
    remedy: "take it out, or type the leaf that is meant",
  }),
  "leaves-too-many": (d) => ({
    what: `${d.count} leaves in stacks of up to ${d.largestStack} make more sums than can be looked through`,
    expected: `${d.most} leaves at most, and fewer in a stack where there are many`,
    remedy: "allow fewer in a stack, or list the leaves that are used",
  }),
  "sum-without-leaves": (d) => ({
    what: `“${d.text}” is a sum, and this tool has no leaves (${d.name})`,
    expected: "one number",
    remedy: "type what the tool shows",
  }),
  "entry-needs-number": (d) => ({
    what: `yes or no does not say what was read (${d.name})`,
    expected: `a number in ${d.unit}`,
    remedy: "type what the tool shows",
  }),
  "entry-needs-verdict": () => ({
    what: "this is a look or a push, and no number belongs to it",
    expected: "yes or no",
    remedy: "say whether it holds",
  }),
  "entry-needs-leaves": (d) => ({
    what: `“goes” and “does not go” are for leaves (${d.name})`,
    expected: "one number",
    remedy: "type what the tool shows",
  }),
  "statement-of-other-object": (d) => ({
    what: `nothing can be stated of “${d.of}” for this (${d.name})`,
    expected: d.expected === "" ? "no statement" : `any of ${d.expected}`,
    remedy: "leave it out, or choose the kind that has it",
  }),
  "statement-needs-nominal": (d) => ({
    what: `“${d.of}” is stated without what is written on the cutter`,
    expected: `“${d.nominal}” beside it`,
    remedy: "add what is written on the cutter",
  }),
  "figure-of-other-instrument": (d) => ({
    what: `“${d.figure}” is not a figure that this tool has (${d.name})`,
    expected: d.expected === "" ? "no figures" : `any of ${d.expected}`,
    remedy: "leave it out, or choose the kind that has it",
  }),
} satisfies Record<string, Phrase>;
