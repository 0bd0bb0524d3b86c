type Data = Readonly<Record<string, string | number>>;
type Phrase = (data: Data) => { readonly what: string; readonly expected: string; readonly remedy: string };

/** What each form of a field asks for. */
const formWords: Readonly<Record<string, string>> = {
  "event-id":
    "an id of the form 01234567-89ab-7cde-8f01-23456789abcd: lower case, 7 first in the third group, 8, 9, a or b first in the fourth",
  "event-time": "a date and time with its offset, such as 2026-03-14T16:22:05+01:00",
  key: "up to 64 letters, digits, points, hyphens or low lines, beginning with a letter or a digit",
  name: "one line of 1 to 120 characters",
  prose: "some words in quotation marks",
  word: "a plain word: letters, digits, spaces, points and hyphens, beginning with a letter",
  hash: "64 hexadecimal digits in lower case",
  "media-type": "the media type of a picture, such as image/jpeg",
  number: "a number, without quotation marks",
  "whole-number": "a whole number, without quotation marks",
  text: "text in quotation marks",
  "true-or-false": "true or false, without quotation marks",
  object: "an object in braces",
  list: "a list in brackets",
  null: "null",
  "choice-value": "a text, a number, true or false",
};

/** What could have stood where a line stops being JSON. */
const faultWords: Readonly<Record<string, string>> = {
  value: "a value: text in quotation marks, a number, true, false, null, an object or a list",
  name: "the name of a field in quotation marks",
  colon: "a colon between a field's name and its value",
  "comma or end": "a comma before the next field, or the closing brace or bracket",
  "end of text": "the quotation mark that closes a text",
  escape: 'after a backslash one of " \\ / b f n r t, or u with four hexadecimal digits',
  "end of line": "nothing more on this line: one event stands on one line",
  "less depth": "an event, which is never nested as deeply as this",
};

const minus = (value: string | number | undefined): string => String(value).replace("-", "−");

const meant = (d: Data): string => (d.meant === undefined || d.meant === "" ? "" : `; “${d.meant}” may be meant`);

