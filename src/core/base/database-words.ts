type Data = Readonly<Record<string, string | number>>;

/** What to do to go back to a backup, as a sentence begins after a semicolon or a colon. */
export function howToRestore(database: string, backup: string): string {
  return `stop the server, move ${database} and the files beside it that begin with its name into another folder, keep them, copy ${backup} to ${database}, and start again`;
}

/** Words for the database that keeps machines, for what is taken into it, and for photographs. */
export const databasePhrases = {
  "database-unopenable": (d: Data) => ({
    what: `the database cannot be opened: ${d.reason}`,
    expected: "a file that this user may read and write, in a folder that is there",
    remedy: "look at the path, and who may write there; KILTER_DATA names another folder",
  }),
  "database-not-there": () => ({
    what: "there is no database at this place yet",
    expected: "the database of a server that has run, or of an import",
    remedy: "`kilter database import` begins one; KILTER_DATA names another folder",
  }),
  "database-not-ours": () => ({
    what: "this file is no database of this program",
    expected: "a database that this program has made, or no file at all",
    remedy: "look at the path; nothing in the file has been touched",
  }),
  "database-from-newer-version": (d: Data) => ({
    what: `the database has the form ${d.version}, and this program knows forms up to ${d.known}`,
    expected: `form ${d.known} or older`,
    remedy: "use the newer program; nothing in the file has been touched",
  }),
  "database-brought-forward": (d: Data) => ({
    what: `the database had the form ${d.from} and now has the form ${d.to}`,
    expected: `the form ${d.to}, which this program keeps`,
    remedy: `nothing is to be done; it is kept as it was in ${d.copy}`,
  }),
  "database-in-use": (d: Data) => ({
    what: `another program has the database open${d.process === 0 ? "" : `: process ${d.process}`}`,
    expected: "one program that writes at a time; list, export, check and backup may go beside it",
    remedy: "stop the server first (Ctrl+C where it runs), or do it on the server's page",
  }),
  "database-busy": () => ({
    what: "another program holds the database, and waiting did not help",
    expected: "the database free within a few seconds",
    remedy: "do it again; nothing has been added",
  }),
  "database-damaged": (d: Data) => ({
    what: `the database is damaged: ${d.found}`,
    expected: "a database that is whole from its first page to its last",
    remedy:
      d.backup === ""
        ? "there is no backup beside it: keep the file as it is, and import the logbooks that have been exported"
        : `the newest backup is ${d.backup}; to go back to it, ${howToRestore(String(d.database), String(d.backup))}`,
  }),
  "database-full": () => ({
    what: "the disk is full",
    expected: "room for what is to be added",
    remedy: "make room and do it again; nothing of it has been added, and what was there before is whole",
  }),
  "database-unwritable": (d: Data) => ({
    what: `the disk does not take what is to be written: ${d.reason}`,
    expected: "a disk that can be written",
    remedy: "look at the disk and do it again; nothing of it has been added",
  }),
  "backup-there": () => ({
    what: "a file is there already",
    expected: "a new name: a backup is never written over another",
    remedy: "choose another name",
  }),
  "backup-failed": (d: Data) => ({
    what: `the backup could not be made: ${d.reason}`,
    expected: "a folder with room for a copy of the database",
    remedy: "make room, or name another folder; older backups have been left as they are",
  }),
  "machine-not-there": (d: Data) => ({
    what: `no machine here is named “${d.machine}”, and none has an id that begins so`,
    expected: d.listed === "" ? "a machine that has been imported" : `one of: ${d.listed}`,
    remedy: "`kilter database list` lists the machines with their ids",
  }),
  "machine-ambiguous": (d: Data) => ({
    what: `“${d.machine}” names more than one machine`,
    expected: `one of: ${d.listed}`,
    remedy: "give the id, or as much of its beginning as only one machine has",
  }),
  "event-id-taken": (d: Data) => ({
    what: `the machine has another event under the id ${d.id}`,
    expected: "an id of its own for every event; the same event may come again if it is the same throughout",
    remedy:
      "find out which one is right: an event is never edited, a correction is a new event; nothing has been added",
  }),
  "import-of-other-machine": (d: Data) => ({
    what: `the logbook describes a machine of its own and has no event in common with “${d.machine}”`,
    expected: "a logbook of this machine",
    remedy: "import it without naming a machine: it then becomes one of its own; nothing has been added",
  }),
  "import-of-several-machines": (d: Data) => ({
    what: `events of the logbook are in more than one machine: ${d.listed}`,
    expected: "one machine that the logbook belongs to",
    remedy: "name the machine with --machine; nothing has been added",
  }),
  "photographs-left-out": (d: Data) => ({
    what: `${d.count} ${d.count === 1 ? "photograph is" : "photographs are"} not among the lines of the logbook`,
    expected: "a folder for the pictures beside the logbook",
    remedy: "export with --to FILE: the pictures then go into a folder beside it",
  }),
  "photograph-too-large": (d: Data) => ({
    what: `the picture has ${d.megabytes} MB`,
    expected: `at most ${d.most} MB`,
    remedy: "make it smaller, or take it with fewer pixels",
  }),
  "photograph-of-unknown-type": () => ({
    what: "the bytes are none of a picture that is kept here",
    expected: "a JPEG, PNG or WebP",
    remedy: "save the picture as one of these",
  }),
  "photograph-of-other-type": (d: Data) => ({
    what: `the picture is said to be ${d.stated}, and its bytes are those of ${d.found}`,
    expected: "a picture of the type that is stated",
    remedy: `send it as ${d.found}, or look whether it is the picture that was meant`,
  }),
  "photograph-broken": (d: Data) => ({
    what: `the picture begins as ${d.found} and then breaks off or goes astray`,
    expected: "a whole picture",
    remedy: "send it again, or save it anew",
  }),
  "photograph-differs": (d: Data) => ({
    what: `the picture is not the one of the event, whose checksum begins with ${d.expected}`,
    expected: "the picture as it was exported",
    remedy: "look for the right file; the picture has been left out, the event is kept",
  }),
} as const;
