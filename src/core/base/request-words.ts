type Data = Readonly<Record<string, string | number>>;

/** A number with a true minus sign. */
function signed(value: string | number | undefined): string {
  return String(value).replace("-", "−");
}

function unitOf({ unit }: Data): string {
  return unit === "" ? "" : ` ${unit}`;
}

/** Words for what somebody asks for and cannot have: on the command line, and later on the page. */
export const requestPhrases = {
  "compare-needs-two": (d: Data) => ({
    what: "this does not name two times of which one is before the other",
    expected: `two of the times at which something was measured, with a move, a knock or some weeks in between: ${d.listed}`,
    remedy: "name other days, or measure again after what happened",
  }),
  "readings-too-many": (d: Data) => ({
    what: `more readings than ${d.check} has stations`,
    expected: `at most ${d.count} readings in the order of the stations, or a station's name before each`,
    remedy: "leave out what is too much, or write a reading as “station=reading”; nothing has been written",
  }),
  "run-needs-instrument": (d: Data) => ({
    what: `no instrument is named for ${d.check}`,
    expected: `the id of one of your instruments, as a rule one of these: ${d.expected}`,
    remedy: "name it with --with; `kilter tools FILE` lists what the logbook knows",
  }),
  "file-unreadable": (d: Data) => ({
    what: `the file cannot be read: ${d.reason}`,
    expected: "the path of a file that is there and may be read",
    remedy: "look at the path; `kilter create` begins a new logbook",
  }),
  "file-unwritable": (d: Data) => ({
    what: `nothing can be written there: ${d.reason}`,
    expected: "a place where you may write",
    remedy: "choose another place; nothing has been added to the logbook",
  }),
  "output-unwritable": (d: Data) => ({
    what: `what the command says cannot be written: ${d.reason}`,
    expected: "a screen, a pipe or a file with room",
    remedy: "send it somewhere else; what a command has added to a logbook stays there",
  }),
  "file-exists": () => ({
    what: "the file is there already",
    expected: "a new name: a logbook is never written over",
    remedy: "choose another name, or add to the one that is there",
  }),
  "file-changed": (d: Data) => ({
    what: `${d.file} has changed since it was read`,
    expected: "one writer at a time",
    remedy: "give the command again; nothing has been written",
  }),
  "logbook-grew": (d: Data) => ({
    what: `another program has added ${Number(d.count) === 1 ? "an event" : `${d.count} events`} to ${d.file} since it was read`,
    expected: "one writer at a time",
    remedy: "nothing: both fit together and both are in it; what is shown here does not know the other's yet",
  }),
  "logbook-being-written": (d: Data) => ({
    what: Number(d.process) === 0 ? "another program is writing to it" : `process ${d.process} is writing to it`,
    expected: "one writer at a time",
    remedy: "give the command again when the other is done; nothing has been written",
  }),
  "finding-unknown-here": (d: Data) => ({
    what: `“${d.finding}” names no finding of this machine, or more than one`,
    expected: `one of: ${d.listed}`,
    remedy:
      d.meant === "" ? "name one of these; part of a name will do where only one has it" : `was ${d.meant} meant?`,
  }),
  "word-unknown": (d: Data) => ({
    what: `“${d.word}” is not possible for ${d.of}`,
    expected: `one of: ${d.listed}`,
    remedy: d.meant === "" ? "choose one of these" : `was ${d.meant} meant?`,
  }),
  "word-form": (d: Data) => ({
    what: `“${d.word}” is not written as ${d.of} is`,
    expected: `${d.expected}`,
    remedy: "write it like the example; nothing has been written",
  }),
  "instrument-not-there": (d: Data) => ({
    what: `none of your instruments has the id “${d.instrument}”${d.meant === "" ? "" : `; “${d.meant}” may be meant`}`,
    expected: d.listed === "" ? "an instrument that has been added" : `one of: ${d.listed}`,
    remedy: `\`kilter tool FILE ${d.kind}\` adds one; nothing has been written`,
  }),
  "tool-not-there": (d: Data) => ({
    what: `none of your instruments and objects has the id “${d.tool}”${d.meant === "" ? "" : `; “${d.meant}” may be meant`}`,
    expected: d.listed === "" ? "a tool that has been added" : `one of: ${d.listed}`,
    remedy: "`kilter tools FILE` lists them; nothing has been written",
  }),
  "reading-parts-too-many": (d: Data) => ({
    what: `“${d.text}” has more than two parts`,
    expected: `one reading, or two with a colon between them, for each station of ${d.check}`,
    remedy: "put a space between stations; nothing has been written",
  }),
  "standard-input-only-read": () => ({
    what: "standard input can be read and not added to",
    expected: "the logbook's own path",
    remedy: "give the command with the path of the file; nothing has been written",
  }),
  "command-misused": (d: Data) => ({
    what: `${d.reason}`,
    expected: `${d.expected}`,
    remedy: `\`${d.help}\` shows how it is used`,
  }),
  "time-ahead": (d: Data) => ({
    what: `${d.text} has not come yet`,
    expected: "a time that has passed",
    remedy: "look at the year; nothing has been written",
  }),
  "amount-missing": (d: Data) => ({
    what: `nothing says how far ${d.adjuster} was moved`,
    expected: `an amount in ${d.unit}, as --amount 0.29`,
    remedy: "give the amount; nothing has been written",
  }),
  "amount-out-of-reach": (d: Data) => ({
    what: `${d.adjuster} cannot be moved by ${signed(d.amount)}${unitOf(d)}${d.packed === 1 ? `: ${signed(d.lies)} mm lie there` : ""}`,
    expected: `an amount from ${signed(d.from)} to ${signed(d.to)}${unitOf(d)}`,
    remedy: `look at the point and the sign; where it does go further, \`kilter adjusters FILE ${d.adjuster} --range FROM:TO\` says so; nothing has been written`,
  }),
  "gauge-without-geometry": (d: Data) => ({
    what: `the check ${d.check} does not tell how far a joint went`,
    expected: "a check that measures the geometry, or a run of one",
    remedy: "name the check that the gauge was set up for; nothing has been written",
  }),
  "gauge-double": (d: Data) => ({
    what: `“${d.text}” is two numbers`,
    expected: "one number with the screws loose or nipped: of two gaps or lengths their difference",
    remedy: "type the first less the second; nothing has been written",
  }),
  "gauge-unread": () => ({
    what: "a gauge is named, and nothing that it read",
    expected: "--loose, --nipped or --final with a reading",
    remedy: "give what was read, or leave the gauge out; nothing has been written",
  }),
  "adjuster-not-named": (d: Data) => ({
    what: `“${d.text}” names no adjuster of this machine, or more than one`,
    expected: `one of: ${d.listed}`,
    remedy:
      d.meant === ""
        ? "name one of these; its letter or a part of its name will do where only one has it"
        : `was ${d.meant} meant?`,
  }),
  "demand-not-named": (d: Data) => ({
    what: `“${d.text}” names no demand of the work, or more than one`,
    expected: d.listed === "" ? "nothing: nothing is asked of the machine" : `one of: ${d.listed}`,
    remedy:
      d.meant === "" ? "name one of these; a part of a name will do where only one has it" : `was ${d.meant} meant?`,
  }),
  "adjuster-not-locked": (d: Data) => ({
    what: `${d.adjuster} is not locked`,
    expected: d.listed === "" ? "nothing: no adjuster is locked" : `one of: ${d.listed}`,
    remedy: "`kilter adjusters FILE` shows what is locked; nothing has been written",
  }),
  "happening-not-there": (d: Data) => ({
    what: `no move and nothing else that happened has the id “${d.text}”`,
    expected: "an id of `kilter undo FILE`, or its ending",
    remedy: "`kilter undo FILE` lists what can be taken back; nothing has been written",
  }),
  "happening-ambiguous": (d: Data) => ({
    what: `“${d.text}” is the ending of ${d.count} ids`,
    expected: "an ending that only one has",
    remedy: "`kilter undo FILE` lists the ids; nothing has been written",
  }),
  "reading-ambiguous": (d: Data) => ({
    what: `“${d.text}” names ${d.count} readings`,
    expected: "the whole id of one reading, or an ending that only it has",
    remedy: "`kilter readings FILE` lists the ids",
  }),
  "reading-not-there": (d: Data) => ({
    what: `no reading or run has the id “${d.text}”`,
    expected: "an id of this logbook, or its ending",
    remedy: "`kilter readings FILE` lists the ids",
  }),
  "table-column-missing": (d: Data) => ({
    what: `the table has no column “${d.column}”`,
    expected: "a first line with names: reading, and station or x, y, z; unit if you like",
    remedy: "add the name above its column; nothing has been written",
  }),
  "table-not-readable": (d: Data) => ({
    what: `the table cannot be read: ${d.reason}`,
    expected: "columns parted by a comma, a semicolon or a tab, the same number in every line",
    remedy: "mend the line; nothing has been written",
  }),
  "work-size-outside": (d: Data) => ({
    what: `${d.field} is ${d.value}`,
    expected: `a size from ${d.from} to ${d.to} ${d.unit}`,
    remedy: "give one between the two, or leave it out for the usual one",
  }),
  "work-beyond-travel": (d: Data) => ({
    what: `the work would reach from ${d.from} to ${d.to} along ${d.axis}`,
    expected: `all of it between 0 and ${d.travel}, where the tool can go`,
    remedy: "make it smaller, or move its middle",
  }),
  "nothing-given": (d: Data) => ({
    what: "no readings were given",
    expected: `readings of ${d.check} as words, as a table with --csv FILE, or on standard input with --csv -`,
    remedy: "give at least one; nothing has been written",
  }),
  "port-taken": (d: Data) => ({
    what:
      d.tries === 1
        ? `another program listens on the port ${d.port}`
        : `other programs listen on the port ${d.port} and the ${Number(d.tries) - 1} after it`,
    expected: "a port that nothing listens on, here and on the networks that are shared",
    remedy: "stop the other program, or name another port with --port",
  }),
  "port-unusable": (d: Data) => ({
    what: `the system lets nothing listen on the port ${d.port}: ${d.reason}`,
    expected: "a port from 1024 to 65535",
    remedy: "name another port with --port",
  }),
  "no-workshop-network": () => ({
    what: "this computer has no address on a private network, so there is nothing to share on",
    expected:
      "an address that begins with 10., 172.16. to 172.31., or 192.168., or an IPv6 address that begins with fc or fd",
    remedy: "connect to the workshop's network first, or start without --share",
  }),
  "data-folder-unusable": (d: Data) => ({
    what: `the folder cannot be used: ${d.reason}`,
    expected: "a folder in which this user may write",
    remedy: "name another one with --data",
  }),
} as const;