/** Words for everything that can be wrong with a logbook: its file, its lines, their fields, and what they say together. */
export const logbookPhrases = {
  "logbook-empty": () => ({
    what: "the logbook holds no event",
    expected: "one event a line, the machine's description among them",
    remedy: "look whether this is the file that was meant",
  }),
  "logbook-not-text": () => ({
    what: "this is not a text file",
    expected: "a logbook: lines of UTF-8 text, each one event",
    remedy: "look whether this is the file that was meant, or save it again as UTF-8",
  }),
  "logbook-not-lines": () => ({
    what: "the file is one piece of JSON spread over its lines, not one event a line",
    expected: "each event whole on a line of its own, without brackets or commas around the lines",
    remedy: "write every event on one line",
  }),
  "logbook-too-long": () => ({
    what: "the logbook is too long to be read in one piece",
    expected: "less than about half a gigabyte",
    remedy: "look whether this is the file that was meant",
  }),
  "logbook-line-not-json": (d) => ({
    what: "the line is not a whole piece of JSON",
    expected: faultWords[d.expected as string] ?? "JSON",
    remedy: "mend the line, or restore the file from a copy",
  }),
  "logbook-line-not-event": () => ({
    what: "the line is JSON but not an event",
    expected: 'an object in braces that begins {"v":1,"id":…',
    remedy: "mend the line, or take it out",
  }),
  "logbook-line-torn": () => ({
    what: "the last line breaks off in the middle, as after a power cut, and is set aside",
    expected: "a whole event and a line end",
    remedy: "everything before it is read; take the last reading again if it is missing",
  }),
  "logbook-from-newer-version": (d) => ({
    what: `the logbook holds an event of version ${d.version} of the format, and this program knows versions up to ${d.known}`,
    expected: `version ${d.known} or older`,
    remedy: "read it with a newer program; nothing in the file has been touched",
  }),
  "logbook-more": (d) => ({
    what: `${d.count} more ${d.count === 1 ? "thing is" : "things are"} wrong further on`,
    expected: "a logbook without them",
    remedy: "mend those above first, then read it again",
  }),
  "event-version-unfit": (d) => ({
    what: d.found === "" ? "the event does not say its version" : `the event's version is ${d.found}`,
    expected: '"v":1',
    remedy: "add the version as the first field",
  }),
  "event-kind-unknown": (d) => ({
    what: d.found === "" ? "the event does not say its kind" : `no event is of the kind “${d.found}”${meant(d)}`,
    expected: "one of the kinds that the guide to the logbook lists",
    remedy: "write one of these kinds",
  }),
  "event-field-missing": (d) => ({
    what: `the field “${d.field}” is missing`,
    expected: `${formWords[d.form as string] ?? "the field"} under this name`,
    remedy: "add the field",
  }),
  "event-field-unknown": (d) => ({
    what: `no field here is named “${d.field}”${meant(d)}`,
    expected: `only ${d.listed}`,
    remedy: "correct the name, or take the field out",
  }),
  "event-field-twice": (d) => ({
    what: `the field “${d.field}” stands twice in one event`,
    expected: "every field once",
    remedy: "keep the one that is meant",
  }),
  "event-field-unfit": (d) => ({
    what: `“${d.field}” is ${d.found}`,
    expected: formWords[d.form as string] ?? `${d.form}`,
    remedy: "correct the field",
  }),
  "event-field-not-listed": (d) => ({
    what: `“${d.field}” is ${d.found}${meant(d)}`,
    expected: `one of ${d.listed}`,
    remedy: "write one of these",
  }),
  "event-field-beyond": (d) => ({
    what: `“${d.field}” is ${d.found}`,
    expected: `${d.bound}`,
    remedy: "look at the number and its unit again",
  }),
  "event-id-shared": (d) => ({
    what: `two different events have the same id, here and on line ${d.otherLine}`,
    expected: "an id of its own for every event; the same event may stand twice if both are alike",
    remedy: "find out which one is right: an event is never edited, a correction is a new event",
  }),
  "factor-zero": () => ({
    what: "the factor is 0",
    expected: "a factor such as 25.4, 0.0254, 10 or −1",
    remedy: "write the factor, or withdraw the run",
  }),
  "reading-form": () => ({
    what: "the reading is given in no form, or in more than one",
    expected: "one of: value; goes and doesNotGo, or one of the two; passed; first and second",
    remedy: "keep one form",
  }),
  "reading-part-form": () => ({
    what: "one half of the reading is given in no form, or in more than one",
    expected: "one of: value; goes and doesNotGo, or one of the two",
    remedy: "keep one form",
  }),
  "reading-half": () => ({
    what: "one half of a double reading is missing",
    expected: "first and second",
    remedy: "add the other gap or length",
  }),
  "reading-unit": () => ({
    what: "the reading has no unit",
    expected: 'a unit beside the number, such as "unit":"mm"',
    remedy: "add the unit",
  }),
  "reading-without-unit": () => ({
    what: "a yes or no, or a count, has a unit",
    expected: "no unit",
    remedy: "take the unit out",
  }),
  "reading-leaves-crossed": () => ({
    what: "what goes is not thinner than what does not go",
    expected: "under goes the thickest stack that slides in, under doesNotGo the next thicker one that does not",
    remedy: "look whether the two are exchanged",
  }),
  "reading-not-double": (d) => ({
    what: `a station of the check ${d.check} takes one reading, and two are given`,
    expected: "one of: value; goes and doesNotGo, or one of the two",
    remedy: "keep the one reading",
  }),
  "reading-is-verdict": (d) => ({
    what: `the check ${d.check} is answered by yes or no`,
    expected: '"passed":true or "passed":false',
    remedy: "write whether it passed",
  }),
  "reading-not-verdict": (d) => ({
    what: `the check ${d.check} is answered by a number`,
    expected: "a value, or leaves that go and do not go",
    remedy: "write the number that was read",
  }),
  "reading-not-plausible": (d) => ({
    what: `the reading is ${d.found}`,
    expected: `no more than ${d.most} either way`,
    remedy: "look at the number and its unit again",
  }),
  "logbook-without-machine": () => ({
    what: "the logbook never says what machine it is of",
    expected: "an event of the kind machine-described",
    remedy: "add the machine's description",
  }),
  "machine-rails-crossed": (d) => ({
    what: `the left rail stands at ${d.left} and the right one at ${d.right}`,
    expected: "the right rail further to the right than the left one",
    remedy: "look whether the two are exchanged; left is left for somebody who stands at the front",
  }),
  "machine-table-rails-crossed": (d) => ({
    what: `the table's left rail stands at ${d.left} and its right one at ${d.right}`,
    expected: "the right rail further to the right than the left one",
    remedy: "look whether the two are exchanged",
  }),
  "machine-bed-inside-out": (d) => ({
    what: `the bed reaches from ${d.low} to ${d.high} ${d.along}`,
    expected: "its right edge right of the left one, its rear edge behind the front one",
    remedy: "look whether two edges are exchanged",
  }),
  "machine-packing-places-crossed": (d) => ({
    what: `the front packing place stands at ${d.front} and the rear one at ${d.rear}`,
    expected: "the rear place further to the rear: 0 is the rail's front end, 1 its rear end",
    remedy: "look whether the two are exchanged",
  }),
  "machine-underside-above-centre": (d) => ({
    what: `the beam's underside is at ${d.underside} and its centre at ${d.centre}`,
    expected: "the underside below the centre",
    remedy: "look at the two heights again",
  }),
  "machine-rails-inside-travel": (d) => ({
    what: `the rail planes stand at ${d.left} and ${d.right}, inside a travel of ${d.travel}`,
    expected: "on most machines the tool stays between the rails",
    remedy: "look whether they are counted from the front left corner of the travel; if the machine is so, leave them",
  }),
  "coordinates-axis-named-twice": (d) => ({
    what: `two axes are both named “${d.name}”`,
    expected: "three different names",
    remedy: "name each axis as the machine's own display does",
  }),
  "check-unknown": (d) => ({
    what: `no check is named “${d.check}”${meant(d)}`,
    expected: "a check of the catalogue",
    remedy: "correct the name",
  }),
  "run-unknown": (d) => ({
    what: `no run is named “${d.run}”${meant(d)}`,
    expected: "a run that an event of the kind run-begun begins",
    remedy: "correct the name, or add the beginning of the run",
  }),
  "run-begun-twice": (d) => ({
    what: `the run “${d.run}” is begun twice`,
    expected: "a name of its own for every run",
    remedy: "give the second run another name",
  }),
  "instrument-unknown": (d) => ({
    what: `no instrument is named “${d.instrument}”${meant(d)}`,
    expected: "an instrument that an event of the kind instrument-added adds",
    remedy: "correct the name, or add the instrument",
  }),
  "object-unknown": (d) => ({
    what: `nothing named “${d.object}” has been added${meant(d)}`,
    expected: "an object that an event of the kind object-added adds",
    remedy: "correct the name, or add the object",
  }),
  "kind-unknown": (d) => ({
    what: `no kind is named “${d.kind}”${meant(d)}`,
    expected: `one of ${d.listed}`,
    remedy: "write one of these; figures of your own go beside it",
  }),
  "check-of-other-layout": (d) => ({
    what: `the check ${d.check} does not exist on a machine of the layout ${d.layout}`,
    expected: "a check that this machine has",
    remedy: "look whether the machine's layout is stated rightly",
  }),
  "instrument-unusual": (d) => ({
    what: `the check ${d.check} is not usually read with “${d.name}”`,
    expected: `one of ${d.expected}`,
    remedy: "leave it if it was so; else name the instrument that was used",
  }),
  "instrument-of-other-quantity": (d) => ({
    what: `the check ${d.check} is read as a ${d.asked}, and “${d.name}” shows a ${d.shown}`,
    expected: `one of ${d.expected}`,
    remedy: "name the instrument that was used",
  }),
  "role-unknown": (d) => ({
    what: `the check ${d.check} leans on no object as its ${d.role}`,
    expected: d.listed === "" ? "no object" : `one of ${d.listed}`,
    remedy: "correct the role, or take the object out",
  }),
  "option-unknown": (d) => ({
    what: `the check ${d.check} has no choice named “${d.option}”${meant(d)}`,
    expected: d.listed === "" ? "no choice" : `one of ${d.listed}`,
    remedy: "correct the name, or take the choice out",
  }),
  "option-not-possible": (d) => ({
    what: `“${d.option}” is “${d.found}”${meant(d)}`,
    expected: `${d.expected}`,
    remedy: "write what was the case",
  }),
  "station-unknown": (d) => ({
    what: `the check ${d.check} has no station “${d.station}” here${meant(d)}`,
    expected:
      (d.listed === "" ? "no station at all, as the run is set up" : `one of ${d.listed}`) +
      (d.ownPlaces === 0 ? "" : ", or a place such as x=123 y=45 in mm"),
    remedy: d.listed === "" ? "look at the choices of the run again" : "correct the station",
  }),
  "station-outside-travel": (d) => ({
    what: `the station “${d.station}” is outside the travel`,
    expected: `x from 0 to ${d.x}, y from 0 to ${d.y} and z from ${minus(d.lowest)} to ${d.z}, in mm from the front left corner of the travel`,
    remedy: "correct the place",
  }),
  "station-near-quadrant": (d) => ({
    what: `at ${d.station} the jaws bridge the step that play leaves where an axis turns round`,
    expected: `an angle ${d.clearance}° or more away from 0°, 90°, 180° and 270°: ${d.listed}`,
    remedy: "measure the diameter at one of these angles",
  }),
  "station-off-the-bed": (d) => ({
    what: `the station “${d.station}” is not on the bed`,
    expected: `x from ${minus(d.left)} to ${minus(d.right)} and y from ${minus(d.front)} to ${minus(d.rear)}, in mm from the front left corner of the travel`,
    remedy: "correct the place",
  }),
  "reading-unknown": (d) => ({
    what: `no reading has the id ${d.reading}`,
    expected: "the id of an event of the kind reading-taken",
    remedy: "look up the reading's id",
  }),
  "move-unknown": (d) => ({
    what: `no move has the id ${d.move}`,
    expected: "the id of an event of the kind move-made",
    remedy: "look up the move's id",
  }),
  "happening-unknown": (d) => ({
    what: d.isMove === 1 ? `${d.happening} is the id of a move` : `nothing that happened has the id ${d.happening}`,
    expected: "the id of a homed, powered-on, knocked, transported, part-replaced or skimmed",
    remedy: d.isMove === 1 ? "take a move back by a move-undone" : "look up the id",
  }),
  "adjuster-range-unfit": (d) => ({
    what: `the range reaches from ${minus(d.from)} to ${minus(d.to)}`,
    expected:
      d.packed === 1
        ? "from what always lies there, 0 or more, up to more than that"
        : "from 0 or less up to 0 or more: it can also be left as it is",
    remedy: "look at the two ends and their signs again",
  }),
  "adjuster-without-screw": (d) => ({
    what: `the pitch of a screw is stated for ${d.adjuster}, which no screw sets`,
    expected: "a place that is moved by an amount and not with leaves, such as beam.right",
    remedy: "leave the pitch out",
  }),
  "packing-below-nothing": (d) => ({
    what: `${minus(d.mm)} mm of packing lie at ${d.adjuster}`,
    expected: "0 or more; less than 0 only where packing goes behind the top screws (+) or the bottom ones (−)",
    remedy: "look at the sign again",
  }),
  "kind-of-work-unknown": (d) => ({
    what: `no kind of work is named “${d.kindOfWork}”${meant(d)}`,
    expected: `one of ${d.listed}`,
    remedy: "correct the name",
  }),
  "adjuster-unknown": (d) => ({
    what: `this machine has no adjuster named “${d.adjuster}”${meant(d)}`,
    expected: "an adjuster of this machine's layout",
    remedy: "correct the name",
  }),
  "finding-unknown": (d) => ({
    what: `no finding is named “${d.finding}”${meant(d)}`,
    expected: "a finding of this machine's layout",
    remedy: "correct the name",
  }),
  "mode-unknown": (d) => ({
    what: `no way of being out is named “${d.mode}”${meant(d)}`,
    expected: "a mode of this machine's layout",
    remedy: "correct the name",
  }),
} satisfies Record<string, Phrase>;
