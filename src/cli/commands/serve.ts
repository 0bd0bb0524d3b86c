import { existsSync } from "node:fs";
import { createInterface } from "node:readline";
import { knownCatalogue } from "../../app/known.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { replay } from "../../logbook/replay.ts";
import type { Role } from "../../server/roles.ts";
import { type RunningServer, startServer } from "../../server/start-server.ts";
import { workshopAddresses } from "../../server/workshop-network.ts";
import { dataFolder } from "../../store/data-folder.ts";
import { readBytes } from "../logbook-file.ts";
import { packageFile } from "../package-file.ts";
import { sayOffer } from "../pairing-words.ts";
import { accepted, BadInput, exitStatus } from "../report.ts";
import { starter } from "../starter.ts";
import { hereAndNow } from "../surroundings.ts";
import { say, toned, wrap } from "../terminal.ts";

export interface ServeOptions {
  readonly port?: string;
  readonly share?: boolean;
  readonly tls?: boolean;
  readonly data?: string;
  readonly stay?: boolean;
  readonly quiet?: boolean;
}

const usualPort = 4170;
/** Where nobody names a port, so many are tried from the usual one on. */
const usualTries = 20;
const lookForStarterMs = 1000;
/** Lines of a usual terminal, the last for what is typed next. */
const screenful = 23;
/** Its name, a line left free, and where the server is. */
const linesAround = 4;

/** Runs the server until it is told to stop, or until whoever started it is gone. */
export async function serve(options: ServeOptions, version: string): Promise<number> {
  const addresses = options.share ? workshopAddresses() : [];
  if (options.share && addresses.length === 0) throw new BadInput([refusal("no-workshop-network", {})]);
  const page = packageFile("dist/web/index.html");
  const hasPage = existsSync(page);
  const stop = whenToStop(options.stay ?? false);
  const server = accepted(
    await startServer({
      data: options.data ?? dataFolder(),
      port: options.port === undefined ? usualPort : portFrom(options.port),
      tries: options.port === undefined ? usualTries : 1,
      addresses,
      tls: options.tls ?? false,
      web: hasPage ? page.replace(/index\.html$/, "") : null,
      demonstration: readBytes(packageFile("catalog/demonstration/shared-workshop.jsonl")),
      version,
      surroundings: hereAndNow,
      onPaired: (role) => say(wrap(`A device has been paired as ${role}. Its code is used up.`)),
    }),
  );
  if (!options.quiet) await sayDemonstration(server);
  sayWhere(server, hasPage, options.port === undefined);
  const questions = options.share ? offerCodes(server) : null;
  await stop;
  questions?.close();
  await server.close();
  return exitStatus.done;
}

function portFrom(text: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : Number.NaN;
  if (port <= 65_535) return port;
  throw new BadInput([refusal("word-form", {}, { word: text, of: "--port", expected: "a number such as 4170" })]);
}

/** The whole job on the machine that came with the program, as long as it is there. */
async function sayDemonstration({ store }: RunningServer): Promise<void> {
  const machine = store.machines().find(({ demonstration }) => demonstration)?.id;
  if (machine === undefined) return;
  const replayed = replay(
    store.eventsAfter(0, { machine }).map(({ event }) => event),
    knownCatalogue,
  );
  if (!replayed.ok) return;
  say(`${toned(replayed.value.machine.name, "strong")} (invented; it can be deleted on the page)`);
  // Whoever has deleted it does not wait for what this takes.
  const { mainJobLines } = await import("../main-job.ts");
  for (const line of await mainJobLines(replayed.value, screenful - linesAround)) say(line);
  say();
}

function sayWhere(
  { address, sharedUnder, store, fingerprint }: RunningServer,
  hasPage: boolean,
  isUsual: boolean,
): void {
  const isMoved = isUsual && new URL(address).port !== String(usualPort);
  say(`${toned(`Kilter is at ${address}`, "strong")}${isMoved ? ` (port ${usualPort} is taken)` : ""}`);
  if (!hasPage) say("Its page has not been built; what it keeps is answered under /api.");
  say(wrap(`Everything is kept in ${store.path}. Ctrl+C stops it.`));
  if (sharedUnder.length === 0) return;
  say();
  say(wrap(`On the workshop's network it is at ${sharedUnder.join(" and at ")}`));
  if (fingerprint === null) {
    say(wrap("What goes over the network can be read by others on it; --tls keeps it to the two that talk."));
  }
}

/** Shows a code, and another whenever one is asked for by its role. */
function offerCodes(server: RunningServer) {
  const show = (role: Role) => sayOffer(server, server.offer(role));
  show("helper");
  const questions = createInterface({ input: process.stdin });
  questions.on("line", (line) => {
    const word = line.trim().toLowerCase();
    if (word === "owner" || word === "helper") show(word);
    else say("Type helper or owner for another code.");
  });
  // Interface and terminal hear Ctrl+C before the process does.
  questions.on("SIGINT", () => process.kill(process.pid, "SIGINT"));
  return questions;
}

/** Resolves at a signal to stop; also, unless it shall stay, when the terminal or the program that started it is gone. */
function whenToStop(stays: boolean): Promise<void> {
  return new Promise((resolve) => {
    const whoever = starter();
    const look = setInterval(() => {
      if (!stays && whoever.isGone()) stop();
    }, lookForStarterMs);
    // Listening goes on by itself; looking for it must not keep a process that has nothing else to do.
    look.unref();
    let isStopping = false;
    const stop = () => {
      // Asked twice, it does not wait for anybody.
      if (isStopping) process.exit(exitStatus.done);
      isStopping = true;
      clearInterval(look);
      resolve();
    };
    for (const signal of ["SIGINT", "SIGTERM", ...(stays ? [] : ["SIGHUP"])]) process.on(signal, stop);
  });
}
