import { existsSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { type EventStore, type StoredMachine, StoreFailure } from "../../app/event-store.ts";
import { knownCatalogue } from "../../app/known.ts";
import { photographFromBytes, pictureEndings } from "../../app/photograph.ts";
import { howToRestore } from "../../core/base/database-words.ts";
import { type Diagnostic, refusal, warning } from "../../core/base/diagnostic.ts";
import { wordsForDiagnostic } from "../../core/base/diagnostic-words.ts";
import { eventsOf, inOrderOfTime } from "../../logbook/event-order.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { replay } from "../../logbook/replay.ts";
import { backupFolder, backupName, backupsIn } from "../../store/backup.ts";
import { databaseIn, dataFolder } from "../../store/data-folder.ts";
import { exportLogbook, photographsOf } from "../../store/export-logbook.ts";
import { importLogbook } from "../../store/import-logbook.ts";
import { sha256Of } from "../../store/integrity.ts";
import { openStore } from "../../store/open-store.ts";
import type { SqliteStore } from "../../store/sqlite-store.ts";
import { readBytes, write } from "../logbook-file.ts";
import { accepted, BadInput, exitStatus, writeDiagnostic } from "../report.ts";
import { reasonOf } from "../system-reason.ts";
import { counted, say, sayJson, table, wrap } from "../terminal.ts";

interface DatabaseOptions {
  readonly data?: string;
  readonly json?: boolean;
}

/** Machines with their names and the date of their newest event; then the backups. */
export function listDatabase(options: DatabaseOptions): number {
  return withStore(options, "look", (store) => {
    const machines = store.machines().map((machine) => listed(store, machine));
    const backups = backupsIn(backupFolder(store.path)).map(({ path, atMs }) => ({
      path,
      at: new Date(atMs).toISOString(),
    }));
    if (options.json) {
      sayJson({ database: store.path, machines, backups });
      return exitStatus.done;
    }
    say(wrap(`The database is ${store.path}.`));
    if (machines.length === 0) say("No machine is in it yet: `kilter database import FILE` takes a logbook in.");
    else {
      const rows = machines.map(({ name, id, events, newest, demonstration }) => [
        name,
        id,
        String(events),
        newest.slice(0, 10),
        demonstration ? "demonstration" : "",
      ]);
      const heads = [
        { head: "machine", gives: true },
        { head: "id" },
        { head: "events", right: true },
        { head: "newest" },
      ];
      say(table([...heads, { head: "note" }], rows));
    }
    const [last] = backups;
    say(
      wrap(
        last === undefined
          ? "There is no backup yet: `kilter database backup` makes one."
          : `${counted(backups.length, "backup")} in ${backupFolder(store.path)}, the newest of ${last.at.slice(0, 10)}.`,
      ),
    );
    return exitStatus.done;
  });
}

/** Takes logbooks in one after the other, each whole or not at all, with the photographs from the folder beside it. */
export function importIntoDatabase(
  files: readonly string[],
  options: DatabaseOptions & { readonly machine?: string },
): number {
  return withStore(options, "write", (store) => {
    const machine = options.machine === undefined ? undefined : machineMeant(store, options.machine);
    const told = files.map((file) => {
      const imported = accepted(importLogbook(store, readBytes(file), file === "-" ? "standard input" : file, machine));
      const photographs = takePhotographs(store, imported.machine, photographFolder(file));
      const name = nameOf(eventsIn(store, imported.machine));
      const { added, passedOver } = imported.appended;
      const summary = {
        file,
        machine: imported.machine,
        name,
        isNew: imported.isNew,
        added: added.length,
        passedOver,
        photographs,
        tornLine: imported.torn?.line ?? null,
      };
      if (!options.json) say(wrap(importInWords(summary)));
      return summary;
    });
    if (options.json) sayJson(told);
    return exitStatus.done;
  });
}

/** The logbook as a file with its photographs beside it, or on standard output alone. */
export function exportFromDatabase(word: string, options: DatabaseOptions & { readonly to?: string }): number {
  return withStore(options, "look", (store) => {
    const machine = machineMeant(store, word);
    const text = exportLogbook(store, machine);
    const photographs = photographsOf(store, machine);
    const { to } = options;
    if (to === undefined) {
      process.stdout.write(text);
      if (photographs.length > 0) writeDiagnostic(warning("photographs-left-out", {}, { count: photographs.length }));
      return exitStatus.done;
    }
    const folder = photographFolder(to);
    for (const path of photographs.length > 0 ? [to, folder] : [to]) {
      if (existsSync(path)) throw new BadInput([refusal("file-exists", { file: path }, { file: path })]);
    }
    // The pictures first: a logbook that is there has all that it names.
    if (photographs.length > 0) makeFolder(folder);
    for (const { sha256, mediaType, bytes } of photographs) {
      write(join(folder, `${sha256}.${pictureEndings[mediaType]}`), "wx", bytes);
    }
    write(to, "wx", text);
    const events = store.machines().find(({ id }) => id === machine)?.events ?? 0;
    if (options.json) sayJson({ file: to, machine, events, photographs: photographs.length });
    else {
      const pictures =
        photographs.length === 0 ? "" : `, and ${counted(photographs.length, "photograph")} in ${folder}`;
      say(wrap(`${counted(events, "event is", "events are")} in ${to}${pictures}.`));
    }
    return exitStatus.done;
  });
}

/** A copy of the whole database, and how to go back to it. */
export function backUpDatabase(options: DatabaseOptions & { readonly to?: string }): number {
  return withStore(options, "look", (store) => {
    const to = options.to ?? join(backupFolder(store.path), backupName(Date.now()));
    store.backUp(to);
    if (options.json) sayJson({ database: store.path, backup: to });
    else {
      say(wrap(`The whole database is in ${to}.`));
      say(wrap(`To go back to it: ${howToRestore(store.path, to)}.`));
    }
    return exitStatus.done;
  });
}

/** Every page, event and photograph, and whether each machine's events still make sense together. */
export function checkDatabase(options: DatabaseOptions): number {
  return withStore(options, "look", (store) => {
    const pages = store.faults();
    const faults = pages.length > 0 ? pages : store.machines().flatMap(({ id }) => faultsOfMachine(store, id));
    const machines = store.machines();
    const events = machines.reduce((sum, machine) => sum + machine.events, 0);
    if (options.json) {
      const told = faults.map(({ code, where, data }) => ({ code, where, ...wordsForDiagnostic(code, data) }));
      sayJson({ database: store.path, sound: faults.length === 0, machines: machines.length, events, faults: told });
      return faults.length === 0 ? exitStatus.done : exitStatus.badInput;
    }
    if (faults.length > 0) throw new BadInput(faults);
    say(
      wrap(
        `${store.path} is sound: ${counted(machines.length, "machine")} with ${counted(events, "event")}, all of which read as they were written.`,
      ),
    );
    return exitStatus.done;
  });
}

function withStore(options: DatabaseOptions, to: "write" | "look", work: (store: SqliteStore) => number): number {
  const store = accepted(openStore(databaseIn(options.data ?? dataFolder()), { to }));
  try {
    return work(store);
  } catch (fault) {
    throw fault instanceof StoreFailure ? new BadInput([fault.diagnostic]) : fault;
  } finally {
    store.close();
  }
}

interface ListedMachine {
  readonly id: string;
  readonly name: string;
  readonly demonstration: boolean;
  readonly events: number;
  readonly newest: string;
}

function listed(store: EventStore, { id, demonstration, events }: StoredMachine): ListedMachine {
  const own = eventsIn(store, id);
  const newest = inOrderOfTime(own).at(-1)?.event.at ?? "";
  return { id, name: nameOf(own), demonstration, events, newest };
}

function eventsIn(store: EventStore, machine: string): readonly LogEvent[] {
  return store.eventsAfter(0, { machine }).map(({ event }) => event);
}

function nameOf(events: readonly LogEvent[]): string {
  const named = eventsOf(inOrderOfTime(events), "machine-described", "machine-renamed").at(-1)?.event;
  if (named === undefined) return "";
  return named.kind === "machine-renamed" ? named.name : named.machine.name;
}

/** By its id, by as much of the id's beginning as no other machine has, or by its name. */
function machineMeant(store: EventStore, word: string): string {
  const machines = store.machines();
  if (machines.some(({ id }) => id === word)) return word;
  const named = machines.map(({ id }) => ({ id, name: nameOf(eventsIn(store, id)) }));
  const found = named.filter(({ id, name }) => name === word || (word.length >= 4 && id.startsWith(word)));
  if (found.length === 1) return found[0]!.id;
  const several = found.length > 0 ? found : named;
  const data = { machine: word, listed: several.map(({ id, name }) => `${name} (${id})`).join(", ") };
  throw new BadInput([refusal(found.length > 0 ? "machine-ambiguous" : "machine-not-there", {}, data)]);
}

/** "router.jsonl" has its photographs in "router-photographs". */
function photographFolder(file: string): string {
  return `${file.replace(/\.jsonl$/i, "")}-photographs`;
}

/** Pictures that the machine's events name and the folder has, under the names that an export gives them. */
function takePhotographs(store: EventStore, machine: string, folder: string): number {
  // Standard input has none beside it.
  if (folder === photographFolder("-") || !existsSync(folder)) return 0;
  let taken = 0;
  for (const event of eventsIn(store, machine)) {
    if (event.kind !== "photograph-added") continue;
    const { sha256 } = event;
    const file = Object.values(pictureEndings)
      .map((ending) => join(folder, `${sha256}.${ending}`))
      .find((path) => existsSync(path));
    if (file === undefined || store.photograph(machine, sha256) !== null) continue;
    const photograph = photographFromBytes(readBytes(file), sha256Of);
    if (!photograph.ok || photograph.value.sha256 !== sha256) {
      writeDiagnostic(warning("photograph-differs", { file }, { expected: sha256.slice(0, 12) }));
      continue;
    }
    store.addPhotograph(machine, photograph.value);
    taken += 1;
  }
  return taken;
}

function importInWords(imported: {
  readonly file: string;
  readonly name: string;
  readonly machine: string;
  readonly isNew: boolean;
  readonly added: number;
  readonly passedOver: number;
  readonly photographs: number;
}): string {
  const { file, name, machine, isNew, added, passedOver, photographs } = imported;
  const pictures = photographs === 0 ? "" : ` and ${counted(photographs, "photograph")}`;
  const there = passedOver === 0 ? "" : ` ${counted(passedOver, "event was", "events were")} there already.`;
  const whose = isNew ? `The machine is new here: ${name} (${machine}).` : `The machine is ${name} (${machine}).`;
  return `${file}: ${counted(added, "event")}${pictures} added.${there} ${whose}`;
}

function faultsOfMachine(store: EventStore, machine: string): readonly Diagnostic[] {
  const replayed = replay(eventsIn(store, machine), knownCatalogue);
  return replayed.ok ? [] : replayed.diagnostics;
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new BadInput([refusal("file-unwritable", { file: folder }, { file: folder, reason: reasonOf(error) })]);
  }
}
