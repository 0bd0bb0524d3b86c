import { join } from "node:path";
import type { Surroundings } from "../app/surroundings.ts";
import { type Diagnostic, refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { backupFolder } from "../store/backup.ts";
import { BackupSchedule } from "../store/backup-schedule.ts";
import { databaseIn } from "../store/data-folder.ts";
import { openStore } from "../store/open-store.ts";
import type { SqliteStore } from "../store/sqlite-store.ts";
import { type Certificate, certificateFor } from "./certificate.ts";
import { keepExport } from "./deleted-machines.ts";
import { seedDemonstration } from "./demonstration.ts";
import { hostOf } from "./doors.ts";
import { type Listening, listen } from "./listen.ts";
import type { LiveLimits } from "./live.ts";
import { LogFile } from "./log-file.ts";
import { type PageFiles, readPageFiles } from "./page-files.ts";
import { PairedDevices } from "./paired-devices.ts";
import { type Offer, Pairing } from "./pairing.ts";
import type { Role } from "./roles.ts";
import { serverApp } from "./server-app.ts";
import { ServerLog } from "./server-log.ts";

export interface StartOptions {
  /** Folder of the database; the paired devices, the log and the certificate lie beside it. */
  readonly data: string;
  readonly port: number;
  /** How many ports may be tried. */
  readonly tries: number;
  /** Addresses to share on; none keeps to this computer. */
  readonly addresses: readonly string[];
  readonly networkPort?: number;
  readonly tls: boolean;
  /** Folder of the built page, or null. */
  readonly web: string | null;
  /** The demonstration's logbook. */
  readonly demonstration: Uint8Array;
  readonly version: string;
  readonly surroundings: Surroundings;
  readonly onPaired?: (role: Role) => void;
  readonly liveLimits?: LiveLimits;
}

export interface RunningServer {
  /** On this computer. */
  readonly address: string;
  /** From the network; none where it is not shared. */
  readonly sharedUnder: readonly string[];
  readonly fingerprint: string | null;
  readonly logFile: string;
  /** True on the very first start. */
  readonly isSeeded: boolean;
  readonly store: SqliteStore;
  /** A new pairing code, in the place of the one before. */
  offer(role: Role): Offer;
  /** Open pages are told, running requests answered, then the database is closed. */
  close(): Promise<void>;
}

const backUpEveryHours = 24;
const keptBackups = 14;
const flushMs = 600_000;

/** Opens the database and every door. Refused with words where the folder, the database or the port cannot be had. */
export async function startServer(options: StartOptions): Promise<Outcome<RunningServer>> {
  const { data, surroundings, addresses, version } = options;
  const opened = openStore(databaseIn(data), { nowMs: () => surroundings.nowMs() });
  if (!opened.ok) return opened;
  const store = opened.value;
  try {
    const file = new LogFile(join(data, "server.log"));
    const log = new ServerLog((line) => file.write(line), surroundings.nowMs);
    const devices = new PairedDevices(join(data, "devices.json"), surroundings);
    if (!devices.isReadable) log.tell("error", "paired devices unreadable");
    const pairing = new Pairing(surroundings);
    const web: PageFiles | null = options.web === null ? null : readPageFiles(options.web);
    let sharedUnder: readonly string[] = [];
    const { app, live, logbooks } = serverApp({
      store,
      surroundings,
      web,
      log,
      version,
      devices,
      pairing,
      sharedUnder: () => sharedUnder,
      keepExport: (machine, name) => void keepExport(store, machine, name, join(data, "deleted"), surroundings.nowMs()),
      ...(options.onPaired && { onPaired: options.onPaired }),
      ...(options.liveLimits && { liveLimits: options.liveLimits }),
    });
    const seeded = seedDemonstration(store, logbooks, options.demonstration, surroundings);
    if (!seeded.ok) return giveUp(...seeded.diagnostics);
    const certificate: Certificate | null =
      options.tls && addresses.length > 0
        ? await certificateFor(addresses, join(data, "certificate.pem"), surroundings.nowMs())
        : null;
    const doors = await doorsOf();
    if (!doors.ok) return giveUp(...doors.diagnostics);
    const { loopback, network } = doors.value;
    if (network) sharedUnder = doors.value.addresses.map((at) => `${network.scheme}://${hostOf(at)}:${network.port}`);
    log.tell("info", "started", { version, shared: sharedUnder.length > 0, tls: certificate !== null });
    const backups = scheduleBackups(store, log, surroundings);
    const flushing = setInterval(() => devices.flush(), flushMs);
    flushing.unref();
    return succeed(
      {
        address: `http://127.0.0.1:${loopback.port}`,
        sharedUnder,
        fingerprint: certificate?.fingerprint ?? null,
        logFile: file.path,
        isSeeded: seeded.value,
        store,
        offer: (role) => pairing.offer(role),
        close: async () => {
          clearInterval(flushing);
          backups.stop();
          live.close();
          await doors.value.close();
          devices.flush();
          log.close();
          log.tell("info", "stopped");
          file.close();
          store.close();
        },
      },
      opened.diagnostics,
    );

    function giveUp<T>(...diagnostics: readonly Diagnostic[]): Outcome<T> {
      live.close();
      file.close();
      store.close();
      return refuse(...diagnostics);
    }

    async function doorsOf(): Promise<Outcome<Listening>> {
      const { port, tries, networkPort } = options;
      try {
        const onRefused = (code: Parameters<ServerLog["refused"]>[0]) => log.refused(code, { route: "none" });
        const moved = networkPort === undefined ? {} : { networkPort };
        return succeed(await listen({ app, port, tries, addresses, certificate, onRefused, ...moved }));
      } catch (problem) {
        const { code = "" } = problem as NodeJS.ErrnoException;
        if (code === "EADDRINUSE") return refuse(refusal("port-taken", {}, { port, tries }));
        return refuse(refusal("port-unusable", {}, { port, reason: code }));
      }
    }
  } catch (problem) {
    store.close();
    const { code } = problem as NodeJS.ErrnoException;
    if (code === undefined || !/^E[A-Z]+$/.test(code)) throw problem;
    return refuse(refusal("data-folder-unusable", { file: data }, { reason: code }));
  }
}

function scheduleBackups(store: SqliteStore, log: ServerLog, { nowMs }: Surroundings): BackupSchedule {
  const schedule = new BackupSchedule(store, {
    folder: backupFolder(store.path),
    everyHours: backUpEveryHours,
    keep: keptBackups,
    nowMs,
    timer: (run, afterMs) => {
      const timer = setTimeout(run, afterMs);
      timer.unref();
      return () => clearTimeout(timer);
    },
    onBackup: (_, removed) => log.tell("info", "backed up", { removed: removed.length }),
    onFailure: ({ code }) => log.tell("error", "backup failed", { code }),
  });
  schedule.start();
  return schedule;
}
