import { randomBytes } from "node:crypto";
import { mkdtempSync, readFileSync } from "node:fs";
import { type IncomingHttpHeaders, request } from "node:http";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Role } from "../../src/server/roles.ts";
import { type RunningServer, type StartOptions, startServer } from "../../src/server/start-server.ts";

const demonstration = readFileSync(
  fileURLToPath(new URL("../../catalog/demonstration/shared-workshop.jsonl", import.meta.url)),
);

export const hereAndNow = {
  nowMs: () => Date.now(),
  offsetMinutes: () => 60,
  randomBytes: (count: number) => Uint8Array.from(randomBytes(count)),
};

export interface TestServer extends RunningServer {
  readonly data: string;
  /** Port of the door that makes whoever comes through it an owner. */
  readonly port: number;
  /** Port of the door of the workshop's network, which in tests is on the loopback too; 0 where it is not shared. */
  readonly networkPort: number;
  /** Lines of the log so far. */
  log(): readonly Readonly<Record<string, unknown>>[];
}

/** A server in this process, on ports that are free, with a folder of its own. */
export async function testServer(
  options: Partial<StartOptions> & { readonly shared?: boolean } = {},
): Promise<TestServer> {
  const { shared = true, ...given } = options;
  const data = given.data ?? mkdtempSync(join(tmpdir(), "kilter-server-"));
  const started = await startServer({
    data,
    port: 0,
    tries: 1,
    addresses: shared ? ["127.0.0.1"] : [],
    networkPort: 0,
    tls: false,
    web: null,
    demonstration,
    version: "0.0.0",
    surroundings: hereAndNow,
    ...given,
  });
  if (!started.ok) throw new Error(JSON.stringify(started.diagnostics));
  const server = started.value;
  const lines = () => readFileSync(server.logFile, "utf8").trimEnd().split("\n");
  const portOf = (address: string | undefined) => (address === undefined ? 0 : Number(new URL(address).port));
  return {
    ...server,
    data,
    port: portOf(server.address),
    networkPort: portOf(server.sharedUnder[0]),
    log: () => lines().map((line) => JSON.parse(line) as Readonly<Record<string, unknown>>),
  };
}

export interface Asked {
  /** The address that is connected to, and asked under; 127.0.0.1 as a rule. */
  readonly at?: string;
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string | Uint8Array;
  /** Otherwise an object is sent as JSON. */
  readonly json?: unknown;
  readonly cookie?: string;
  /** Says nothing of where it comes from. */
  readonly withoutOrigin?: boolean;
}

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
  /** Code of the refusal, "" where nothing was refused. */
  readonly code: string;
  json<T = Record<string, unknown>>(): T;
}

/** Asks as a page of the server's own would, except for what is said otherwise. */
export function ask(port: number, path: string, asked: Asked = {}): Promise<Answer> {
  const { at = "127.0.0.1" } = asked;
  const name = at.includes(":") ? `[${at}]` : at;
  const body = asked.json === undefined ? asked.body : JSON.stringify(asked.json);
  const headers: Record<string, string> = {
    host: `${name}:${port}`,
    ...(asked.withoutOrigin ? {} : { origin: `http://${name}:${port}` }),
    ...(asked.json === undefined ? {} : { "content-type": "application/json" }),
    ...(body === undefined ? {} : { "content-length": String(Buffer.byteLength(body)) }),
    ...(asked.cookie === undefined ? {} : { cookie: asked.cookie }),
    ...asked.headers,
  };
  const method = asked.method ?? (body === undefined ? "GET" : "POST");
  return new Promise((resolve, reject) => {
    const sent = request({ host: at, port, path, method, headers, agent: false }, (response) => {
      const chunks: Buffer[] = [];
      response.on("data", (chunk: Buffer) => chunks.push(chunk));
      response.on("error", reject);
      response.on("end", () => {
        const text = Buffer.concat(chunks).toString();
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          text,
          code: /^\{"error":\{"code":"([a-z-]+)"/.exec(text)?.[1] ?? "",
          json: <T>() => JSON.parse(text) as T,
        });
      });
    });
    sent.on("error", reject);
    sent.end(body);
  });
}

/** Bytes as they are, onto the wire; what comes back until the other end closes, or so long has passed. */
export function sendRaw(port: number, text: string, forMs = 30_000): Promise<string> {
  return new Promise((resolve) => {
    let got = "";
    const socket = connect({ host: "127.0.0.1", port }, () => socket.write(text, "latin1"));
    const end = () => {
      clearTimeout(timer);
      socket.destroy();
      resolve(got);
    };
    const timer = setTimeout(end, forMs);
    socket.on("data", (chunk) => {
      got += chunk.toString("latin1");
    });
    socket.on("close", end);
    socket.on("error", end);
  });
}

/** Pairs a device over the network's door; what comes back is its cookie. */
export async function pairedCookie(server: TestServer, role: Role, name = ""): Promise<string> {
  const { code } = server.offer(role);
  const answer = await ask(server.networkPort, "/api/pair", { json: { code, ...(name && { name }) } });
  if (answer.status !== 204) throw new Error(answer.text);
  return answer.headers["set-cookie"]![0]!.split(";")[0]!;
}

export interface Heard {
  readonly machine: string;
  readonly sequence: number;
  readonly ids: readonly string[];
}

export interface LiveEar {
  readonly status: number;
  readonly heard: readonly Heard[];
  readonly text: () => string;
  readonly hasEnded: () => boolean;
  close(): void;
}

/** Opens a live connection and keeps what it hears. Resolves once the server has answered. */
export function openEar(
  port: number,
  path = "/api/live?after=0",
  headers: Record<string, string> = {},
): Promise<LiveEar> {
  return new Promise((resolve, reject) => {
    const heard: Heard[] = [];
    const chunks: string[] = [];
    let rest = "";
    let hasEnded = false;
    const all = { host: `127.0.0.1:${port}`, accept: "text/event-stream", ...headers };
    const sent = request({ host: "127.0.0.1", port, path, headers: all, agent: false }, (response) => {
      response.setEncoding("utf8");
      response.on("data", (chunk: string) => {
        chunks.push(chunk);
        const messages = (rest + chunk).split("\n\n");
        rest = messages.pop()!;
        for (const message of messages) {
          const data = /^event: events\nid: \d+\ndata: (.*)$/m.exec(message)?.[1];
          if (data === undefined) continue;
          const { machine, sequence, events } = JSON.parse(data) as {
            machine: string;
            sequence: number;
            events: readonly { id: string }[];
          };
          heard.push({ machine, sequence, ids: events.map(({ id }) => id) });
        }
      });
      response.on("close", () => {
        hasEnded = true;
      });
      response.on("error", () => {});
      resolve({
        status: response.statusCode ?? 0,
        heard,
        text: () => chunks.join(""),
        hasEnded: () => hasEnded,
        close: () => sent.destroy(),
      });
    });
    sent.on("error", reject);
    sent.end();
  });
}

/** Waits until something holds, and fails when it does not even on a very busy computer. */
export async function until(holds: () => boolean, withinMs = 60_000): Promise<void> {
  const end = Date.now() + withinMs;
  while (!holds()) {
    if (Date.now() > end) throw new Error("it did not come about in time");
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

/** A fresh id for a machine. */
export function machineId(): string {
  return randomBytes(16).toString("hex");
}
